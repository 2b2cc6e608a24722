import { printable } from "../../src/index.js";
import type { Analyst } from "./Analyst.js";
import type { BenchReading } from "./BenchTake.js";
import { ReadingView } from "./ReadingView.js";
import { words } from "./words.js";
import type { NamedSound } from "./worker/Messages.js";

const { read } = words;

/** A reading that can be looked at. */
export interface ShownReading {
  readonly id: string;
  readonly name: string;
  readonly reading: BenchReading;
  /** Null where the recording is not on the bench. */
  readonly sound: NamedSound | null;
}

interface ReadTabProps {
  readonly analyst: Analyst;
  readonly readings: readonly ShownReading[];
  readonly shownId: string | null;
  readonly onShow: (id: string) => void;
}

/** What a take came to. */
export function ReadTab({ analyst, readings, shownId, onShow }: ReadTabProps) {
  const shown = readings.find(({ id }) => id === shownId) ?? readings[0];
  if (shown === undefined) {
    return (
      <>
        <h1>{read.title}</h1>
        <p>{read.none}</p>
      </>
    );
  }
  return (
    <>
      <h1>{printable(shown.name)}</h1>
      {readings.length > 1 && (
        <label class="field">
          <span>{read.which}</span>
          <select value={shown.id} onChange={({ currentTarget }) => onShow(currentTarget.value)}>
            {readings.map(({ id, name }) => (
              <option key={id} value={id}>
                {printable(name)}
              </option>
            ))}
          </select>
        </label>
      )}
      <ReadingView key={shown.id} analyst={analyst} reading={shown.reading} sound={shown.sound} />
    </>
  );
}
