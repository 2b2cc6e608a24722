/**
 * Energy of the odd partials over that of the even ones, in dB.
 *
 * @param powers - of partials 1, 2, 3, ...
 * @returns null where one of the two holds nothing
 */
export function oddToEvenDb(powers: readonly number[]): number | null {
  let odd = 0;
  let even = 0;
  for (const [index, power] of powers.entries()) {
    if (index % 2 === 0) odd += power;
    else even += power;
  }
  return odd > 0 && even > 0 ? 10 * Math.log10(odd / even) : null;
}
