// Decimation of 32-bit samples by a finite filter.

/**
 * Fills `count` outputs, each the sum of `tapCount` inputs times their taps; from one to the next the input moves on by
 * `factor` samples. Four at a time: each sums four taps at once, and none has to wait for another's sum.
 *
 * @param tapCount - a multiple of 4, the rest filled with zeros; so many inputs must be there for the last output too
 * @param count - a multiple of 4
 */
export function decimate(
  input: usize,
  taps: usize,
  tapCount: i32,
  factor: i32,
  output: usize,
  count: i32,
): void {
  const step: usize = <usize>factor << 2;
  const end: usize = <usize>tapCount << 2;
  const last = output + (<usize>count << 2);
  while (output < last) {
    const input1 = input + step;
    const input2 = input1 + step;
    const input3 = input2 + step;
    let sum0 = f32x4.splat(0);
    let sum1 = f32x4.splat(0);
    let sum2 = f32x4.splat(0);
    let sum3 = f32x4.splat(0);
    for (let at: usize = 0; at < end; at += 16) {
      const tap = v128.load(taps + at);
      sum0 = f32x4.add(sum0, f32x4.mul(tap, v128.load(input + at)));
      sum1 = f32x4.add(sum1, f32x4.mul(tap, v128.load(input1 + at)));
      sum2 = f32x4.add(sum2, f32x4.mul(tap, v128.load(input2 + at)));
      sum3 = f32x4.add(sum3, f32x4.mul(tap, v128.load(input3 + at)));
    }
    // From four sums of four to four sums: first in pairs (0 1 0 1 and 2 3 2 3), then the pairs.
    const pair01 = f32x4.add(
      v128.shuffle<f32>(sum0, sum1, 0, 4, 1, 5),
      v128.shuffle<f32>(sum0, sum1, 2, 6, 3, 7),
    );
    const pair23 = f32x4.add(
      v128.shuffle<f32>(sum2, sum3, 0, 4, 1, 5),
      v128.shuffle<f32>(sum2, sum3, 2, 6, 3, 7),
    );
    v128.store(
      output,
      f32x4.add(
        v128.shuffle<f32>(pair01, pair23, 0, 1, 4, 5),
        v128.shuffle<f32>(pair01, pair23, 2, 3, 6, 7),
      ),
    );
    output += 16;
    input = input3 + step;
  }
}
