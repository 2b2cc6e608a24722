import { useState } from "preact/hooks";
import { logLimits, parseMoment, printable, workNote } from "../../src/index.js";
import type { KeptReading, TakeNotes } from "./keep/Kept.js";
import { notesOf } from "./keep/notesOf.js";
import { NumberField } from "./NumberField.js";
import { numberText } from "./numbers.js";
import { words } from "./words.js";

const { history: said } = words;

interface ReadingNotesProps {
  readonly reading: KeptReading;
  readonly onNotes: (notes: TakeNotes) => void;
}

/** When a take was made, the weather, and the work done before it: seen in short, and to be written down. */
export function ReadingNotes({ reading, onNotes }: ReadingNotesProps) {
  const notes = notesOf(reading);
  const [givenDate = "", givenTime = ""] = notes.takenAt.split("T");
  const [date, setDate] = useState(givenDate);
  const [time, setTime] = useState(givenTime);
  const [temperatureC, setTemperatureC] = useState<number | null | undefined>(notes.temperatureC);
  const [humidityPercent, setHumidityPercent] = useState<number | null | undefined>(notes.humidityPercent);
  const [work, setWork] = useState(notes.work ?? "");

  const takenAt = time === "" ? date : `${date}T${time}`;
  const note = workNote(work);
  const isLong = note === null && work.trim() !== "";
  const isWrong =
    parseMoment(takenAt) === null || temperatureC === undefined || humidityPercent === undefined || isLong;

  function write(): void {
    if (isWrong) return;
    const takenAtBasis = takenAt === notes.takenAt ? notes.takenAtBasis : "given";
    onNotes({ takenAt, takenAtBasis, temperatureC, humidityPercent, work: note });
  }

  return (
    <details class="folded">
      <summary>{shortly(notes)}</summary>
      <div class="fields">
        <label class="field">
          <span>{said.date}</span>
          <input
            type="date"
            required
            value={date}
            onInput={({ currentTarget }) => setDate(currentTarget.value)}
          />
        </label>
        <label class="field">
          <span>{said.time}</span>
          <input
            type="time"
            step={1}
            value={time}
            onInput={({ currentTarget }) => setTime(currentTarget.value)}
          />
          <small>{said.timeHelp}</small>
        </label>
        <NumberField
          label={said.temperature}
          range={logLimits.temperatureC}
          first={notes.temperatureC}
          onNumber={setTemperatureC}
        />
        <NumberField
          label={said.humidity}
          range={logLimits.humidityPercent}
          first={notes.humidityPercent}
          onNumber={setHumidityPercent}
        />
      </div>
      <label class="field">
        <span>{said.work}</span>
        <input
          autocomplete="off"
          maxLength={logLimits.workCharacters}
          value={work}
          onInput={({ currentTarget }) => setWork(currentTarget.value)}
        />
        <small>{said.workHelp}</small>
      </label>
      <p class="actions">
        <button type="button" class="main" disabled={isWrong} onClick={write}>
          {said.write}
        </button>
      </p>
    </details>
  );
}

function shortly({ takenAt, temperatureC, humidityPercent, work }: TakeNotes): string {
  return [
    said.taken(takenAt.replace("T", " ")),
    ...(temperatureC === null ? [] : [said.degrees(numberText(temperatureC, 1))]),
    ...(humidityPercent === null ? [] : [said.percent(numberText(humidityPercent, 0))]),
    ...(work === null ? [] : [printable(work)]),
  ].join(", ");
}
