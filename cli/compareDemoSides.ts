import {
  type CompareDocument,
  compareDocument,
  compareSides,
  demoSides,
  measureTake,
  memoryRecording,
} from "../src/index.js";
import { chooseTargets } from "./chooseTargets.js";
import { packageFile, packageVersion } from "./files.js";

/** Synthesises the demo's three instruments, measures their takes, and compares them. */
export function compareDemoSides(): CompareDocument {
  const { targets, settings, instrumentName } = chooseTargets({
    instrument: packageFile("fixtures", "demo-instrument.yaml"),
  });
  const { a4Hz, lowEdgeHz } = settings;
  const sides = demoSides().map(({ name, takes }) => ({
    name,
    takes: takes.map(({ samples, sampleRateHz }) =>
      measureTake(memoryRecording([samples], sampleRateHz), { targets, a4Hz, lowEdgeHz }),
    ),
  }));
  return compareDocument({
    toolVersion: packageVersion(),
    instrument: instrumentName,
    settings: { ...settings, equalGain: false, microphone: null },
    comparison: compareSides(sides, { equalGain: false, lowEdgeHz }),
    files: sides.map(({ name, takes }) => takes.map((_, i) => `${name}, take ${i + 1} (synthesised)`)),
  });
}
