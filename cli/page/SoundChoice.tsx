import { printable } from "../../src/index.js";
import type { ChosenSound } from "./useAnalysis.js";
import { words } from "./words.js";

interface SoundChoiceProps {
  readonly label: string;
  readonly sounds: readonly ChosenSound[];
  readonly onChoose: (sound: ChosenSound) => void;
}

/** A list of recordings at hand, on the bench or kept; choosing one hands it over. */
export function SoundChoice({ label, sounds, onChoose }: SoundChoiceProps) {
  if (sounds.length === 0) return null;
  return (
    <label class="field">
      <span>{label}</span>
      <select
        value=""
        onChange={({ currentTarget }) => {
          const sound = sounds[Number(currentTarget.value)];
          if (currentTarget.value !== "" && sound !== undefined) onChoose(sound);
          currentTarget.value = "";
        }}
      >
        <option value="">{words.compare.pick}</option>
        {sounds.map(({ name }, i) => (
          // Two recordings may have one name.
          <option key={i} value={i}>
            {printable(name)}
          </option>
        ))}
      </select>
    </label>
  );
}
