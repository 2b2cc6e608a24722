import { describe, expect, it } from "vitest";
import { builtInTunings } from "../../src/instrument/builtInTunings.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { tuningsChart } from "../../src/report/charts/tuningsChart.js";
import { tuningsCsv } from "../../src/report/csv/tuningsCsv.js";
import { tuningsPage } from "../../src/report/html/tuningsPage.js";
import { dataOf, HOSTILE, pageOf } from "./pageOf.js";
import { parseCsv } from "./parseCsv.js";

const tunings = builtInTunings.map((tuning) => ({ name: tuning.name, targets: stringTargets(tuning) }));
// ISO 16:1975, A4 = 440 Hz: C4 is nine semitones below it.
const C4_HZ = 440 * 2 ** (-9 / 12);

describe("tuningsPage", () => {
  it("lists every tuning with its strings, notes and frequencies", () => {
    const page = tuningsPage(tunings, 440, "0.0.0-test");
    const html = pageOf(page);
    expect(page.answer[0]).toBe(
      `${tunings.length} tunings are built in: ${tunings.map(({ name }) => name).join(", ")}.`,
    );
    const tables = page.sections.flatMap(({ blocks }) => blocks.filter(({ kind }) => kind === "table"));
    expect(tables).toHaveLength(tunings.length);
    expect(html).toContain(`>${C4_HZ.toFixed(3)}<`);
  });

  it("draws every string at its pitch, in octaves, in the row of its tuning", () => {
    const chart = tuningsChart(tunings);
    const points = dataOf(chart, "scatter").flat();
    expect(points).toHaveLength(tunings.reduce((sum, { targets }) => sum + targets.length, 0));
    // The trompette of "soprano", the fourth, is C4: five octaves above MIDI number 0.
    expect(points.some(([octaves, row]) => Math.abs(octaves! - 5) < 1e-9 && Math.round(row!) === 3)).toBe(
      true,
    );
    expect(chart.description).toContain("soprano: melody G3, D4, G4, G4; trompette C4; drone G2, C3, G3.");
  });

  it("shows names as they are written", () => {
    const named = tunings.map((one) => ({ ...one, name: HOSTILE }));
    expect(pageOf(tuningsPage(named, 440, "0.0.0-test"))).toContain("&lt;script&gt;");
  });
});

describe("tuningsCsv", () => {
  it("has a row for each string of each tuning", () => {
    const [headings, ...rows] = parseCsv(tuningsCsv(tunings).slice(1));
    expect(headings).toEqual(["tuning", "string", "role", "note", "targetHz"]);
    expect(rows).toHaveLength(tunings.reduce((sum, { targets }) => sum + targets.length, 0));
    const trompette = rows.find(([tuning, , role]) => tuning === "soprano" && role === "trompette");
    expect(trompette?.[3]).toBe("C4");
    expect(Number(trompette?.[4])).toBeCloseTo(C4_HZ, 6);
  });
});
