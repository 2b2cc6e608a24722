/** The smallest power of two that is not below `value` (at least 1). */
export function nextPowerOfTwo(value: number): number {
  return 2 ** Math.max(0, Math.ceil(Math.log2(value)));
}
