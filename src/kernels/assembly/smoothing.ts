// Smoothing of frames by symmetric weights (`partials/smoothFrames`).

/**
 * @param weights - of the value itself and of those 1, 2, ... `half` frames away, summing to 1 with both sides counted
 * At the ends the weights that fall outside are left out and the rest scaled up.
 */
export function smooth(values: usize, weights: usize, half: i32, count: i32, smoothed: usize): void {
  if (count <= 0) return;
  const reach: usize = <usize>half << 3;
  let from = values + reach;
  let to = smoothed + reach;
  const end = values + (<usize>count << 3) - reach;
  // Four at a time: none waits for another's sum.
  for (; from + 32 <= end; from += 32, to += 32) {
    const middle = v128.load64_splat(weights);
    let sum0 = f64x2.mul(middle, v128.load(from));
    let sum1 = f64x2.mul(middle, v128.load(from, 16));
    for (let away: usize = 8; away <= reach; away += 8) {
      const weight = v128.load64_splat(weights + away);
      const before = from - away;
      const after = from + away;
      sum0 = f64x2.add(sum0, f64x2.mul(weight, f64x2.add(v128.load(before), v128.load(after))));
      sum1 = f64x2.add(sum1, f64x2.mul(weight, f64x2.add(v128.load(before, 16), v128.load(after, 16))));
    }
    v128.store(to, sum0);
    v128.store(to, sum1, 16);
  }
  for (; from < end; from += 8, to += 8) {
    let sum = load<f64>(weights) * load<f64>(from);
    for (let away: usize = 8; away <= reach; away += 8) {
      sum += load<f64>(weights + away) * (load<f64>(from - away) + load<f64>(from + away));
    }
    store<f64>(to, sum);
  }
  const last = count - 1;
  for (let m = 0; m < count; m++) {
    if (m === half && m <= last - half) m = last - half + 1;
    if (m > last) break;
    let sum: f64 = 0;
    let total: f64 = 0;
    for (let j = max<i32>(-half, -m); j <= min<i32>(half, last - m); j++) {
      const weight = load<f64>(weights + (<usize>abs<i32>(j) << 3));
      sum += weight * load<f64>(values + (<usize>(m + j) << 3));
      total += weight;
    }
    store<f64>(smoothed + (<usize>m << 3), sum / total);
  }
}
