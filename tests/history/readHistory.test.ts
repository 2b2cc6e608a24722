import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { InstrumentHistory } from "../../src/history/HistoryReading.js";
import type { LoggedTake } from "../../src/history/logLineSchema.js";
import { readHistory } from "../../src/history/readHistory.js";
import { readLog } from "../../src/history/readLog.js";
import { loggedTake, logOf } from "./loggedTakes.js";

const only = (takes: readonly LoggedTake[]): InstrumentHistory => {
  const [one, ...rest] = readHistory(takes);
  expect(rest).toEqual([]);
  return one!;
};
const stringOf = (history: InstrumentHistory, name: string) =>
  history.strings.find((string) => string.name === name)!;
const lastChange = (takes: readonly LoggedTake[], name: string) =>
  stringOf(only(takes), name).moments.at(-1)!.change!;
const day = (number: number) => `2026-03-${String(number).padStart(2, "0")}`;

describe("changes between takes", () => {
  const before = loggedTake({ takenAt: day(1), cents: { C2: 0, G2: 1, C3: -1, G3: 2 } });

  it("sets a string beside what the others did", () => {
    // Half widths 0.3 and 0.5: sqrt(0.09 + 0.25) = 0.583 of a change; the median of three normal values has 0.4487 times their variance.
    const after = loggedTake({
      takenAt: day(7),
      cents: { C2: -3.9, G2: -2.8, C3: -5, G3: -2.2 },
      halfCents: 0.5,
    });
    const change = lastChange([before, after], "G3");
    const half = Math.hypot(0.3, 0.5);
    const othersHalf = Math.sqrt(0.4487) * half;
    expect(change).toMatchObject({ fromTake: 0, days: 6, verdict: "with-others" });
    expect(change.cents).toBeCloseTo(-4.2, 6);
    expect(change.interval95Cents![1] - change.cents).toBeCloseTo(half, 6);
    expect(change.othersCents).toBeCloseTo(-3.9, 6);
    expect(change.othersInterval95Cents![1] + 3.9).toBeCloseTo(othersHalf, 6);
    expect(change.ownCents).toBeCloseTo(-0.3, 6);
    expect(change.ownInterval95Cents![0] + 0.3).toBeCloseTo(-Math.hypot(half, othersHalf), 6);
  });

  it.each([
    ["alone", { C2: 0.1, G2: 1.1, C3: -1.1, G3: -6 }],
    ["both", { C2: -4, G2: -3, C3: -5, G3: -8 }],
    ["with-others", { C2: -4, G2: -3, C3: -5, G3: -2 }],
    ["apart", { C2: -4, G2: -3, C3: -5, G3: 2 }],
    ["stood", { C2: 0, G2: 1, C3: -1, G3: 2.9 }],
    ["unclear", { C2: null, G2: null, C3: -5, G3: -2 }],
  ] as const)("calls it %s", (verdict, cents) => {
    expect(lastChange([before, loggedTake({ takenAt: day(7), cents })], "G3").verdict).toBe(verdict);
  });

  it("says nothing without a range", () => {
    const after = loggedTake({ takenAt: day(7), cents: { C2: 0, G2: 1, C3: -1, G3: -9 }, halfCents: null });
    expect(lastChange([before, after], "G3")).toMatchObject({
      interval95Cents: null,
      ownInterval95Cents: null,
      verdict: "unsure",
    });
  });

  it("goes by the take before that heard the string", () => {
    const without = loggedTake({ takenAt: day(3), cents: { C2: 0, G2: 1, C3: -1, G3: null } });
    const after = loggedTake({ takenAt: day(7), cents: { C2: 0, G2: 1, C3: -1, G3: -2 } });
    const change = lastChange([before, without, after], "G3");
    expect(change).toMatchObject({ fromTake: 0, days: 6 });
    // The others' changes are from the take between, so there are none to set it beside.
    expect(change.othersCents).toBeNull();
  });

  it("tells the latest from the last take of an earlier day, not of the same session", () => {
    const session = (number: number, offs: readonly number[]) =>
      offs.map((off, i) =>
        loggedTake({ takenAt: `${day(number)}T1${i}:00`, cents: { C2: off, G2: off, C3: off, G3: off } }),
      );
    const history = only([...session(1, [0, 0.2, 0.1]), ...session(7, [-4, -4.1, -3.9])]);
    const { latest, moments } = stringOf(history, "G3");
    expect(moments.at(-1)!.change).toMatchObject({ fromTake: 4, verdict: "stood" });
    expect(latest).toMatchObject({ take: 5, change: { fromTake: 2, days: 6, verdict: "with-others" } });
    expect(latest!.change.cents).toBeCloseTo(-4, 6);
    expect(latest!.change.othersCents).toBeCloseTo(-4, 6);
    expect(stringOf(only(session(1, [0, -3])), "G3").latest).toMatchObject({
      take: 1,
      change: { fromTake: 0 },
    });
    expect(stringOf(only(session(1, [0])), "G3").latest).toBeNull();
  });

  it("compares frequencies where the target moved, and nothing where it is another note", () => {
    const at = (a4Hz: number, takenAt: string, factor: number): LoggedTake => ({
      ...before,
      takenAt,
      settings: { ...before.settings, a4Hz },
      strings: before.strings.map((string) => ({
        ...string,
        targetHz: string.targetHz * factor,
        deviationCents: string.deviationCents! - 1200 * Math.log2(factor),
      })),
    });
    // The same sound read against 442, and against 415: by arithmetic 7.85 and 101.3 cents between the targets.
    for (const a4Hz of [442, 415]) {
      const change = lastChange([before, at(a4Hz, day(7), a4Hz / 440)], "G3");
      expect(Math.abs(change.cents)).toBeLessThan(1e-9);
      expect(change.verdict).toBe("stood");
    }
    const capo = at(440, day(7), 2 ** (2 / 12));
    const moment = stringOf(only([before, capo]), "G3").moments.at(-1)!;
    expect(moment).toMatchObject({ change: null, changeLacking: "other-note" });
    expect(stringOf(only([before, capo]), "G3").moments[0]!.changeLacking).toBe("first");
  });
});

describe("drift and weather", () => {
  const names = ["C2", "G2", "C3", "G3"];
  // A zigzag of +-0.1 cents, so that there is something left over: days 0 1 2 3, signs + - - + are free of slope.
  const zigzag = [0.1, -0.1, -0.1, 0.1];
  const falling = (
    from: number,
    days: readonly number[],
    more: (i: number) => Partial<LoggedTake> = () => ({}),
  ) =>
    days.map((at, i) =>
      loggedTake({
        takenAt: day(1 + at),
        cents: Object.fromEntries(
          names.map((name) => [name, from - 0.5 * at + zigzag[i % 4]! - (name === "G3" ? 0.2 * at : 0)]),
        ),
        more: more(i),
      }),
    );

  it("gives the line by least squares, of all and of each beyond all", () => {
    const history = only(falling(2, [0, 1, 2, 3]));
    const { trend } = history.common.perDay;
    expect(trend!.slope).toBeCloseTo(-0.5, 9);
    // By hand: what is left is +-0.1, squares 0.04, two degrees of freedom, squares of days 5; t(0.975, 2) = 4.303 (published table).
    expect(Math.abs((trend!.interval95[1] - trend!.slope) / Math.sqrt(0.04 / 2 / 5) - 4.303)).toBeLessThan(
      0.0005,
    );
    expect(stringOf(history, "G3").perDay.trend!.slope).toBeCloseTo(-0.7, 9);
    // Taken from what the others have in common, it leaves no scatter here: no range can be had from that.
    expect(stringOf(history, "G3").ownPerDay).toMatchObject({ trend: null, lacking: "no-scatter" });
  });

  it("starts at a new level after work, with the same slope", () => {
    const takes = [
      ...falling(0, [0, 1, 2, 3]),
      ...falling(30, [10, 11, 12, 13], (i) => (i === 0 ? { work: "new strings" } : {})),
    ];
    expect(only(takes).common.perDay.trend!.slope).toBeCloseTo(-0.5, 9);
    expect(only(takes.map((take) => ({ ...take, work: null }))).common.perDay.trend!.slope).toBeGreaterThan(
      1,
    );
  });

  it("says why there is no drift: too few takes, one time, too few strings", () => {
    expect(only(falling(0, [0, 1, 2])).common.perDay).toMatchObject({
      trend: null,
      takeCount: 3,
      lacking: "too-few",
    });
    expect(only(falling(0, [0, 0, 0, 0])).common.perDay).toMatchObject({ trend: null, lacking: "no-range" });
    const two = falling(0, [0, 1, 2, 3]).map((take) => ({ ...take, strings: take.strings.slice(0, 2) }));
    expect(only(two).common.perDay).toMatchObject({ trend: null, lacking: "too-few-strings" });
    expect(stringOf(only(two), "C2").perDay.trend!.slope).toBeCloseTo(-0.5, 9);
    expect(stringOf(only(two), "C2").ownPerDay.lacking).toBe("too-few-strings");
  });

  it("gives cents a degree from five takes with weather, and says why not", () => {
    const warm = [20, 22, 21, 25, 23];
    const take = (i: number, temperatureC: number | null) =>
      loggedTake({
        takenAt: day(1 + i),
        cents: Object.fromEntries(names.map((name) => [name, -1.5 * (warm[i]! - 20) + zigzag[i % 4]!])),
        more: { temperatureC, humidityPercent: 50 },
      });
    const history = only(warm.map((degrees, i) => take(i, degrees)));
    // By hand: degrees about 22.2 are -2.2 -0.2 -1.2 2.8 0.8 with squares 14.8; the zigzag's product with them, over 14.8, is what
    // the slope is off by: 0.1 * (-2.2 + 0.2 + 1.2 + 2.8 + 0.8) / 14.8.
    expect(history.common.perDegree.trend!.slope).toBeCloseTo(-1.5 + 0.28 / 14.8, 9);
    expect(history.common.perPercent).toMatchObject({ trend: null, lacking: "no-range" });
    const fewer = only(warm.map((degrees, i) => take(i, i === 2 ? null : degrees)));
    expect(fewer.common.perDegree).toMatchObject({ trend: null, takeCount: 4, lacking: "too-few" });
  });
});

describe("what was different after work", () => {
  const names = ["C2", "G2", "C3", "G3"];
  const take = (number: number, off: Readonly<Record<string, number>>, more: Partial<LoggedTake> = {}) =>
    loggedTake({
      takenAt: day(number),
      cents: Object.fromEntries(names.map((name) => [name, off[name] ?? 0])),
      more,
    });

  it("is Welch's difference where both sides have takes", () => {
    // The worked example of Welch (README of the tests' sources): 78.1 ... against 79.6 ... in tenths of its unit, difference 1.54 between 0.86358 and 2.21642.
    const a = [78.1, 78.9, 77.6, 78.4, 78.2];
    const b = [79.6, 80.3, 79.1, 80.0, 79.9];
    const takes = [
      ...a.map((value, i) => take(1 + i, { C2: value - 78 }, { lowRegisterDb: value })),
      ...b.map((value, i) =>
        take(11 + i, { C2: value - 78 }, { lowRegisterDb: value, work: i === 0 ? "cotton" : null }),
      ),
    ];
    const [work] = only(takes).works;
    expect(work).toMatchObject({ work: "cotton", take: 5, days: 10 });
    for (const one of [work!.strings[0]!, work!.lowRegisterDb]) {
      expect(one).toMatchObject({ basis: "welch", beforeCount: 5, afterCount: 5, lacking: null });
      expect(one.difference).toBeCloseTo(1.54, 6);
      expect(one.interval95![0]).toBeCloseTo(0.86358, 5);
      expect(one.interval95![1]).toBeCloseTo(2.21642, 5);
    }
    // The other strings stood, so all of it is the string's own.
    expect(work!.strings[0]!.own.difference).toBeCloseTo(1.54, 6);
  });

  it("has the readings' own range where a side has one take", () => {
    const takes = [take(1, {}), take(2, { G3: 1 }), take(5, { G3: 4 }, { work: "peg" })];
    const [work] = only(takes).works;
    const g3 = work!.strings.find(({ name }) => name === "G3")!;
    expect(g3).toMatchObject({ basis: "read", beforeCount: 2, afterCount: 1 });
    expect(g3.difference).toBeCloseTo(3.5, 9);
    // Half widths of 0.3: the mean of two has 0.3 / sqrt(2).
    expect(g3.interval95![1] - 3.5).toBeCloseTo(0.3 * Math.sqrt(1.5), 9);
    expect(work!.lowRegisterDb).toMatchObject({ difference: 0, interval95: null, lacking: "no-interval" });
  });

  it("takes no more than five a side, and those nearest", () => {
    const takes = Array.from({ length: 16 }, (_, i) =>
      take(1 + i, { C2: i === 0 || i === 15 ? 500 : 0.1 * (i % 3) }, { work: i === 8 ? "cotton" : null }),
    );
    const [work] = only(takes).works;
    expect(work!.strings[0]).toMatchObject({ beforeCount: 5, afterCount: 5 });
    expect(Math.abs(work!.strings[0]!.difference!)).toBeLessThan(0.2);
  });

  it("takes the same note on takes of one day for one work, and says what it can't", () => {
    const cotton = { work: "cotton" };
    const { works } = only([
      take(1, {}, cotton),
      take(1, { C2: 1 }, { ...cotton, file: "b.wav" }),
      take(9, {}, { work: "peg" }),
    ]);
    expect(works.map(({ work }) => work)).toEqual(["cotton", "peg"]);
    expect(works[0]).toMatchObject({ days: null });
    expect(works[0]!.strings[0]!.lacking).toBe("nothing-before");
    const fewer = take(9, {}, { work: "peg" });
    const [, peg] = only([take(1, {}, cotton), { ...fewer, strings: fewer.strings.slice(1) }]).works;
    expect(peg!.lowRegisterDb.lacking).toBe("other-sounds");
    expect(peg!.strings.find(({ name }) => name === "C2")!.lacking).toBe("nothing-after");
  });

  it("puts takes of the same moment before work that one of them tells of, and says that this is a guess", () => {
    const history = only([take(1, {}, { work: "cotton" }), take(1, {}, { file: "a.wav" })]);
    expect(history.takes.map(({ work }) => work)).toEqual([null, "cotton"]);
    expect(history.doubtfulDays).toEqual([day(1)]);
    const timed = [take(1, {}), take(1, {}, { work: "cotton" })].map((one, i) => ({
      ...one,
      takenAt: `${day(1)}T1${i}:00`,
    }));
    expect(only(timed).doubtfulDays).toEqual([]);
  });
});

describe("readHistory", () => {
  const invented = fc.record({
    takenAt: fc.integer({ min: 1, max: 9 }).map(day),
    cents: fc.dictionary(
      fc.constantFrom("C2", "G2", "C3", "G3", "D4"),
      fc.option(fc.integer({ min: -400, max: 400 }).map((tenths) => tenths / 10)),
    ),
    halfCents: fc.option(fc.constantFrom(0.2, 0.5)),
    more: fc.record({
      instrument: fc.constantFrom("Low Meadow", "Pear", null),
      work: fc.option(fc.constantFrom("cotton", "new strings")),
      temperatureC: fc.option(fc.integer({ min: 10, max: 30 })),
      file: fc.constantFrom("a.wav", "b.wav", "c.wav"),
    }),
  });

  it("says the same whatever the order of the lines", () => {
    fc.assert(
      fc.property(fc.array(invented, { maxLength: 14 }), fc.infiniteStream(fc.nat()), (all, numbers) => {
        const takes = all.map(loggedTake);
        const shuffled = takes
          .map((take) => ({ take, at: numbers.next().value as number }))
          .sort((a, b) => a.at - b.at)
          .map(({ take }) => take);
        const one = readHistory(readLog(logOf(takes)).takes);
        expect(readHistory(readLog(logOf(shuffled)).takes)).toEqual(one);
        // Every instrument and take is there, none twice.
        expect(one.flatMap((history) => history.takes)).toHaveLength(readLog(logOf(takes)).takes.length);
      }),
      { seed: 40_951, numRuns: 300 },
    );
  });

  it("gives numbers or null, never anything else, for any log", () => {
    fc.assert(
      fc.property(fc.array(invented, { maxLength: 12 }), (all) => {
        const text = JSON.stringify(readHistory(readLog(logOf(all.map(loggedTake))).takes), (_, value) =>
          typeof value === "number" && !Number.isFinite(value) ? "not finite" : value,
        );
        expect(text).not.toContain("not finite");
      }),
      { seed: 12_007, numRuns: 300 },
    );
  });

  it("keeps instruments apart, those that named none last", () => {
    const histories = readHistory(
      ["Pear", null, "Low Meadow"].map((instrument) =>
        loggedTake({ takenAt: day(1), cents: { C2: 0 }, more: { instrument } }),
      ),
    );
    expect(histories.map(({ name }) => name)).toEqual(["Low Meadow", "Pear", null]);
  });
});
