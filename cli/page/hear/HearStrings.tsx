import { useEffect, useMemo, useState } from "preact/hooks";
import { type MeasureDocument, printable } from "../../../src/index.js";
import type { Analyst } from "../Analyst.js";
import { words } from "../words.js";
import type { NamedSound } from "../worker/Messages.js";
import { FIRST_VOLUME, Player } from "./Player.js";

const { hear: said } = words;
/** As much of a passage as the ear needs. */
const LONGEST_SECONDS = 8;

type MeasuredString = MeasureDocument["takes"][number]["strings"][number];

interface HearStringsProps {
  readonly analyst: Analyst;
  readonly sound: NamedSound;
  readonly strings: readonly MeasuredString[];
}

/** Each string as it was recorded, and beside it the tone that it should have. */
export function HearStrings({ analyst, sound, strings }: HearStringsProps) {
  const player = useMemo(() => new Player(), []);
  useEffect(() => () => player.close(), [player]);
  const [playing, setPlaying] = useState<string | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const silent = () => setPlaying(null);
  const toggle = (what: string, play: () => void) => {
    setFault(null);
    player.stop();
    if (playing === what) silent();
    else {
      setPlaying(what);
      play();
    }
  };
  const playPassage = ({ perPassage: [passage] }: MeasuredString) => {
    if (passage === undefined) return;
    const { startSeconds } = passage;
    const endSeconds = Math.min(passage.endSeconds, startSeconds + LONGEST_SECONDS);
    void analyst.ask({ kind: "passage", sound, startSeconds, endSeconds }, (reply) => {
      if (reply.kind === "passage") player.playSamples(reply.channels, reply.sampleRateHz, silent);
      else if (reply.kind === "failed") {
        setFault(reply.sentence);
        silent();
      }
    });
  };
  const heard = strings.filter(({ perPassage }) => perPassage.length > 0);
  return (
    <>
      <p class="faint">{said.caution}</p>
      <label class="field">
        <span>{said.volume}</span>
        <input
          type="range"
          min="0"
          max="1"
          step="0.05"
          defaultValue={String(FIRST_VOLUME)}
          onInput={({ currentTarget }) => player.setVolume(Number(currentTarget.value))}
        />
      </label>
      {fault !== null && <p class="finding warning">{fault}</p>}
      <ul class="plain">
        {heard.map((string) => {
          const name = printable(string.name);
          const [own, tone] = [`sound ${string.name}`, `tone ${string.name}`];
          return (
            <li key={string.name} class="recording">
              <b class="name">{name}</b>
              <button
                type="button"
                aria-pressed={playing === own}
                onClick={() => toggle(own, () => playPassage(string))}
              >
                {playing === own ? said.stop : said.sound(name)}
              </button>
              <button
                type="button"
                aria-pressed={playing === tone}
                onClick={() => toggle(tone, () => player.playTone(string.targetHz, silent))}
              >
                {playing === tone ? said.stop : said.tone(name)}
              </button>
            </li>
          );
        })}
      </ul>
    </>
  );
}
