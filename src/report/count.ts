/** A whole number with commas between thousands; other numbers as they are. */
export function count(value: number): string {
  return Number.isInteger(value) ? String(value).replace(/\B(?=(\d{3})+$)/g, ",") : String(value);
}
