import { OneSound } from "./OneSound.js";
import { TakeOff } from "./TakeOff.js";
import type { ChosenSound } from "./useAnalysis.js";
import { words } from "./words.js";

interface SoundFieldProps {
  readonly choose: string;
  /** Recordings that are at hand already. */
  readonly sounds: readonly ChosenSound[];
  /** Null where none is chosen. */
  readonly chosen: ChosenSound | null;
  readonly onChoose: (sound: ChosenSound | null) => void;
}

/** A recording that may be chosen beside another one, and taken off again. */
export function SoundField({ choose, sounds, chosen, onChoose }: SoundFieldProps) {
  return (
    <>
      <OneSound choose={choose} fromBench={words.more.fromBench} sounds={sounds} onChoose={onChoose} />
      <TakeOff chosen={chosen} onTakeOff={() => onChoose(null)} />
    </>
  );
}
