import { describe, expect, it } from "vitest";
import type { Finding, FindingCode } from "../../src/audio/Finding.js";
import { fillTemplate } from "../../src/report/fillTemplate.js";
import { findingMessage } from "../../src/report/findingMessage.js";

type Example = readonly [Finding["severity"], Finding["values"], readonly string[]];

// What the checks hand over for each code, and what its sentence has to hold: the number and what to do.
const examples: Readonly<Record<FindingCode, readonly Example[]>> = {
  clipping: [
    [
      "warning",
      { count: 12, firstSeconds: 3.44, share: 0.01, limitDb: -0.02 },
      ["12 places", "3.4 s", "down by 6 dB"],
    ],
  ],
  "dc-offset": [["info", { offsetPercent: -1.25, channel: 2 }, ["channel 2", "-1.3 %", "cable"]]],
  "mains-hum": [
    [
      "warning",
      { humHz: 50, levelDb: -52.34, strongestHz: 150.1, lineCount: 4 },
      ["50 Hz", "-52.3 dB", "150 Hz", "battery"],
    ],
    ["info", { humHz: 60, levelDb: -92.34, strongestHz: 60, lineCount: 1 }, ["60 Hz", "-92.3 dB", "no harm"]],
  ],
  "noise-floor": [
    [
      "warning",
      { levelDb: -51.2, pauseSeconds: 3, noteToNoiseDb: 21.6 },
      ["only 22 dB", "-51.2 dB", "nearer"],
    ],
    ["info", { levelDb: -81.2, pauseSeconds: 3, noteToNoiseDb: 51.6 }, ["52 dB below", "quiet enough"]],
    ["info", { levelDb: -81.2, pauseSeconds: 3 }, ["-81.2 dB"]],
  ],
  "noise-unknown": [
    ["info", { pauseSeconds: 0, reason: "no-pause" }, ["no pause", "two seconds"]],
    ["info", { pauseSeconds: 2.5, reason: "silence" }, ["2.5 s of digital silence", "Switch it off"]],
  ],
  "too-quiet": [
    ["warning", { peakDb: -45.04 }, ["-45.0 dB", "Turn the input up"]],
    ["problem", { peakDb: -75 }, ["-75.0 dB", "Turn the input up"]],
    ["problem", {}, ["no sound", "Check the microphone"]],
  ],
  "too-short": [["warning", { durationSeconds: 2.26 }, ["2.3 s", "six seconds"]]],
  "high-pass": [
    ["warning", { cutoffHz: 119.6, slopeDbPerOctave: 12.04 }, ["120 Hz", "12 dB an octave", "Switch off"]],
  ],
  "high-pass-open": [
    ["info", { reason: "no-pause" }, ["pause", "two seconds"]],
    ["info", { reason: "quantisation" }, ["Look at the switch"]],
  ],
  "band-limit": [
    [
      "info",
      { cutoffHz: 16_050, fallDb: 41.6, widthHz: 150 },
      ["Above about 16050 Hz", "42 dB within 150 Hz", "as after", "hardly touched", "WAV"],
    ],
    ["warning", { cutoffHz: 3450, fallDb: 60, widthHz: 400 }, ["3450 Hz", "may touch", "WAV"]],
  ],
  "gain-control": [
    ["warning", { riseDb: 14.25, seconds: 0.8, pauseCount: 3 }, ["3 pauses", "14.3 dB", "0.8 s", "Switch"]],
  ],
  "gain-control-open": [["info", {}, ["two seconds"]]],
  "channel-silent": [
    ["warning", { channels: "2, 3", silentCount: 2, channelCount: 4 }, ["channel 2, 3 of 4", "Check"]],
  ],
  "channel-difference": [
    [
      "info",
      { differenceDb: 9.96, louderChannel: 1, quieterChannel: 2 },
      ["10.0 dB", "Channel 2", "set both"],
    ],
  ],
  "channel-polarity": [["warning", { correlation: -0.87 }, ["-0.87", "cable"]]],
  "not-finite": [["warning", { count: 1234, share: 0.1, firstSeconds: 0.52 }, ["1,234", "0.5 s", "export"]]],
  truncated: [
    [
      "warning",
      { byteOffset: 44, promisedBytes: 96000, foundBytes: 4800 },
      ["96,000", "4,800", "copy it again"],
    ],
    ["info", { byteOffset: 44, extraBytes: 1, frameBytes: 4 }, ["1 bytes", "nothing is lost"]],
  ],
  "lossy-codec": [
    [
      "warning",
      { container: "MP4", codec: "AAC" },
      ["(AAC)", "high partials", "Pitch is hardly touched", "WAV"],
    ],
    ["warning", {}, ["with loss", "WAV"]],
  ],
  "media-damaged": [
    ["warning", { promisedSeconds: 42.6, durationSeconds: 8.3 }, ["42.6 s", "8.3 s", "Copy or export"]],
    ["warning", {}, ["cut off or damaged", "Copy or export"]],
  ],
  "size-unset": [["info", { byteOffset: 44, promisedBytes: 0, foundBytes: 4800 }, ["4,800", "check"]]],
  "octave-doubt": [["warning", { frequencyHz: 65.4, otherHz: 130.8 }, ["65.4 Hz", "130.8 Hz", "alone"]]],
  "far-off": [["warning", { deviationCents: -131.2 }, ["-131 cents", "Make sure"]]],
  "other-sound": [["warning", { frequencyHz: 212.34 }, ["212.3 Hz", "damp"]]],
  "several-strings": [
    ["warning", { startSeconds: 1.2, endSeconds: 6, lowerHz: 130.8, upperHz: 196.2 }, ["130.8 and 196.2 Hz"]],
    ["warning", { frequencyHz: 97.96, levelDb: -9 }, ["98.0 Hz", "alone"]],
    ["warning", {}, ["Lift the others"]],
  ],
  "not-separable": [["warning", { neededSeconds: 14.2 }, ["14 s", "alone"]]],
  "unison-locked": [
    [
      "warning",
      { neededSeconds: 15, other: "G4", withinCents: 0.126 },
      ["0.1 cents of G4", "locked", "15 s"],
    ],
  ],
  "hidden-under": [
    ["warning", { neededSeconds: 15, other: "G2", withinCents: 0.126 }, ["G2", "0.1 cents", "alone"]],
  ],
  "twin-strings": [
    [
      "warning",
      { startSeconds: 1, endSeconds: 8, lowerHz: 391.991, upperHz: 392.666 },
      ["391.99 and 392.67 Hz", "Lift one"],
    ],
  ],
  "foreign-sound": [
    [
      "warning",
      { startSeconds: 1, endSeconds: 8, frequencyHz: 164.81 },
      ["1.0 to 8.0 s", "164.8 Hz", "none of the"],
    ],
  ],
  "changing-sound": [
    [
      "warning",
      { startSeconds: 1, endSeconds: 8, frequencyHz: 391.97 },
      ["1.0 to 8.0 s", "392.0 Hz", "moves"],
    ],
  ],
  "partly-sounding": [["warning", { startSeconds: 1, endSeconds: 8 }, ["1.0 to 8.0 s", "part of the time"]]],
  "string-moved": [
    [
      "warning",
      { startSeconds: 1, endSeconds: 4, movedCents: -21.4, reason: "after" },
      ["1.0 to 4.0 s", "-21 cents", "after that"],
    ],
    ["warning", { startSeconds: 1, endSeconds: 4, movedCents: 21.4, reason: "before" }, ["before that"]],
    ["warning", { startSeconds: 1, endSeconds: 4, movedCents: 21.4, reason: "unread" }, ["before or after"]],
  ],
  "equal-together": [["info", { strings: "G4, G4 2" }, ["G4, G4 2", "flatter"]]],
  "unread-stretch": [
    ["warning", { startSeconds: 1, endSeconds: 3.55, durationSeconds: 2.55 }, ["1.0 to 3.5"]],
  ],
  unsteady: [["warning", { unsteadinessCents: 6.24 }, ["6.2 cents", "cotton"]]],
  "short-passage": [["info", { durationSeconds: 1.26 }, ["1.3 s", "six seconds"]]],
  "equal-strings": [["info", { strings: "G4, G4 2" }, ["G4, G4 2", "--order"]]],
  "unmatched-passage": [
    [
      "warning",
      { startSeconds: 1, endSeconds: 3.5, frequencyHz: 300.06 },
      ["1.0 to 3.5 s", "300.1 Hz", "Check"],
    ],
  ],
  "hum-near-partial": [["warning", { humHz: 196.2, partial: 3 }, ["196.2 Hz", "partial 3", "record again"]]],
  "no-passage": [["problem", {}, ["six seconds"]]],
  "order-unused": [
    ["warning", { strings: "G4 2, G4" }, ["G4 2, G4", "not used", "together", "one after another"]],
  ],
  "anchor-not-heard": [
    [
      "warning",
      { string: "tromp", reason: "not-heard" },
      ["tromp", "not heard", "no anchor", "Record tromp as"],
    ],
    ["warning", { string: "tromp", reason: "unresolved" }, ["tromp", "told apart", "no anchor", "alone"]],
  ],
  "passages-disagree": [["warning", { spreadCents: 4.04 }, ["4.0 cents", "record again"]]],
};

describe("findingMessage", () => {
  for (const [code, cases] of Object.entries(examples) as [FindingCode, readonly Example[]][]) {
    it(`words ${code} with its numbers and what to do`, () => {
      for (const [severity, values, needed] of cases) {
        const message = findingMessage({ code, severity, values });
        for (const part of needed) expect(message).toContain(part);
        expect(message).toMatch(/\.$/);
      }
    });

    it(`has a sentence for ${code} whatever values come with it`, () => {
      for (const severity of ["info", "warning", "problem"] as const) {
        const message = findingMessage({ code, severity, values: { levelDb: Number.NaN } });
        expect(message).not.toMatch(/[{}]|NaN|undefined|null|^Found:/);
        expect(message.length).toBeGreaterThan(20);
      }
    });
  }

  it("lets no control character of a name through", () => {
    const values = { strings: "G4\u001b[2J, G4\u202e2" };
    const message = findingMessage({ code: "equal-strings", severity: "info", values });
    expect(message).toContain("G4\\u{1b}[2J, G4\\u{202e}2");
  });
});

describe("fillTemplate", () => {
  it("sets digits, signs, commas and words", () => {
    const values = { a: 1234.567, b: -0.04, c: 12345, d: "C2" };
    expect(fillTemplate("{a:1} {a:+0} {b:+1} {c} {d}", values)).toBe("1234.6 +1235 0.0 12,345 C2");
  });

  it("is null where a value is missing, no number, or only inherited", () => {
    expect(fillTemplate("{a}", {})).toBeNull();
    expect(fillTemplate("{a:1}", { a: "x" })).toBeNull();
    expect(fillTemplate("{a:1}", { a: Number.NaN })).toBeNull();
    expect(fillTemplate("{toString}", {})).toBeNull();
  });
});
