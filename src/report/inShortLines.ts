import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { pairPlan } from "./pairPlan.js";
import { printable } from "./printable.js";
import { stringAdvice } from "./stringAdvice.js";
import { wholeOffset } from "./wholeOffset.js";
import { wrapText } from "./wrapText.js";

type TakeDocument = MeasureDocument["takes"][number];

/** The answer first: which strings to tune and which way, which to look at, which can stay. */
export function inShortLines(take: TakeDocument, width: number): string[] {
  const anchor = take.referencePitch?.anchor ?? null;
  const advised = take.strings.map((string) => ({
    name: printable(string.name) + (string.name === anchor ? " (the anchor)" : ""),
    status: string.status,
    ...stringAdvice(string, anchor),
  }));
  const named = (verdict: "good" | "doubtful" | "bad") =>
    advised.filter((string) => string.status === "measured" && string.verdict === verdict);
  const off = ({ name, errorCents }: (typeof advised)[number]) => {
    const error = errorCents ?? 0;
    return `${name} ${error > 0 ? "down" : "up"} (${Math.abs(error).toFixed(1)} cents ${error > 0 ? "sharp" : "flat"})`;
  };
  const unheard = advised.filter(({ status }) => status !== "measured").map(({ name }) => name);
  const sentences = [
    { lead: "Tune", items: named("bad").map(off) },
    { lead: "Perhaps", items: named("doubtful").map(off) },
    { lead: "Leave", items: named("good").map(({ name }) => name) },
    { lead: "Not heard, or not clear:", items: unheard },
  ].filter(({ items }) => items.length > 0);
  return [
    ...leadLines(take, anchor),
    ...sentences.map(({ lead, items }) => `${lead} ${items.join(", ")}.`),
    ...(pairPlan(take).moves.length > 0
      ? ['That is each string by itself. Those that beat together: see the steps under "Pairs of strings".']
      : []),
  ].flatMap((line) => wrapText(line, width, "  "));
}

/** What the sharp and flat below are counted from, where that is not the pitch asked for, or where there is a choice. */
function leadLines(take: TakeDocument, anchor: string | null): string[] {
  if (anchor !== null) return [`Sharp and flat as counted from ${printable(anchor)}, which stays as it is.`];
  const whole = wholeOffset(take);
  if (whole === null) return [];
  const size = Math.abs(whole.offsetCents).toFixed(1);
  return [
    `All strings together stand ${size} cents ${whole.offsetCents > 0 ? "sharp" : "flat"}. To keep them ` +
      'there is less work than this: see "Pitch of the whole".',
  ];
}
