import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/audio/Finding.js";
import { checkText } from "../../src/report/checkText.js";
import { checkVerdict } from "../../src/report/checkVerdict.js";
import { handMadeDocument, handMadeTake } from "./handMade.js";

const found = (code: Finding["code"], severity: Finding["severity"]): Finding => ({
  code,
  severity,
  values: {},
});
const noPassage = found("no-passage", "problem");
const unread = found("unread-stretch", "warning");

function checked(...findings: Finding[]) {
  const document = handMadeDocument([handMadeTake({ findings })], { instrument: null });
  return {
    verdict: checkVerdict(document.takes[0]!),
    text: checkText(document, { colour: false }).replace(/\s+/g, " "),
  };
}

describe("what check says", () => {
  it("of a good take, of one with a warning, and of a bad one", () => {
    expect(checked().verdict).toBe("good");
    expect(checked(found("mains-hum", "warning")).verdict).toBe("doubtful");
    expect(checked(found("clipping", "problem"))).toMatchObject({
      verdict: "bad",
      text: expect.stringContaining("Not good enough to measure from"),
    });
    // Nothing sounds: that is no take of several strings.
    expect(checked(noPassage).verdict).toBe("bad");
  });

  it("of several strings together: that a tuning has to be named, not that the take is bad", () => {
    for (const findings of [[noPassage, unread], [unread], [found("several-strings", "warning")]]) {
      const { verdict, text } = checked(...findings);
      expect(verdict).toBe("together");
      expect(text).toContain("Several strings seem to sound together");
      expect(text).toContain("--tuning NAME");
      expect(text).not.toMatch(/Not good enough|No steady tone/);
    }
  });

  it("of strings in turn with a slip between them: that they are good enough", () => {
    // The passage of the take is 3.9 s long.
    expect(checked({ ...unread, values: { startSeconds: 4.6, endSeconds: 5.6 } }).verdict).toBe("doubtful");
  });

  it("of several strings in a spoilt recording: that it is spoilt", () => {
    expect(checked(noPassage, unread, found("clipping", "problem")).verdict).toBe("bad");
  });
});
