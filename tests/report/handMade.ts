import type { MeasureDocument } from "../../src/reading/measureDocumentSchema.js";
import type { TakeReading } from "../../src/reading/TakeReading.js";
import { measureDocument } from "../../src/report/measureDocument.js";
import type { StringReading } from "../../src/strings/StringReading.js";

/** A string reading made by hand; what is not given is that of a low drone a little sharp. */
export function handMadeString(given: Partial<StringReading> = {}): StringReading {
  return {
    name: "C2",
    role: "drone",
    targetHz: 65.40639,
    status: "measured",
    frequencyHz: 65.50091,
    deviationCents: 2.5,
    interval95Cents: [2.1, 2.9],
    ownErrorCents: 1.3,
    ownErrorInterval95Cents: null,
    unsteadinessCents: 1.1,
    levelDb: -21.3,
    harmonicToNoiseDb: 24,
    partials: [
      {
        number: 1,
        frequencyHz: 65.50091,
        levelDb: -9.2,
        fullScaleDb: -30.5,
        signalToNoiseDb: 41,
        shared: false,
      },
      {
        number: 2,
        frequencyHz: 131.00182,
        levelDb: null,
        fullScaleDb: null,
        signalToNoiseDb: null,
        shared: true,
      },
    ],
    lowRegisterDb: -4.1,
    octaveBandsDb: { "63": -9.2, "125": null },
    centroidHz: 512,
    frameCentroidHz: 800,
    tristimulus: [0.2, 0.3, 0.5],
    oddToEvenDb: 1.2,
    perPassage: [
      {
        startSeconds: 0.5,
        endSeconds: 4.4,
        frequencyHz: 65.50091,
        deviationCents: 2.5,
        interval95Cents: [2.1, 2.9],
        unsteadinessCents: 1.1,
        swingCents: null,
        swingRateHz: null,
        levelDb: -21.3,
        harmonicToNoiseDb: 24,
        movement: null,
      },
    ],
    findings: [],
    ...given,
  };
}

/** A take made by hand: one low drone and a pair. */
export function handMadeTake(given: Partial<TakeReading> = {}): TakeReading {
  return {
    sampleRateHz: 48000,
    channelCount: 1,
    durationSeconds: 6,
    passages: [{ startSeconds: 0.5, endSeconds: 4.4, strings: ["C2", "G2"] }],
    strings: [
      handMadeString(),
      handMadeString({ name: "G2", targetHz: 98.10959, frequencyHz: 98.01, deviationCents: -1.76 }),
    ],
    pairs: [
      {
        lower: "C2",
        upper: "G2",
        ratio: "3:2",
        basis: "measured",
        centsFromPure: -4.26,
        interval95Cents: [-4.8, -3.7],
        beatsPerSecond: 0.483,
      },
    ],
    wheel: { turnsPerSecond: null, pitchSwingCents: null, levelSwingDb: null, passages: [] },
    sounds: [
      { strings: ["C2", "G2"], durationSeconds: 3.9, partials: [{ frequencyHz: 65.5, power: 0.001 }] },
    ],
    referencePitch: { a4Hz: 440.3, offsetCents: 1.2, interval95Cents: [0.4, 2], anchor: null },
    body: null,
    lowRegister: {
      lowRegisterDb: -5,
      octaveBandsDb: { "63": -12, "125": -6.1, "250": -5, "500": -8, "1000": -12, "2000": null },
      thirdOctaveDb: [{ midbandHz: 63.0957, levelDb: -15.2 }],
      centroidHz: 420,
    },
    findings: [
      {
        code: "mains-hum",
        severity: "warning",
        values: { humHz: 50, levelDb: -52.3, strongestHz: 150, lineCount: 3 },
      },
    ],
    ...given,
  };
}

/** The document of hand-made takes. */
export function handMadeDocument(
  takes: readonly TakeReading[] = [handMadeTake()],
  given: { file?: string; instrument?: string | null; anchor?: string } = {},
): MeasureDocument {
  return measureDocument({
    toolVersion: "0.0.0-test",
    instrument: given.instrument === undefined ? "Pear, low" : given.instrument,
    settings: {
      a4Hz: 440,
      tonic: "C",
      temperament: "equal",
      tuning: null,
      capo: { C4: 2 },
      order: null,
      sounding: null,
      lowEdgeHz: 177.8279,
      anchor: given.anchor ?? null,
    },
    takes: takes.map((reading) => ({ file: given.file ?? "drones.wav", reading })),
  });
}
