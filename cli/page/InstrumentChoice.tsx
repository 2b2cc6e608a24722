import { useEffect, useId, useState } from "preact/hooks";
import { builtInTunings, findTuning, printable, writeInstrument } from "../../src/index.js";
import type { Analyst } from "./Analyst.js";
import { type Choice, isA4Hz, tonics } from "./choices.js";
import { OwnInstrument } from "./form/OwnInstrument.js";
import type { KeptInstrument } from "./keep/Kept.js";
import { readNumber } from "./numbers.js";
import { words } from "./words.js";
import type { KnownString } from "./worker/Messages.js";

const { instrument: said } = words;

interface InstrumentChoiceProps {
  readonly analyst: Analyst;
  readonly choice: Choice;
  readonly kept: readonly KeptInstrument[];
  readonly onChoose: (choice: Choice) => void;
  readonly onKeep: (name: string, yaml: string) => void;
}

/** Which strings are to be heard, at which pitch: a tuning, or an instrument written out. */
export function InstrumentChoice({ analyst, choice, kept, onChoose, onKeep }: InstrumentChoiceProps) {
  const id = useId();
  const [a4Text, setA4Text] = useState(choice.a4Hz === null ? "" : String(choice.a4Hz));
  const [isOpen, setIsOpen] = useState(false);
  const [known, setKnown] = useState<{ name: string; strings: readonly KnownString[] } | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const { from, a4Hz, tonic, yaml } = choice;

  // What is chosen is looked at at once, so that a slip in it shows before a take is read.
  useEffect(() => {
    setFault(null);
    if (from.kind === "nothing") {
      setKnown(null);
      return;
    }
    let isOver = false;
    void analyst.ask({ kind: "instrument", targets: { from, a4Hz, tonic } }, (reply) => {
      if (isOver) return;
      if (reply.kind === "instrument") setKnown(reply);
      else if (reply.kind === "failed") setFault(reply.sentence);
    });
    return () => {
      isOver = true;
    };
  }, [analyst, from, a4Hz, tonic]);

  function choose(value: string): void {
    const [kind, name = ""] = value.split("|");
    if (kind === "tuning") onChoose({ ...choice, from: { kind: "tuning", name } });
    else if (kind === "own") {
      setIsOpen(true);
      onChoose({ ...choice, from: { kind: "instrument", yaml } });
    } else if (kind === "kept") {
      const text = kept.find((one) => one.id === name)?.yaml ?? yaml;
      if (!mayReplace()) onChoose({ ...choice });
      else {
        setIsOpen(false);
        use(text);
      }
    } else onChoose({ ...choice, from: { kind: "nothing" } });
  }

  function use(text: string): void {
    onChoose({ ...choice, yaml: text, from: { kind: "instrument", yaml: text } });
  }

  /** Asks where the instrument that is written out stands nowhere else. */
  function mayReplace(): boolean {
    const elsewhere = [said.example, ...kept.map((one) => one.yaml), ...builtInTunings.map(writeInstrument)];
    return elsewhere.includes(yaml) || confirm(said.replace);
  }

  function beginFrom(tuning: string): void {
    if (!mayReplace()) return;
    setIsOpen(true);
    use(writeInstrument(findTuning(tuning)));
  }

  function keepIt(): void {
    const name = known?.name ?? "";
    const isTaken = kept.some((one) => one.name === name);
    if (!isTaken || confirm(said.keepOver(printable(name)))) onKeep(name, yaml);
  }

  function setA4(text: string): void {
    setA4Text(text);
    onChoose({ ...choice, a4Hz: readA4(text) });
  }

  const isKept = kept.some((one) => one.yaml === yaml);
  const a4IsWrong = a4Text.trim() !== "" && readA4(a4Text) === null;
  const value = from.kind === "tuning" ? `tuning|${from.name}` : from.kind === "nothing" ? "nothing" : "own";
  return (
    <section aria-labelledby={`${id}t`}>
      <h2 id={`${id}t`}>{said.title}</h2>
      <div class="fields">
        <label class="field">
          <span>{said.source}</span>
          <select value={value} onChange={({ currentTarget }) => choose(currentTarget.value)}>
            <option value="nothing">{said.nothing}</option>
            {builtInTunings.map(({ name }) => (
              <option key={name} value={`tuning|${name}`}>
                {said.tuning(name)}
              </option>
            ))}
            {kept.map((one) => (
              <option key={one.id} value={`kept|${one.id}`}>
                {said.kept(printable(one.name))}
              </option>
            ))}
            <option value="own">{said.own}</option>
          </select>
        </label>
        <label class="field">
          <span>{said.a4}</span>
          <input
            autocomplete="off"
            inputMode="decimal"
            value={a4Text}
            placeholder="440"
            aria-invalid={a4IsWrong}
            aria-describedby={`${id}a`}
            onInput={({ currentTarget }) => setA4(currentTarget.value)}
          />
          <small id={`${id}a`} class={a4IsWrong ? "fault" : undefined}>
            {a4IsWrong ? said.a4Wrong : said.a4Help}
          </small>
        </label>
        {from.kind !== "nothing" && (
          <label class="field">
            <span>{said.tonic}</span>
            <select
              value={tonic ?? ""}
              onChange={({ currentTarget }) => onChoose({ ...choice, tonic: currentTarget.value || null })}
            >
              <option value="">{said.noTonic}</option>
              {tonics.map((note) => (
                <option key={note}>{note}</option>
              ))}
            </select>
          </label>
        )}
      </div>
      {from.kind === "tuning" && (
        <p class="actions">
          <button type="button" onClick={() => beginFrom(from.name)}>
            {said.begin}
          </button>
        </p>
      )}
      {from.kind === "instrument" && (
        <>
          <OwnInstrument
            yaml={yaml}
            chosen={{ a4Hz, tonic }}
            isOpen={isOpen}
            onOpen={setIsOpen}
            onYaml={(text) => onChoose({ ...choice, yaml: text })}
          />
          <p class="actions">
            <button type="button" class={yaml === from.yaml ? "" : "main"} onClick={() => use(yaml)}>
              {said.use}
            </button>
            <button
              type="button"
              disabled={isKept || known === null || fault !== null || yaml !== from.yaml}
              onClick={keepIt}
            >
              {isKept ? said.isKept : said.keep}
            </button>
            <span role="status" class="faint">
              {yaml === from.yaml ? "" : said.unused}
            </span>
          </p>
        </>
      )}
      {fault !== null ? (
        <p class="finding problem" role="alert">
          {fault}
        </p>
      ) : (
        known !== null && (
          <p class="faint">{said.strings(known.strings.map(({ name }) => printable(name)).join(", "))}</p>
        )
      )}
    </section>
  );
}

/** Null where it is no pitch that an A4 may have. */
function readA4(text: string): number | null {
  const value = readNumber(text);
  return value !== null && isA4Hz(value) ? value : null;
}
