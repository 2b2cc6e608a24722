import { printable } from "../../src/index.js";

interface StringSelectProps {
  readonly label: string;
  readonly strings: readonly { readonly name: string }[];
  /** The string that is chosen; null where none is yet. */
  readonly chosen: string | null;
  /** What stands there while none is chosen. */
  readonly none?: string;
  /** Whether none may be chosen again. */
  readonly isFree?: boolean;
  readonly onChoose: (name: string) => void;
}

/** A choice of one string by its name. */
export function StringSelect({
  label,
  strings,
  chosen,
  none = "",
  isFree = false,
  onChoose,
}: StringSelectProps) {
  return (
    <label class="field">
      <span>{label}</span>
      <select value={chosen ?? ""} onChange={({ currentTarget }) => onChoose(currentTarget.value)}>
        {(chosen === null || isFree) && <option value="">{none}</option>}
        {strings.map(({ name }) => (
          <option key={name} value={name}>
            {printable(name)}
          </option>
        ))}
      </select>
    </label>
  );
}
