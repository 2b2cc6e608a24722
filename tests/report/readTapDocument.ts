import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { tapDocument } from "../../src/report/tapDocument.js";
import { readTaps } from "../../src/tap/readTaps.js";
import type { TapDocument } from "../../src/tap/tapDocumentSchema.js";
import { lightBody, RATE_HZ, stiffBody, tapsOn } from "../tap/exampleBodies.js";

let readings: ReturnType<typeof readTaps>[] | null = null;

/** The document of two invented bodies, four taps each, under a name. */
export function readTapDocument(name: string): TapDocument {
  readings ??= [lightBody, stiffBody].map((body, i) =>
    readTaps(memoryRecording([tapsOn(body, i + 1, 4)], RATE_HZ)),
  );
  return tapDocument({
    toolVersion: "0.0.0-test",
    takes: readings.map((reading, i) => ({ file: `${name} ${i}.wav`, name: `${name} ${i}`, reading })),
    failed: [],
    hasOther: true,
    bowed: null,
  });
}
