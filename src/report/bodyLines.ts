import type { MeasureDocument } from "../reading/measureDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { signed } from "./signed.js";
import { wrapText } from "./wrapText.js";

type LowRegister = NonNullable<MeasureDocument["takes"][number]["lowRegister"]>;
type Body = Pick<
  LowRegister,
  "bodyCurve" | "bodyCurveLacking" | "lowReachHz" | "lowReachIsAtOrBelow" | "lowReachRange95Hz"
>;

/** Above this the curve is for the JSON and for pictures. */
const LISTED_BELOW_HZ = 355;

/**
 * The low end of the body curve and how low the body carries.
 *
 * @param isWhole - the whole curve instead, for sounds that have no low end: the keys of a string
 */
export function bodyLines(body: Body, width: number, isWhole = false): string[] {
  const low = body.bodyCurve.filter(
    ({ frequencyHz, levelDb }) => (isWhole || frequencyHz < LISTED_BELOW_HZ) && levelDb !== null,
  );
  if (body.bodyCurveLacking !== null) {
    return wrapText(
      `The body by itself: can't be had. ${reasons[body.bodyCurveLacking]}`,
      width,
      "  ",
      "    ",
    );
  }
  if (low.length === 0) return [];
  const points = low.map(({ frequencyHz, levelDb, interval95Db }) => {
    const range =
      interval95Db === null ? "" : `\u00a0(${intervalText(interval95Db, 0).replaceAll(" ", "\u00a0")})`;
    return `${frequencyHz.toFixed(0)}\u00a0Hz\u00a0${signed(levelDb ?? 0, 0)}${range}`;
  });
  return [
    `The body${isWhole ? "" : "'s low end"} against its own middle (355-1413 Hz), dB (95 % between): ${points.join(", ")}.`,
    isWhole ? "" : reachSentence(body),
  ]
    .filter((line) => line !== "")
    .flatMap((line) => wrapText(line, width, "  ", "    "))
    .map((line) => line.replaceAll("\u00a0", " "));
}

const reasons: Readonly<Record<NonNullable<Body["bodyCurveLacking"]>, string>> = {
  "too-few-partials": "Too few partials were measured; record more strings, or a scale.",
  "strings-not-connected":
    "The strings share no part of the range, so the body can't be told from how strongly each was bowed. Record more strings, or a scale.",
  "no-reference": "Too little was heard between 355 and 1413 Hz to set the low end against.",
};

function reachSentence({ lowReachHz, lowReachIsAtOrBelow, lowReachRange95Hz }: Body): string {
  if (lowReachHz === null) return "";
  const hz = lowReachHz.toFixed(0);
  if (lowReachIsAtOrBelow) {
    const sureHz = lowReachRange95Hz?.[1] ?? lowReachHz;
    const sure = sureHz > lowReachHz + 0.5 ? ` (95 %: to ${Math.ceil(sureHz)} Hz at least)` : "";
    return `It carries down to ${hz} Hz or lower${sure}: even the lowest partial played reads within 10 dB of the middle.`;
  }
  const range =
    lowReachRange95Hz === null
      ? ""
      : ` (95 %: ${lowReachRange95Hz[0].toFixed(0)} to ${lowReachRange95Hz[1].toFixed(0)})`;
  return `It carries down to about ${hz} Hz${range}: what lies lower is more than 10 dB below its middle.`;
}
