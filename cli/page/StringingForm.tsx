import { useState } from "preact/hooks";
import { instrumentRanges, printable } from "../../src/index.js";
import type { KeptInstrument } from "./keep/Kept.js";
import { NumberField } from "./NumberField.js";
import { words } from "./words.js";
import type { KnownString, StringingAsked } from "./worker/Messages.js";

const { strung: said } = words;
/** No string of an instrument pulls less or more: our policy. */
const TENSIONS_NEWTON: readonly [number, number] = [1, 1000];

interface StringingFormProps {
  readonly strings: readonly KnownString[];
  /** Instruments that may stand beside the one that is chosen. */
  readonly kept: readonly KeptInstrument[];
  readonly onRun: (asked: StringingAsked) => void;
}

/** What is asked of the strings: another scale, other notes or another instrument beside them, and the weight for a tension. */
export function StringingForm({ strings, kept, onRun }: StringingFormProps) {
  const [againstId, setAgainstId] = useState("");
  const [otherLengthMm, setOtherLengthMm] = useState<number | null | undefined>(null);
  const [tensionNewton, setTensionNewton] = useState<number | null | undefined>(null);
  const [notes, setNotes] = useState<Readonly<Record<string, string>>>({});
  const against = kept.find(({ id }) => id === againstId)?.yaml ?? null;
  const isWrong = tensionNewton === undefined || (against === null && otherLengthMm === undefined);

  function run(): void {
    const retune = strings.flatMap(({ name }) => {
      const note = notes[name]?.trim() ?? "";
      return note === "" ? [] : [[name, note] as const];
    });
    onRun({
      against,
      otherLengthMm: against === null ? (otherLengthMm ?? null) : null,
      retune: against === null ? Object.fromEntries(retune) : {},
      tensionNewton: tensionNewton ?? null,
    });
  }

  return (
    <>
      <div class="fields">
        {kept.length > 0 && (
          <label class="field">
            <span>{said.against}</span>
            <select value={againstId} onChange={({ currentTarget }) => setAgainstId(currentTarget.value)}>
              <option value="">{said.same}</option>
              {kept.map(({ id, name }) => (
                <option key={id} value={id}>
                  {printable(name)}
                </option>
              ))}
            </select>
          </label>
        )}
        {against === null && (
          <NumberField
            label={said.length}
            help={said.lengthHelp}
            range={instrumentRanges.lengthMm}
            first={otherLengthMm ?? null}
            onNumber={setOtherLengthMm}
          />
        )}
        <NumberField
          label={said.tension}
          help={said.tensionHelp}
          range={TENSIONS_NEWTON}
          first={null}
          onNumber={setTensionNewton}
        />
      </div>
      {against === null && (
        <details class="folded">
          <summary>{said.retune}</summary>
          <div class="fields">
            {strings.map(({ name, note }) => (
              <label key={name} class="field">
                <span>{said.noteOf(printable(name), note)}</span>
                <input
                  autocomplete="off"
                  maxLength={8}
                  value={notes[name] ?? ""}
                  onInput={({ currentTarget }) => setNotes({ ...notes, [name]: currentTarget.value })}
                />
              </label>
            ))}
          </div>
        </details>
      )}
      <p class="actions">
        <button type="button" class="main" disabled={isWrong} onClick={run}>
          {words.more.run}
        </button>
      </p>
    </>
  );
}
