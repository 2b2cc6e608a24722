import { describe, expect, it } from "vitest";
import { commonCourse } from "../../src/history/commonCourse.js";

const rows = ["C2", "G2", "C3", "G3", "D4"];
const levels = [3, -8, 0.5, 12, -1];
const common = [0, -2, -3.5, 1, -6];
const points = (but: (row: number, take: number) => number | null = () => 0) =>
  rows.flatMap((row, r) =>
    common.flatMap((value, take) => {
      const more = but(r, take);
      return more === null ? [] : [{ row, take, cents: levels[r]! + value + more }];
    }),
  );
const expectCourse = (found: readonly (number | null)[], truth: readonly (number | null)[]) =>
  // Exact but for the rounds it stops after: a step of less than 1e-6 cents.
  expect(found.map((value) => value && Math.round(value * 1e4) / 1e4)).toEqual(truth);

describe("commonCourse", () => {
  it("finds what strings share, whatever their levels", () => {
    expectCourse(commonCourse(points(), 5, 3), common);
  });

  it("is not moved by a string that was retuned, nor by one that some takes lack", () => {
    expectCourse(
      commonCourse(
        points((row, take) => (row === 1 && take >= 3 ? 40 : 0)),
        5,
        3,
      ),
      common,
    );
    expectCourse(
      commonCourse(
        points((row, take) => (row === 0 && take % 2 === 1 ? null : 0)),
        5,
        3,
      ),
      common,
    );
  });

  it("has nothing to say of takes with fewer than three strings", () => {
    const few = points((row, take) => (take === 0 && row > 1 ? null : 0));
    expectCourse(commonCourse(few, 5, 3), [null, 0, -1.5, 3, -4]);
    expect(commonCourse([], 2, 3)).toEqual([null, null]);
  });
});
