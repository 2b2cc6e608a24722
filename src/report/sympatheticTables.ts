import type { SympatheticDocument } from "../sympathetic/sympatheticDocumentSchema.js";
import { intervalText, roundedOutward } from "./intervalText.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";
import { isToTune } from "./sympatheticAdvice.js";
import type { TableData } from "./textTable.js";

type StringDocument = SympatheticDocument["strings"][number];

/** Target and pitch of every string, and what to do with it. */
export function sympatheticPitchData(strings: readonly StringDocument[]): TableData {
  const rows = strings.map((string) => {
    const { deviationCents, interval95Cents, frequencyHz } = string;
    if (deviationCents === null || interval95Cents === null || frequencyHz === null) {
      return [printable(string.name), string.targetHz.toFixed(2), "-", "-", "-", "", "not heard"];
    }
    const way = deviationCents > 0 ? "down" : "up";
    return [
      printable(string.name),
      string.targetHz.toFixed(2),
      frequencyHz.toFixed(2),
      signed(deviationCents, 1),
      intervalText(interval95Cents, 1),
      String(string.plucks.length),
      isToTune(string) ? `tune ${way}` : "leave",
    ];
  });
  return {
    columns: [
      { heading: ["string"], align: "left" },
      { heading: ["target", "Hz"], align: "right" },
      { heading: ["heard", "Hz"], align: "right" },
      { heading: ["off", "cents"], align: "right" },
      { heading: ["95 % sure", "between"], align: "right" },
      { heading: ["plucks"], align: "right" },
      { heading: [""], align: "left" },
    ],
    rows,
  };
}

/** How each string that was heard rings, answers and is stiff. */
export function sympatheticCharacterData(strings: readonly StringDocument[]): TableData {
  const rows = strings.map((string) => {
    const stretch = stretchInterval(string);
    const glides = string.plucks.map(({ glideCents }) => glideCents);
    const unsure = Math.max(...string.plucks.map((pluck) => 1.96 * pluck.glideStandardDeviationCents));
    return [
      printable(string.name),
      rangeText(string.decayInterval95Seconds, 2),
      string.answerCents === null ? "-" : string.answerCents.toFixed(1),
      stretch === null ? "-" : rangeText(stretch, 2),
      `${Math.max(...glides).toFixed(1)} ±${unsure.toFixed(1)}`,
      string.levelDb === null ? "-" : string.levelDb.toFixed(0),
      string.spreadCents === null ? "-" : string.spreadCents.toFixed(2),
    ];
  });
  return {
    columns: [
      { heading: ["string"], align: "left" },
      { heading: ["rings, s", "95 % sure"], align: "right" },
      { heading: ["answers", "+- cents"], align: "right" },
      { heading: ["octave wide", "by, cents"], align: "right" },
      { heading: ["glide", "cents"], align: "right" },
      { heading: ["level", "dB"], align: "right" },
      { heading: ["plucks differ", "by, cents"], align: "right" },
    ],
    rows,
  };
}

function stretchInterval({ inharmonicityInterval95 }: StringDocument): readonly [number, number] | null {
  if (inharmonicityInterval95 === null) return null;
  const stretch = (stiffness: number) =>
    600 * Math.log2((1 + 4 * Math.max(0, stiffness)) / (1 + Math.max(0, stiffness)));
  return [stretch(inharmonicityInterval95[0]), stretch(inharmonicityInterval95[1])];
}

function rangeText(interval: readonly [number, number] | null, digits: number): string {
  if (interval === null) return "-";
  const [low, high] = roundedOutward([Math.max(0, interval[0]), interval[1]], digits);
  return `${low.toFixed(digits)} to ${high.toFixed(digits)}`;
}
