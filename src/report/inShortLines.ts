import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { aboutCents } from "./aboutCents.js";
import { printable } from "./printable.js";
import { type TuningStep, tuningPlan } from "./tuningPlan.js";
import { wholeOffset } from "./wholeOffset.js";
import { wrapText } from "./wrapText.js";

type TakeDocument = MeasureDocument["takes"][number];

/** The answer first: which strings to tune, which way, how far and in which order; which can stay. */
export function inShortLines(take: TakeDocument, width: number): string[] {
  const anchor = take.referencePitch?.anchor ?? null;
  const { steps } = tuningPlan(take);
  const far = steps.filter(({ isFar }) => isFar);
  const rest = steps.filter(({ isFar }) => !isFar);
  const measured = take.strings.filter(({ status }) => status === "measured");
  const left = measured.filter(({ name }) => !steps.some((step) => step.name === name));
  const mark = (name: string) => printable(name) + (name === anchor ? " (the anchor)" : "");
  const listed = (strings: TakeDocument["strings"]) => strings.map(({ name }) => mark(name)).join(", ");
  const lead = far.length > 0 ? "Then tune" : "Tune";
  const lines = [
    ...leadLines(take, anchor),
    far.length > 0 ? `First of all ${far.map(said).join(", ")}: far off, so measure again after it.` : "",
    rest.length > 0 ? `${lead} ${rest.map(said).join(", ")}${rest.length > 1 ? ", in this order" : ""}.` : "",
    left.length > 0 ? `Leave ${listed(left)}.` : "",
    unheard("Not clear", "unresolved"),
    unheard("Not heard", "not-heard"),
  ];
  return lines.filter((line) => line !== "").flatMap((line) => wrapText(line, width, "  "));

  function unheard(words: string, status: "unresolved" | "not-heard"): string {
    const strings = take.strings.filter((string) => string.status === status);
    return strings.length > 0 ? `${words}: ${listed(strings)}.` : "";
  }
}

function said({ name, moveCents, isPerhaps }: TuningStep): string {
  const way = `${printable(name)} ${moveCents > 0 ? "up" : "down"} by ${aboutCents(moveCents)} cents`;
  return isPerhaps ? `perhaps ${way}` : way;
}

/** What ups and downs are counted from, where that is not the pitch asked for. */
function leadLines(take: TakeDocument, anchor: string | null): string[] {
  if (anchor !== null) return [`Counted from ${printable(anchor)}, which stays as it is.`];
  const whole = wholeOffset(take);
  if (whole === null) return [];
  const size = Math.abs(whole.offsetCents).toFixed(1);
  return [
    `All strings together stand ${size} cents ${whole.offsetCents > 0 ? "sharp" : "flat"}. This keeps them there, at ` +
      `A4 = ${whole.a4Hz.toFixed(1)} Hz, which is less work.`,
  ];
}
