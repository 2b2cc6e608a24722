import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { printable } from "./printable.js";
import { stringAdvice } from "./stringAdvice.js";
import { wrapText } from "./wrapText.js";

type StringDocument = MeasureDocument["takes"][number]["strings"][number];

/** The answer first: which strings to tune and which way, which to look at, which can stay. */
export function inShortLines(strings: readonly StringDocument[], width: number): string[] {
  const named = (verdict: "good" | "doubtful" | "bad") =>
    strings.filter((string) => string.status === "measured" && stringAdvice(string).verdict === verdict);
  const unheard = strings.filter(({ status }) => status !== "measured").map(({ name }) => printable(name));
  const off = (string: StringDocument) => {
    const deviation = string.deviationCents ?? 0;
    const way = deviation > 0 ? "down" : "up";
    return `${printable(string.name)} ${way} (${Math.abs(deviation).toFixed(1)} cents ${deviation > 0 ? "sharp" : "flat"})`;
  };
  const sentences = [
    { lead: "Tune", items: named("bad").map(off) },
    { lead: "Perhaps", items: named("doubtful").map(off) },
    { lead: "Leave", items: named("good").map(({ name }) => printable(name)) },
    { lead: "Not heard, or not clear:", items: unheard },
  ].filter(({ items }) => items.length > 0);
  return sentences.flatMap(({ lead, items }) => wrapText(`${lead} ${items.join(", ")}.`, width, "  "));
}
