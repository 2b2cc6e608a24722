import { describe, expect, it } from "vitest";
import { measureText } from "../../src/report/measureText.js";
import { wholeOffset } from "../../src/report/wholeOffset.js";
import { plannedDocument } from "./handMadePairs.js";

const C2 = 65.40639;
const strings = (off: readonly number[]) =>
  off.map((offCents, i) => ({ name: `s${i + 1}`, targetHz: C2 * [1, 1.5, 2, 3, 4, 6][i]!, offCents }));

function sheet(off: readonly number[], options: Parameters<typeof plannedDocument>[1] = {}) {
  return measureText(plannedDocument(strings(off), options), { colour: false }).replace(/\s+/g, " ");
}

describe("the pitch of the whole", () => {
  it("gives the choice of keeping the instrument where it stands, and names what differs", () => {
    // 440 * 2^(20/1200) = 445.11 Hz.
    const text = sheet([20, 20, 32, 20, 20.1]);
    expect(text).toContain("All strings together stand 20.0 cents sharp.");
    expect(text).toContain("This keeps them there, at A4 = 445.1 Hz");
    expect(text).toContain("Tune s3 down by 12 cents. Leave s1, s2, s4, s5.");
    expect(text).toContain("If A4 must be 440 Hz, all strings sink by 20 cents besides.");
    expect(text).toContain("name it with --anchor");
  });

  it("says where nothing differs, and goes up with care", () => {
    const text = sheet([-12, -12.1, -11.9, -12, -12]);
    expect(text).toContain("Leave s1, s2, s3, s4, s5.");
    expect(text).not.toContain("Tune ");
    expect(text).toContain("all strings rise by 12 cents besides; go up in small steps.");
  });

  it("tells of --anchor only where strings are named and none is the anchor", () => {
    expect(sheet([20, 20, 20, 20], { instrument: null })).not.toContain("--anchor");
    const notHeard = plannedDocument(strings([20, 20, 20, 20]));
    notHeard.settings.anchor = "tromp";
    expect(measureText(notHeard, { colour: false }).replace(/\s+/g, " ")).not.toContain(
      "name it with --anchor",
    );
  });

  it("is silent where the offset is small, unsure, not shared, or of too few strings", () => {
    const offset = (off: readonly number[]) => wholeOffset(plannedDocument(strings(off)).takes[0]!);
    expect(offset([2.9, 2.9, 2.9, 2.9, 2.9])).toBeNull();
    expect(offset([4, 4, 4, 4, 4])?.offsetCents).toBe(4);
    expect(offset([4, -20, 30, 4, -9])).toBeNull();
    expect(offset([4, 4, -4])).toBeNull();
    expect(offset([4, 4, 5])?.offsetCents).toBe(4);
    expect(offset([20, 20])).toBeNull();
    expect(sheet([2, 2, 2])).not.toMatch(/must be|All strings together/);
  });

  it("is the anchor's where there is one", () => {
    const text = sheet([0, -10, 5], { anchor: "s2" });
    // 440 * 2^(-10/1200) = 437.4658 Hz.
    expect(text).toContain("Pitch of s2, the anchor: A4 = 437.47 Hz, -10.0 cents from the pitch asked for");
    // Half widths of 0.2 and 0.2 make 0.283.
    expect(text).toContain("s1 +10.0 (+9.7 to +10.3), s3 +15.0 (+14.7 to +15.3).");
    expect(text).toContain("Anchor: s2; the other strings are to go by it.");
    expect(text).toContain("Counted from s2, which stays as it is.");
    expect(text).toContain("s2 (the anchor)");
    expect(text).not.toMatch(/must be/);
  });
});

describe("all takes together with an anchor", () => {
  it("count from it", () => {
    const first = plannedDocument(strings([0, -10, 5]), { anchor: "s2" });
    const { summary } = first;
    const twice = { ...first, takes: [...first.takes, ...first.takes], summary };
    const text = measureText(twice, { colour: false });
    const from = text.indexOf("All takes together");
    const rows = text.slice(from).split("\n");
    expect(
      rows
        .find((row) => row.startsWith("s1 "))
        ?.split(/\s{2,}/)
        .slice(0, 3),
    ).toEqual(["s1", "1", "+10.0"]);
    expect(
      rows
        .find((row) => row.startsWith("s2 "))
        ?.split(/\s{2,}/)
        .slice(0, 3),
    ).toEqual(["s2", "1", "anchor"]);
    expect(text.replace(/\s+/g, " ")).toContain("Cents are counted from s2, the anchor");
  });
});
