import { count } from "./count.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";

/**
 * Puts values into a template: `{peakDb:1}` is a number with one digit after the point, `{offsetCents:+1}` one with
 * its sign, `{clippedSampleCount}` a whole number with commas or a text.
 *
 * @returns null where a value is missing or is not a number where the template wants one
 */
export function fillTemplate(
  template: string,
  values: Readonly<Record<string, number | string>>,
): string | null {
  let complete = true;
  const text = template.replace(
    /\{(\w+)(?::(\+?)(\d))?\}/g,
    (_match, key: string, sign: string, digits?: string) => {
      const value = Object.hasOwn(values, key) ? values[key] : undefined;
      if (typeof value === "string" && digits === undefined) return printable(value);
      if (typeof value === "number" && Number.isFinite(value)) {
        if (digits === undefined) return count(value);
        return sign === "+" ? signed(value, Number(digits)) : value.toFixed(Number(digits));
      }
      complete = false;
      return "";
    },
  );
  return complete ? text : null;
}
