import { printable } from "../../src/index.js";
import { words } from "./words.js";

interface TakeOffProps {
  /** What is chosen; null where nothing is, and nothing is shown. */
  readonly chosen: { readonly name: string } | null;
  readonly onTakeOff: () => void;
}

/** A button that takes off again what was chosen. */
export function TakeOff({ chosen, onTakeOff }: TakeOffProps) {
  if (chosen === null) return null;
  return (
    <p class="actions">
      <button type="button" onClick={onTakeOff}>
        {words.compare.remove(printable(chosen.name))}
      </button>
    </p>
  );
}
