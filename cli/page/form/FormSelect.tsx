import { useId } from "preact/hooks";
import { printable } from "../../../src/index.js";

interface FormSelectProps {
  readonly label: string;
  /** The text as the file has it. */
  readonly value: string;
  readonly fault: string | null;
  readonly hint?: string | undefined;
  /** Each by the text that the file has for it. */
  readonly options: readonly (readonly [value: string, label: string])[];
  readonly onText: (text: string) => void;
}

/** An entry of the instrument that is one of a few. What the file has instead is shown as it stands there. */
export function FormSelect({ label, value, fault, hint, options, onText }: FormSelectProps) {
  const id = useId();
  const said = fault ?? hint;
  const isKnown = options.some(([known]) => known === value);
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-invalid={fault !== null}
        aria-describedby={said === undefined ? undefined : `${id}s`}
        onChange={({ currentTarget }) => onText(currentTarget.value)}
      >
        {!isKnown && <option value={value}>{printable(value)}</option>}
        {options.map(([known, text]) => (
          <option key={known} value={known}>
            {text}
          </option>
        ))}
      </select>
      {said !== undefined && (
        <small id={`${id}s`} class={fault === null ? undefined : "fault"}>
          {said}
        </small>
      )}
    </div>
  );
}
