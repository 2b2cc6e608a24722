import { useId, useState } from "preact/hooks";
import { readSignedNumber } from "./numbers.js";
import { words } from "./words.js";

interface NumberFieldProps {
  readonly label: string;
  /** Smallest and largest number that will do. */
  readonly range: readonly [number, number];
  /** What stands there at first. */
  readonly first: number | null;
  readonly help?: string;
  /** Null where the field is empty; undefined where what stands in it won't do. */
  readonly onNumber: (value: number | null | undefined) => void;
}

/** A field for a number with the decimal sign of any habit; it may be left empty. */
export function NumberField({ label, range: [least, most], first, help = "", onNumber }: NumberFieldProps) {
  const id = useId();
  const [text, setText] = useState(first === null ? "" : String(first));
  const read = (given: string) => {
    const value = readSignedNumber(given);
    if (given.trim() === "") return null;
    return value !== null && value >= least && value <= most ? value : undefined;
  };
  const isWrong = read(text) === undefined;
  const note = isWrong ? words.numberWrong(least, most) : help;
  return (
    <label class="field">
      <span>{label}</span>
      <input
        autocomplete="off"
        inputMode={least < 0 ? "text" : "decimal"}
        value={text}
        aria-invalid={isWrong}
        aria-describedby={`${id}n`}
        onInput={({ currentTarget }) => {
          setText(currentTarget.value);
          onNumber(read(currentTarget.value));
        }}
      />
      <small id={`${id}n`} class={isWrong ? "fault" : undefined}>
        {note}
      </small>
    </label>
  );
}
