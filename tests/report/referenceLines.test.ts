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
    expect(text).toContain(
      "Easiest: keep the instrument at A4 = 445.1 Hz and move only what differs from the rest: s3 down by 12.0 cents.",
    );
    expect(text).toContain(
      "If A4 must be 440 Hz, all strings go down by about 20 cents, those by what the table says.",
    );
    expect(text).toContain("name it with --anchor");
  });

  it("says where nothing differs, and goes up with care", () => {
    const text = sheet([-12, -12.1, -11.9, -12, -12]);
    expect(text).toContain("leave every string as it is: none differs from the rest enough to be heard.");
    expect(text).toContain("all strings go up by about 12 cents; go up in small steps.");
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
    expect(sheet([2, 2, 2])).not.toMatch(/Easiest|All strings together/);
  });

  it("is the anchor's where there is one", () => {
    const text = sheet([0, -10, 5], { anchor: "s2" });
    // 440 * 2^(-10/1200) = 437.4658 Hz.
    expect(text).toContain("s2, the anchor, stands at A4 = 437.47 Hz, -10.0 cents from the pitch asked for");
    expect(text).toContain("Off from the anchor, in cents: s1 +10.0, s3 +15.0.");
    expect(text).toContain("Anchor: s2; the other strings are to go by it.");
    expect(text).toContain("Sharp and flat as counted from s2, which stays as it is.");
    expect(text).toContain("s2 (the anchor)");
    expect(text).not.toMatch(/Easiest|No surer/);
  });
});

describe("all takes together with an anchor", () => {
  it("count from it", () => {
    const first = plannedDocument(strings([0, -10, 5]), { anchor: "s2" });
    const { summary } = first;
    const twice = { ...first, takes: [...first.takes, ...first.takes], summary };
    const text = measureText(twice, { colour: false });
    const rows = text.slice(text.indexOf("All takes together")).split("\n");
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
