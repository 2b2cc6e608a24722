import type { ComponentChildren } from "preact";
import { documentJson, measureCsv, printable } from "../../src/index.js";
import type { Analyst } from "./Analyst.js";
import type { BenchReading } from "./BenchTake.js";
import { Findings } from "./Findings.js";
import { Listening } from "./Listening.js";
import { PairsTable } from "./PairsTable.js";
import { SaveButtons } from "./SaveButtons.js";
import { Sheet } from "./Sheet.js";
import { StringsTable } from "./StringsTable.js";
import { useListening } from "./useListening.js";
import { words } from "./words.js";
import type { NamedSound } from "./worker/Messages.js";

const { read } = words;

interface ReadingViewProps {
  readonly analyst: Analyst;
  readonly reading: BenchReading;
  /** Null where the recording is not on the bench. */
  readonly sound: NamedSound | null;
}

/** One reading: the answer, the strings, what else was heard, then pictures. */
export function ReadingView({ analyst, reading, sound }: ReadingViewProps) {
  const { document, answer, page } = reading;
  const take = document.takes[0]!;
  const listening = useListening(analyst, sound);
  const findings = [
    ...take.findings,
    ...take.strings.flatMap(({ name, findings }) =>
      findings.map(({ severity, message }) => ({
        severity,
        message: `${read.findingsOf(printable(name))}${message}`,
      })),
    ),
  ];
  return (
    <>
      {page !== null && <p class="faint">{page.subtitle}</p>}
      <div class="answer">
        {answer.inShort.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        {answer.inShort.length === 0 && <p>{read.noString}</p>}
      </div>
      <Part title={read.strings} isShown>
        {take.strings.length > 0 && <Listening listening={listening} hasSound={sound !== null} />}
        <StringsTable document={document} answer={answer} listening={listening} />
        <Lines lines={answer.reference} />
      </Part>
      <Part title={read.steps} isShown={answer.steps.length > 0}>
        <Lines lines={answer.steps} />
      </Part>
      <Part title={read.pairs} isShown={take.pairs.length > 0}>
        <PairsTable pairs={take.pairs} />
      </Part>
      <Part title={read.findings} isShown={findings.length > 0}>
        <Findings findings={findings} />
      </Part>
      <Part title={read.low} isShown={answer.lowRegister.length > 0}>
        <Lines lines={answer.lowRegister} />
      </Part>
      <Part title={read.wheel} isShown={answer.wheel.length > 0}>
        <Lines lines={answer.wheel} />
      </Part>
      <Part title={read.charts} isShown>
        {page === null ? (
          <p class="faint">{read.drawing}</p>
        ) : (
          <Sheet page={page} without={["text", "list", "table", "findings"]} />
        )}
      </Part>
      <SaveButtons name={take.file} json={() => documentJson(document)} csv={() => measureCsv(document)} />
    </>
  );
}

function Part(props: {
  readonly title: string;
  readonly isShown: boolean;
  readonly children: ComponentChildren;
}) {
  if (!props.isShown) return null;
  return (
    <section>
      <h2>{props.title}</h2>
      {props.children}
    </section>
  );
}

function Lines({ lines }: { readonly lines: readonly string[] }) {
  return (
    <>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </>
  );
}
