import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { trompetteDocument } from "../../src/report/trompetteDocument.js";
import { SeededRandom } from "../../src/statistics/SeededRandom.js";
import { readTrompette } from "../../src/trompette/readTrompette.js";
import type { TrompetteDocument } from "../../src/trompette/trompetteDocumentSchema.js";
import { randomPlan } from "../trompette/randomTake.js";
import { trompetteTake } from "../trompette/trompetteTake.js";

let reading: ReturnType<typeof readTrompette> | null = null;

/** The document of an invented trompette with strokes, under a name. */
export function readTrompetteDocument(file: string): TrompetteDocument {
  const { samples, sampleRateHz } = trompetteTake(
    randomPlan(new SeededRandom(4242), 4242, { kind: "each-period" }),
  );
  reading ??= readTrompette(memoryRecording([samples], sampleRateHz), { string: null });
  return trompetteDocument({
    toolVersion: "0.0.0-test",
    instrument: null,
    settings: {
      a4Hz: 440,
      tonic: null,
      temperament: null,
      tuning: null,
      capo: {},
      turnsPerSecond: null,
    },
    file,
    reading,
  });
}
