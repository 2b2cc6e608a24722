import { Findings } from "../Findings.js";
import { numberText } from "../numbers.js";
import { words } from "../words.js";
import type { TargetsAsked } from "../worker/Messages.js";
import { LiveTable } from "./LiveTable.js";
import { useRecorder } from "./useRecorder.js";

const { record: said } = words;
/** What the level is shown down to. */
const FLOOR_DB = -60;

interface RecordPanelProps {
  readonly targets: TargetsAsked;
  readonly onTake: (take: { readonly name: string; readonly blob: Blob }) => void;
}

/** Records a take, and shows every string meanwhile. */
export function RecordPanel({ targets, onTake }: RecordPanelProps) {
  const { recording, start, stop } = useRecorder((blob) => {
    const name = said.takeName(new Date());
    // A file knows when it was made.
    onTake({ name, blob: new File([blob], name, { type: blob.type }) });
  });
  const { state, seconds, reading, findings, isClipped, gapCount, stillOn, fault, sentence } = recording;
  const isOn = state === "recording";
  const peakDb = reading?.peakDb ?? null;
  return (
    <section aria-labelledby="record">
      <h2 id="record">{said.title}</h2>
      <p class="recording">
        <button
          type="button"
          class="main"
          disabled={state === "asking"}
          onClick={() => (isOn ? stop() : void start(targets))}
        >
          {isOn ? said.stop : state === "asking" ? said.asking : said.start}
        </button>
        {isOn && <span role="timer">{said.seconds(numberText(seconds, 0))}</span>}
        {isOn && peakDb !== null && (
          <label>
            {said.level(numberText(peakDb, 0))}
            <meter min={FLOOR_DB} max={0} low={FLOOR_DB / 2} high={-3} value={Math.max(FLOOR_DB, peakDb)} />
          </label>
        )}
      </p>
      <div role="status">
        {isClipped && <p class="finding problem">{said.clipped}</p>}
        {gapCount > 0 && <p class="finding warning">{said.gaps(gapCount)}</p>}
        {stillOn.length > 0 && (
          <p class="finding warning">{said.stillOn(stillOn.map((help) => said.helps[help]).join(", "))}</p>
        )}
        {fault !== null && <p class="finding warning">{said.faults[fault]}</p>}
        {sentence !== null && <p class="finding warning">{sentence}</p>}
      </div>
      {isOn && <Findings findings={findings.filter(({ code }) => code !== "clipping")} />}
      {isOn && reading !== null && <p class="faint">{said.sounds[reading.sound]}</p>}
      {isOn && reading !== null && reading.strings.length > 0 && <LiveTable reading={reading} />}
    </section>
  );
}
