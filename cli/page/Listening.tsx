import type { Listening as Playing } from "./useListening.js";
import { words } from "./words.js";

const { listen: said } = words;

interface ListeningProps {
  readonly listening: Playing;
  /** Whether the recording is at hand. */
  readonly hasSound: boolean;
}

/** How loud strings are heard that are tapped in their table, and how to be quiet. It starts quiet. */
export function Listening({ listening, hasSound }: ListeningProps) {
  return (
    <div class="fields">
      <label class="field">
        <span>{said.loudness}</span>
        <input
          type="range"
          min={0}
          max={100}
          value={listening.perCent}
          onInput={({ currentTarget }) => listening.setPerCent(currentTarget.valueAsNumber)}
        />
        <small>{said.care}</small>
      </label>
      <div>
        <p class="actions">
          <button type="button" disabled={listening.stop === null} onClick={() => listening.stop?.()}>
            {said.stop}
          </button>
        </p>
        {!hasSound && <p class="faint">{said.noSound}</p>}
      </div>
    </div>
  );
}
