import { describe, expect, it } from "vitest";
import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { spectrogramOf } from "../../src/audio/spectrogramOf.js";
import { checkPage } from "../../src/report/html/checkPage.js";
import { handMadeDocument, handMadeTake } from "./handMade.js";
import { pageOf } from "./pageOf.js";

const bad = handMadeTake({ findings: [{ code: "clipping", severity: "problem", values: {} }] });
const samples = Float32Array.from({ length: 16000 }, (_, i) => 0.3 * Math.sin(i / 10));
const pictured = {
  strings: [],
  durationSeconds: 2,
  spectrogram: spectrogramOf(memoryRecording([samples], 8000)),
};

describe("checkPage", () => {
  it("says first whether the take is good enough, then why, and shows it", () => {
    const page = checkPage(handMadeDocument([bad], { instrument: null }), [pictured]);
    const html = pageOf(page);
    expect(page.answer).toEqual(["Not good enough to measure from; see the problems."]);
    expect(html).toContain('class="finding problem"');
    expect(html.match(/<image /g)).toHaveLength(2);
  });

  it("says it of each of several, and what could not be read", () => {
    const document = handMadeDocument([bad, handMadeTake({ findings: [] })], { instrument: null });
    const failed = [{ file: "<b>.wav", code: "not-wav", message: "<b>.wav is no WAV file." }];
    const page = checkPage({ ...document, failed }, [pictured, { ...pictured, spectrogram: null }]);
    const html = pageOf(page);
    expect(page.answer).toHaveLength(2);
    expect(html).toContain("3 recordings checked");
    expect(html).toContain("&lt;b&gt;.wav is no WAV file.");
  });
});
