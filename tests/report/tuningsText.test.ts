import { describe, expect, it } from "vitest";
import { tuningsText } from "../../src/report/tuningsText.js";

describe("tuningsText", () => {
  it("lists notes and frequencies and says where they come from", () => {
    const targets = [{ name: "C2", role: "drone" as const, note: "C2", targetHz: 65.40639 }];
    const text = tuningsText([{ name: "alto", targets }], 440);
    expect(text).toContain("common practice");
    expect(text).toContain("A4 = 440");
    expect(text.split("\n").at(-2)?.trim().split(/\s+/)).toEqual(["C2", "drone", "C2", "65.406"]);
  });
});
