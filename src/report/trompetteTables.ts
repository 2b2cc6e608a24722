import type { TrompetteDocument } from "../trompette/trompetteDocumentSchema.js";
import { intervalText, roundedOutward } from "./intervalText.js";
import { signed } from "./signed.js";
import type { NotedTable, TableData } from "./textTable.js";

/** More strokes than this are not listed one by one. */
const MOST_LISTED = 60;

/** Strength, length, evenness and pace of all strokes together. */
export function trompetteTogetherData(document: TrompetteDocument): TableData {
  const { strengthDb, strengthSpreadDb, meanDurationSeconds, timingSpreadSeconds } = document;
  const inMs = (interval: readonly [number, number]): [number, number] => [
    1000 * interval[0],
    1000 * interval[1],
  ];
  const range = (interval: readonly [number, number] | null, digits: number) => {
    if (interval === null) return "too few";
    const [low, high] = roundedOutward(interval, digits);
    return `${low.toFixed(digits)} to ${high.toFixed(digits)}`;
  };
  const rows: string[][] = [];
  if (strengthDb !== null) {
    const interval = strengthDb.interval95;
    rows.push([
      "strength, dB",
      signed(strengthDb.mean, 1),
      interval === null ? "too few" : intervalText(interval, 1),
    ]);
  }
  if (strengthSpreadDb !== null) {
    rows.push([
      "  spread, dB",
      strengthSpreadDb.standardDeviation.toFixed(1),
      range(strengthSpreadDb.interval95, 1),
    ]);
  }
  if (meanDurationSeconds !== null) {
    const interval = meanDurationSeconds.interval95;
    rows.push([
      "lasts, ms",
      (1000 * meanDurationSeconds.mean).toFixed(0),
      range(interval && inMs(interval), 0),
    ]);
  }
  if (timingSpreadSeconds !== null) {
    const { standardDeviation, interval95 } = timingSpreadSeconds;
    rows.push(["timing spread, ms", (1000 * standardDeviation).toFixed(1), range(inMs(interval95), 1)]);
  }
  if (document.strokesPerSecond !== null) {
    rows.push(["strokes a second", document.strokesPerSecond.toFixed(2), "as counted"]);
  }
  if (document.turnsPerSecond !== null) {
    const counted = document.turnsBasis === "counted";
    rows.push([
      "turns a second",
      document.turnsPerSecond.toFixed(2),
      counted ? "as given" : range(document.turnsInterval95, 2),
    ]);
  }
  if (document.strokesPerTurn !== null) {
    const { turnsInterval95, strokesPerSecond } = document;
    const interval: [number, number] | null =
      turnsInterval95 === null || strokesPerSecond === null
        ? null
        : [strokesPerSecond / turnsInterval95[1], strokesPerSecond / turnsInterval95[0]];
    rows.push([
      "strokes a turn",
      document.strokesPerTurn.toFixed(2),
      interval === null ? "by what is given" : range(interval, 2),
    ]);
  }
  return {
    columns: [
      { heading: [""], align: "left" },
      { heading: ["mean"], align: "right" },
      { heading: ["95 % sure between"], align: "right" },
    ],
    rows: document.strokes.length === 0 ? [] : rows,
  };
}

/** Pitch with and without buzz. */
export function trompettePitchData({
  silentPitch,
  buzzingPitch,
  differenceCents,
  targetHz,
}: TrompetteDocument): TableData {
  const row = (what: string, pitch: NonNullable<TrompetteDocument["silentPitch"]>) => {
    const { frequencyHz, deviationCents, interval95Cents } = pitch;
    const about = deviationCents ?? 0;
    return [
      what,
      frequencyHz.toFixed(2),
      deviationCents === null ? "-" : signed(deviationCents, 1),
      interval95Cents === null
        ? "too short"
        : intervalText([about + interval95Cents[0], about + interval95Cents[1]], 1),
    ];
  };
  const rows = silentPitch === null ? [] : [row("without buzz", silentPitch)];
  if (silentPitch !== null && buzzingPitch !== null) rows.push(row("buzzing", buzzingPitch));
  if (silentPitch !== null && differenceCents !== null) {
    rows.push([
      "difference",
      "",
      signed(differenceCents.mean, 1),
      differenceCents.interval95 === null ? "too few" : intervalText(differenceCents.interval95, 1),
    ]);
  }
  return {
    columns: [
      { heading: [""], align: "left" },
      { heading: ["Hz"], align: "right" },
      { heading: [targetHz === null ? "cents" : "cents off"], align: "right" },
      { heading: ["95 % sure between"], align: "right" },
    ],
    rows,
  };
}

/** An onset that is known less well than to 10 ms is given to hundredths of a second only. */
const ABOUT_SECONDS = 0.01;

type Stroke = TrompetteDocument["strokes"][number];

function isAbout({ withinSeconds }: Stroke): boolean {
  return withinSeconds > ABOUT_SECONDS;
}

function afterLast(one: Stroke, last: Stroke): string {
  return (one.onsetSeconds - last.onsetSeconds).toFixed(isAbout(one) || isAbout(last) ? 2 : 3);
}

/** Each stroke. */
export function trompetteStrokeData({ strokes }: TrompetteDocument): NotedTable {
  const listed = strokes.slice(0, MOST_LISTED);
  const rows = listed.map((one, i) => [
    String(i + 1),
    isAbout(one) ? `about ${one.onsetSeconds.toFixed(2)}` : one.onsetSeconds.toFixed(3),
    `+-${Math.ceil(1000 * one.withinSeconds - 1e-6)}`,
    i === 0 ? "-" : afterLast(one, listed[i - 1]),
    (1000 * one.durationSeconds).toFixed(0),
    one.strengthDb === null ? "-" : signed(one.strengthDb, 1),
    one.weak ? "weak" : "",
  ]);
  return {
    columns: [
      { heading: ["", "no."], align: "right" },
      { heading: ["begins", "s"], align: "right" },
      { heading: ["", "ms"], align: "right" },
      { heading: ["after the", "last, s"], align: "right" },
      { heading: ["lasts", "ms"], align: "right" },
      { heading: ["strength", "dB"], align: "right" },
      { heading: [""], align: "left" },
    ],
    rows,
    notes:
      strokes.length > MOST_LISTED
        ? [`And ${strokes.length - MOST_LISTED} more: --json and --csv have all of them.`]
        : [],
  };
}
