import { memoryRecording } from "../../src/audio/memoryRecording.js";
import { spectrogramOf } from "../../src/audio/spectrogramOf.js";
import { builtInTunings } from "../../src/instrument/builtInTunings.js";
import { readInstrument } from "../../src/instrument/readInstrument.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { checkPage } from "../../src/report/html/checkPage.js";
import { comparePage } from "../../src/report/html/comparePage.js";
import { historyPage } from "../../src/report/html/historyPage.js";
import { htmlPage } from "../../src/report/html/htmlPage.js";
import { keyboardPage } from "../../src/report/html/keyboardPage.js";
import { stringingPage } from "../../src/report/html/stringingPage.js";
import { sympatheticPage } from "../../src/report/html/sympatheticPage.js";
import { tapPage } from "../../src/report/html/tapPage.js";
import { trompettePage } from "../../src/report/html/trompettePage.js";
import { tuningsPage } from "../../src/report/html/tuningsPage.js";
import { wheelPage } from "../../src/report/html/wheelPage.js";
import { stringingDocument } from "../../src/report/stringingDocument.js";
import { readStringing } from "../../src/stringing/readStringing.js";
import { handMadeDocument, handMadeTake } from "../report/handMade.js";
import { handMadeCompareDocument } from "../report/handMadeComparison.js";
import { inventedHistory } from "../report/handMadeHistory.js";
import { handMadeKeyboardDocument } from "../report/handMadeKeyboard.js";
import { pluckedDocument, pluckedString } from "../report/handMadePlucks.js";
import { handMadeWheelDocument, SECONDS, swinging } from "../report/handMadeWheel.js";
import { readTapDocument } from "../report/readTapDocument.js";
import { readTrompetteDocument } from "../report/readTrompetteDocument.js";

const strung = (lengthMm: number) => {
  const instrument = readInstrument(
    `name: Bench\nstrings:\n  - {name: top, role: melody, note: A4, lengthMm: ${lengthMm}, linearDensityGramsPerMetre: 1}\n`,
  );
  return { instrument, targets: stringTargets(instrument) };
};
const stringing = stringingDocument({
  toolVersion: "0.0.0-test",
  instrument: "Bench",
  against: "another",
  settings: { a4Hz: 440, tonic: null, tensionNewton: null, otherLengthMm: null, retune: {} },
  reading: readStringing(strung(350), null, strung(700)),
});
const wheel = handMadeWheelDocument([
  {
    startSeconds: 1,
    endSeconds: 1 + SECONDS,
    strings: [
      { name: "C2", movement: swinging(0) },
      { name: "G4", movement: swinging(0.3) },
    ],
  },
]);
const tunings = builtInTunings.map((tuning) => ({ name: tuning.name, targets: stringTargets(tuning) }));
const tone = Float32Array.from({ length: 16_000 }, (_, i) => 0.3 * Math.sin(i / 10));
const badTake = handMadeTake({ findings: [{ code: "clipping", severity: "problem", values: {} }] });

/** Pages of the commands besides `measure`, each named by its command. */
export const commandPages = [
  { name: "compare", html: htmlPage(comparePage(handMadeCompareDocument())), sheets: 6 },
  { name: "keyboard", html: htmlPage(keyboardPage(handMadeKeyboardDocument("G4", "G4 2"))), sheets: 6 },
  { name: "wheel", html: htmlPage(wheelPage(wheel)), sheets: 6 },
  {
    name: "check",
    html: htmlPage(
      checkPage(handMadeDocument([badTake], { instrument: null }), [
        { strings: [], durationSeconds: 2, spectrogram: spectrogramOf(memoryRecording([tone], 8000)) },
      ]),
    ),
    sheets: 2,
  },
  { name: "stringing", html: htmlPage(stringingPage(stringing, ["bench.yaml"])), sheets: 4 },
  {
    name: "sympathetic",
    html: htmlPage(
      sympatheticPage(
        pluckedDocument([pluckedString("D4", -4.2), pluckedString("F#4", 12.7), pluckedString("B4", null)]),
      ),
    ),
    sheets: 4,
  },
  { name: "tunings", html: htmlPage(tuningsPage(tunings, 440, "0.0.0-test")), sheets: 4 },
  { name: "history", html: htmlPage(historyPage(inventedHistory())), sheets: 7 },
  { name: "tap", html: htmlPage(tapPage(readTapDocument("body"))), sheets: 7 },
  { name: "trompette", html: htmlPage(trompettePage(readTrompetteDocument("strokes.wav"))), sheets: 5 },
];
