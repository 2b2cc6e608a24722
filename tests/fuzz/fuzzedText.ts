import type { SeededRandom } from "../../src/statistics/SeededRandom.js";

const SEEDS = [
  "name: Long low-voiced, pear\na4Hz: 440\ntemperament: quarter-comma-meantone\ntonic: G\ndrones: pure\nstrings:\n" +
    "  - name: top melody\n    role: melody\n    note: G4\n    offsetCents: 0\n    lengthMm: 345\n    keys: 23\n" +
    "  - {name: low drone, role: drone, note: C2, capo: [2], massGrams: 2.1, cutLengthMm: 420}\n",
  "strings: [{role: trompette, note: C4, frequencyHz: 261}, &a {role: drone, note: G2}, *a]\n",
  "# hertz and dB\n20 -3.5\n100 0\n1000 0.0\n3000,1\n20000;2\n",
];
const PARTS = [
  ..."[]{}:-?,&*!|>'\"%@`#\n\t \u0000\ud800a1",
  "\n  - ",
  "null",
  "1e999",
  ".nan",
  "-0",
  "<<: *a",
  "&a [*a,*a]",
  "!!js/function",
  "%YAML 1.1\n---\n",
  "\r\n",
  "\ufeff",
  "note: H4",
  "capo: [99]",
  "keys: 1e9",
  "__proto__: {x: 1}",
  "'".repeat(40),
  "[".repeat(2000),
];

/** An instrument file or a table of a microphone with parts put in, taken out and doubled. */
export function fuzzedText(random: SeededRandom): string {
  const below = (limit: number) => Math.floor(random.uniform(0, limit));
  let text = SEEDS[below(SEEDS.length)]!;
  for (let change = below(5); change > 0; change--) {
    const at = below(text.length + 1);
    const end = at + below(12);
    const kind = below(4);
    const added = kind === 0 ? PARTS[below(PARTS.length)]! : kind === 1 ? text.slice(at, end) : "";
    text = text.slice(0, at) + added + text.slice(kind === 2 ? end : at);
    if (kind === 3)
      text = text.slice(0, below(text.length + 1)) + PARTS[below(PARTS.length)]! + text.slice(at);
  }
  return text;
}
