import { useState } from "preact/hooks";
import { type CompareDocument, compareCsv, documentJson, printable } from "../../src/index.js";
import { AnalysisState } from "./AnalysisState.js";
import type { Analyst } from "./Analyst.js";
import { Answer } from "./Answer.js";
import { FilePicker, SOUND_FILES } from "./FilePicker.js";
import { MicrophoneField } from "./MicrophoneField.js";
import { SaveButtons } from "./SaveButtons.js";
import { Sheet } from "./Sheet.js";
import { SoundChoice } from "./SoundChoice.js";
import { type ChosenSound, useAnalysis } from "./useAnalysis.js";
import { words } from "./words.js";
import type { AskedMicrophone, TargetsAsked } from "./worker/Messages.js";

const { compare: said } = words;

interface Side {
  readonly name: string;
  readonly takes: readonly ChosenSound[];
}

const FEWEST_SIDES = 2;
const emptySide = (index: number): Side => ({ name: said.sides[index] ?? "", takes: [] });

interface CompareTabProps {
  readonly analyst: Analyst;
  readonly targets: TargetsAsked;
  /** Recordings that are at hand already. */
  readonly sounds: readonly ChosenSound[];
}

/** Two sides or more, each with its takes; the verdict first, then every take and the curves. */
export function CompareTab({ analyst, targets, sounds }: CompareTabProps) {
  const [sides, setSides] = useState<readonly Side[]>([0, 1].map(emptySide));
  const [equalGain, setEqualGain] = useState(false);
  const [microphone, setMicrophone] = useState<AskedMicrophone | null>(null);
  const analysis = useAnalysis(analyst, (reply) => (reply.kind === "compared" ? reply.document : null));
  const change = (index: number, next: Partial<Side>) =>
    setSides((all) => all.map((side, i) => (i === index ? { ...side, ...next } : side)));
  const names = sides.map(({ name }) => name.trim());
  const isReady =
    sides.every(({ takes }) => takes.length > 0) &&
    names.every((name, i) => name !== "" && names.indexOf(name) === i);

  function run(): void {
    analysis.run(
      sides.flatMap(({ takes }) => takes),
      (ready) => {
        const left = [...ready];
        return {
          kind: "compare",
          equalGain,
          microphone,
          targets,
          sides: sides.map(({ takes }, i) => ({ name: names[i]!, takes: left.splice(0, takes.length) })),
        };
      },
    );
  }

  return (
    <>
      <h1>{said.title}</h1>
      {analysis.page !== null && <Answer sentences={analysis.page.answer} />}
      <p>{said.lead}</p>
      <div class="sides">
        {sides.map((side, i) => (
          // Sides keep their places; their names are being typed.
          <section key={i}>
            <h2>{said.sides[i]}</h2>
            {i >= FEWEST_SIDES && (
              <p class="actions">
                <button type="button" onClick={() => setSides(sides.filter((_, other) => other !== i))}>
                  {said.removeSide}
                </button>
              </p>
            )}
            <label class="field">
              <span>{said.sideName}</span>
              <input
                autocomplete="off"
                value={side.name}
                maxLength={60}
                onInput={({ currentTarget }) => change(i, { name: currentTarget.value })}
              />
            </label>
            <FilePicker
              label={said.add}
              hint={said.drop}
              accept={SOUND_FILES}
              onFiles={(files) =>
                change(i, {
                  takes: [...side.takes, ...files.map((file) => ({ name: file.name, blob: file }))],
                })
              }
            />
            <SoundChoice
              label={said.addKept}
              sounds={sounds}
              onChoose={(sound) => change(i, { takes: [...side.takes, sound] })}
            />
            <ul class="plain">
              {side.takes.map((take, t) => (
                // A take may have been added twice; that is told once they are to be compared.
                <li key={t} class="row">
                  <p class="name">{printable(take.name)}</p>
                  <p class="actions">
                    <button
                      type="button"
                      onClick={() => change(i, { takes: side.takes.filter((_, other) => other !== t) })}
                    >
                      {said.remove(printable(take.name))}
                    </button>
                  </p>
                </li>
              ))}
            </ul>
          </section>
        ))}
      </div>
      <label class="check">
        <input
          type="checkbox"
          checked={equalGain}
          onChange={({ currentTarget }) => setEqualGain(currentTarget.checked)}
        />
        <span>{said.equalGain}</span>
      </label>
      <details class="folded">
        <summary>
          {microphone === null ? words.choices.title : words.microphone.short(printable(microphone.name))}
        </summary>
        <MicrophoneField chosen={microphone} onChoose={setMicrophone} />
      </details>
      <p class="actions">
        <button type="button" class="main" disabled={!isReady || analysis.share !== null} onClick={run}>
          {said.run}
        </button>
        {sides.length < said.sides.length && (
          <button type="button" onClick={() => setSides([...sides, emptySide(sides.length)])}>
            {said.addSide}
          </button>
        )}
      </p>
      {!isReady && <p class="faint">{said.need}</p>}
      <AnalysisState analysis={analysis} busy={said.busy} stop={said.stop} />
      {analysis.page !== null && <Sheet page={analysis.page} />}
      {analysis.result !== null && <SaveComparison document={analysis.result} />}
    </>
  );
}

function SaveComparison({ document }: { readonly document: CompareDocument }) {
  return (
    <SaveButtons
      name={document.sides.map(({ name }) => name).join(" ")}
      json={() => documentJson(document)}
      csv={() => compareCsv(document)}
    />
  );
}
