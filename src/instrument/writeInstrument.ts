import { Document, isMap, isSeq } from "yaml";
import type { Instrument, InstrumentString } from "./Instrument.js";
import { nameStrings } from "./nameStrings.js";
import { onOneLine } from "./onOneLine.js";

/**
 * An instrument as the text of an instrument file, one line a string: {@link readInstrument} makes the same instrument of it. What is as it
 * would be without being said is left out, but for A4.
 *
 * @example
 * ```ts
 * writeInstrument(findTuning("alto")); // "name: alto\na4Hz: 440\nstrings:\n  - { role: drone, note: C2 }\n" and so on
 * ```
 */
export function writeInstrument({ name, a4Hz, temperament, tonic, drones, strings }: Instrument): string {
  const unnamed = nameStrings(strings.map(({ note }) => ({ name: null, note: note ?? "" })));
  const areNamed = strings.some((string, index) => string.note === null || string.name !== unnamed[index]);
  const document = new Document({
    name,
    a4Hz,
    ...(temperament !== "equal" && { temperament }),
    ...(tonic !== null && { tonic }),
    ...(drones !== "pure" && { drones }),
    strings: strings.map((string) => entriesOf(string, areNamed)),
  });
  const list = document.get("strings");
  if (isSeq(list)) for (const string of list.items) if (isMap(string)) string.flow = true;
  return document.toString(onOneLine);
}

function entriesOf(string: InstrumentString, isNamed: boolean): Record<string, unknown> {
  const said = Object.entries(string).filter(
    ([key, value]) =>
      !(
        value === null ||
        (key === "name" && !isNamed) ||
        (key === "offsetCents" && value === 0) ||
        (key === "capo" && string.capo.length === 0)
      ),
  );
  return Object.fromEntries(said);
}
