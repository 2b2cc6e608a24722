import { useEffect, useMemo, useState } from "preact/hooks";
import type { MeasureDocument } from "../../src/index.js";
import type { Analyst } from "./Analyst.js";
import { Loudspeaker } from "./Loudspeaker.js";
import { StringSelect } from "./StringSelect.js";
import { words } from "./words.js";
import type { NamedSound } from "./worker/Messages.js";

const { listen: said } = words;
const FIRST_PER_CENT = 10;

interface ListeningProps {
  readonly analyst: Analyst;
  readonly strings: MeasureDocument["takes"][number]["strings"];
  /** Null where the recording is not at hand. */
  readonly sound: NamedSound | null;
}

/** A string's passage, and beside it the tone that it should have. It starts quiet. */
export function Listening({ analyst, strings, sound }: ListeningProps) {
  const [name, setName] = useState(strings[0]?.name ?? "");
  const [perCent, setPerCent] = useState(FIRST_PER_CENT);
  const [isSounding, setIsSounding] = useState(false);
  const loudspeaker = useMemo(() => new Loudspeaker(loudnessOf(FIRST_PER_CENT)), []);
  useEffect(() => () => loudspeaker.stop(), [loudspeaker]);
  const string = strings.find((one) => one.name === name) ?? strings[0];
  if (string === undefined) return null;
  const [longest] = [...string.perPassage].sort((a, b) => secondsOf(b) - secondsOf(a));
  const end = () => setIsSounding(false);

  function playPassage(): void {
    if (sound === null || longest === undefined) return;
    const { startSeconds, endSeconds } = longest;
    void analyst.ask({ kind: "passage", sound, startSeconds, endSeconds }, (reply) => {
      if (reply.kind !== "passage") return;
      loudspeaker.playSamples(reply.samples, reply.sampleRateHz, end);
      setIsSounding(true);
    });
  }

  return (
    <>
      <div class="fields">
        <StringSelect label={said.string} strings={strings} chosen={string.name} onChoose={setName} />
        <label class="field">
          <span>{said.loudness}</span>
          <input
            type="range"
            min={0}
            max={100}
            value={perCent}
            onInput={({ currentTarget }) => {
              setPerCent(currentTarget.valueAsNumber);
              loudspeaker.setLoudness(loudnessOf(currentTarget.valueAsNumber));
            }}
          />
          <small>{said.care}</small>
        </label>
      </div>
      <p class="actions">
        <button type="button" disabled={sound === null || longest === undefined} onClick={playPassage}>
          {said.passage}
        </button>
        <button
          type="button"
          onClick={() => {
            loudspeaker.playTone(string.targetHz, end);
            setIsSounding(true);
          }}
        >
          {said.target}
        </button>
        <button
          type="button"
          disabled={!isSounding}
          onClick={() => {
            loudspeaker.stop();
            end();
          }}
        >
          {said.stop}
        </button>
      </p>
      {sound === null && <p class="faint">{said.noSound}</p>}
    </>
  );
}

/** Half way up sounds about half as loud: loudness goes with a power of the amplitude (common practice, no source). */
function loudnessOf(perCent: number): number {
  return (perCent / 100) ** 1.7;
}

function secondsOf(passage: { readonly startSeconds: number; readonly endSeconds: number }): number {
  return passage.endSeconds - passage.startSeconds;
}
