import { demoMeasured } from "../../fixtures/demoMeasured.js";
import type { LoggedTake } from "../../src/history/logLineSchema.js";
import { historyPage } from "../../src/report/html/historyPage.js";
import { htmlPage } from "../../src/report/html/htmlPage.js";
import { measurePage } from "../../src/report/html/measurePage.js";
import { logOf } from "../history/loggedTakes.js";
import { historyOf, inventedTakes } from "../report/handMadeHistory.js";
import { commandPages } from "./commandPages.js";

/** A page that is looked at in a browser. */
export interface TestPage {
  readonly name: string;
  readonly html: string;
  /** Sheets of A4 that it fills at the most. */
  readonly sheets: number;
}

/** What an unfriendly name may hold: mark-up, a handler, an entity, a turn of the reading direction, a null. */
export const HOSTILE = `"><img src=x onerror=alert(1)>&<script>alert(2)</script>&#60;'\`\u202e\u2066\u0000\u001b[2J`;

const measured = demoMeasured("0.1.0");
const hostile = demoMeasured("0.1.0", {
  file: `${HOSTILE}.wav`,
  instrument: `</title><svg onload=alert(3)>${HOSTILE}${"very".repeat(60)}`,
  string: ({ name }, i) => (i % 2 === 0 ? `${name} ${HOSTILE}` : `${name}${"long".repeat(30)}`),
});
const twoTakes = {
  ...measured.document,
  takes: [measured.document.takes[0]!, { ...measured.document.takes[0]!, file: "second take.wav" }],
};

/** Twice as many strings as the demo's instrument has. */
const [take] = measured.document.takes;
const [pictured] = measured.pictured;
const again = <Named extends { readonly name: string }>(strings: readonly Named[]) => [
  ...strings,
  ...strings.map((string) => ({ ...string, name: `${string.name} 2` })),
];
const manyStrings = { ...measured.document, takes: [{ ...take!, strings: again(take!.strings) }] };

/** Takes of long names, each with work before it. */
function historyWith(more: Partial<LoggedTake>) {
  const takes = inventedTakes(more).map((one, i) => ({
    ...one,
    work: `${one.work} ${i}`,
    strings: one.strings.map((string, s) => ({
      ...string,
      name: s % 2 === 0 ? `${string.name} ${HOSTILE}` : `${string.name}${"long".repeat(30)}`,
    })),
  }));
  return historyOf(logOf(takes), {}, `${HOSTILE}.wav`);
}

/** Every kind of page, made from the library as the command makes it. */
export const reportPages: readonly TestPage[] = [
  { name: "measure", html: htmlPage(measurePage(measured.document, measured.pictured)), sheets: 9 },
  {
    name: "measure, two takes",
    html: htmlPage(measurePage(twoTakes, [measured.pictured[0]!, measured.pictured[0]!])),
    sheets: 8,
  },
  {
    name: "measure, twelve strings",
    html: htmlPage(measurePage(manyStrings, [{ ...pictured!, strings: again(pictured!.strings) }])),
    sheets: 12,
  },
  {
    name: "measure, hostile names",
    html: htmlPage(measurePage(hostile.document, hostile.pictured)),
    sheets: 16,
  },
  {
    name: "history, hostile names",
    html: htmlPage(historyPage(historyWith({ instrument: HOSTILE, work: `${HOSTILE}${"very".repeat(60)}` }))),
    sheets: 20,
  },
  ...commandPages,
];
