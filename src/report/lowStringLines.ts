import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { wrapText } from "./wrapText.js";

/** From one take less than this is no difference. */
const CLEARLY_DB = 3;

type LowString = NonNullable<MeasureDocument["takes"][number]["lowRegister"]>["lowStrings"][number];

/** Whether the tuning reaches the listener: how each low string is heard, and what it brings below and above the edge. */
export function lowStringLines(strings: readonly LowString[], lowEdgeHz: number, width: number): string[] {
  const sentences = strings.flatMap((one) => {
    const heard = heardSentence(one);
    return heard === null ? [] : [heard];
  });
  const known = strings.filter(({ lowLevelDb, restLevelDb }) => lowLevelDb !== null && restLevelDb !== null);
  const brought = known.map(({ string, lowLevelDb, restLevelDb }) => {
    const more = (lowLevelDb ?? 0) - (restLevelDb ?? 0);
    return `${printable(string)} ${signed(lowLevelDb ?? 0, 0)} and ${signed(restLevelDb ?? 0, 0)}${more <= -CLEARLY_DB ? " (more middle than low)" : more >= CLEARLY_DB ? " (more low than middle)" : ""}`;
  });
  if (brought.length > 1) {
    sentences.push(
      `What each brings below and above ${lowEdgeHz.toFixed(0)} Hz, dB full scale: ${brought.join("; ")}. How strongly each was bowed is in it.`,
    );
  }
  return sentences.flatMap((line) => wrapText(line, width, "  ", "    "));
}

function heardSentence({
  string,
  carriers,
  fundamentalBelowEvenDb: below,
  fundamentalInterval95Db: interval,
}: LowString): string | null {
  if (carriers.length === 0) return null;
  const heard = `${printable(string)} is heard through ${partialsText(carriers)}`;
  if (below === null || interval === null) return `${heard}.`;
  const range = `95 %: ${intervalText(interval, 0)}`;
  if (interval[0] > 0) {
    return `${heard}; its fundamental arrives ${below.toFixed(0)} dB under what an even body would give (${range}).`;
  }
  if (interval[1] < 0) {
    return `${heard}; its fundamental arrives ${(-below).toFixed(0)} dB over what an even body would give (${range}).`;
  }
  return `${heard}; whether the body weakens its fundamental can't be said (${signed(below, 0)} dB under an even body's, ${range}).`;
}

/** Numbers of partials, runs of them drawn together: `partials 2 to 4 and 6`. */
function partialsText(numbers: readonly number[]): string {
  if (numbers.length === 1) return numbers[0] === 1 ? "its fundamental alone" : `partial ${numbers[0]}`;
  const runs: [number, number][] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last !== undefined && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  const texts = runs.flatMap(([from, to]) =>
    from === to ? [`${from}`] : to === from + 1 ? [`${from}`, `${to}`] : [`${from} to ${to}`],
  );
  return `partials ${texts.length === 1 ? texts[0] : `${texts.slice(0, -1).join(", ")} and ${texts.at(-1)}`}`;
}
