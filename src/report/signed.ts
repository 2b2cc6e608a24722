/** A number with its sign always shown; what rounds to zero has none. */
export function signed(value: number, digits: number): string {
  const text = value.toFixed(digits);
  if (Number(text) === 0) return text.replace("-", "");
  return value > 0 ? `+${text}` : text;
}
