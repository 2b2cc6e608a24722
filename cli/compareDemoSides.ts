import {
  type CompareDocument,
  compareDocument,
  compareSides,
  demoSides,
  measureTake,
  memoryRecording,
} from "../src/index.js";
import { chooseTargets } from "./chooseTargets.js";
import { compareSettings } from "./compareTakes.js";
import { packageFile, packageVersion } from "./files/packageFile.js";
import type { LateParts } from "./LateParts.js";

/** Synthesises the demo's three instruments, measures their takes, and compares them. */
export function compareDemoSides(readInstrument: LateParts["readInstrument"]): CompareDocument {
  const chosen = chooseTargets(
    { instrument: packageFile("fixtures", "demo-instrument.yaml") },
    readInstrument,
  );
  const { targets, instrumentName } = chosen;
  const { a4Hz, lowEdgeHz } = chosen.settings;
  const sides = demoSides().map(({ name, takes }) => ({
    name,
    takes: takes.map(({ samples, sampleRateHz }) =>
      measureTake(memoryRecording([samples], sampleRateHz), { targets, a4Hz, lowEdgeHz }),
    ),
  }));
  return compareDocument({
    toolVersion: packageVersion(),
    instrument: instrumentName,
    settings: compareSettings(chosen, { equalGain: false, microphone: null }),
    comparison: compareSides(sides, { equalGain: false, lowEdgeHz }),
    files: sides.map(({ name, takes }) => takes.map((_, i) => `${name}, take ${i + 1} (synthesised)`)),
  });
}
