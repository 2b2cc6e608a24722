import { saveFile, withEnding } from "./saveFile.js";
import { words } from "./words.js";

interface SaveButtonsProps {
  /** The recording's name, or what else the files are to be called by. */
  readonly name: string;
  /** The document as the command prints it. */
  readonly json: () => string;
  readonly csv: () => string;
}

/** Saves what was read, as the files that the command writes. */
export function SaveButtons({ name, json, csv }: SaveButtonsProps) {
  return (
    <p class="actions">
      <button type="button" onClick={() => saveFile(withEnding(name, ".json"), json())}>
        {words.save.document}
      </button>
      <button type="button" onClick={() => saveFile(withEnding(name, ".csv"), csv())}>
        {words.save.table}
      </button>
    </p>
  );
}
