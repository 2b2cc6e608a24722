import { FilePicker, SOUND_FILES } from "./FilePicker.js";
import { SoundChoice } from "./SoundChoice.js";
import type { ChosenSound } from "./useAnalysis.js";

interface OneSoundProps {
  readonly choose: string;
  readonly fromBench: string;
  /** Recordings that are at hand already. */
  readonly sounds: readonly ChosenSound[];
  readonly onChoose: (sound: ChosenSound) => void;
}

/** One recording: chosen, dropped, or taken from those at hand. */
export function OneSound({ choose, fromBench, sounds, onChoose }: OneSoundProps) {
  return (
    <>
      <FilePicker
        label={choose}
        hint=""
        accept={SOUND_FILES}
        isSingle
        onFiles={([file]) => file && onChoose({ name: file.name, blob: file })}
      />
      <SoundChoice label={fromBench} sounds={sounds} onChoose={onChoose} />
    </>
  );
}
