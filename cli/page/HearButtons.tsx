import { type MeasureDocument, printable } from "../../src/index.js";
import type { Listening } from "./useListening.js";
import { words } from "./words.js";

const { listen: said } = words;

interface HearButtonsProps {
  readonly string: MeasureDocument["takes"][number]["strings"][number];
  readonly listening: Listening;
}

/** Taps that let a string be heard, and beside it the tone it should have; the same tap again is quiet. */
export function HearButtons({ string, listening }: HearButtonsProps) {
  return (
    <span class="hear">
      {(["passage", "target"] as const).map((what) => {
        const play = listening.play(string, what);
        const isOn = listening.isOn(string, what);
        return (
          <button
            key={what}
            type="button"
            aria-label={said.labels[what](printable(string.name))}
            aria-pressed={isOn}
            disabled={play === null}
            onClick={isOn ? (listening.stop ?? undefined) : (play ?? undefined)}
          >
            {said[what]}
          </button>
        );
      })}
    </span>
  );
}
