// Least squares of a series through a filter that makes its rest white (`wheel/whitenedFit`).

/** Sends a series through a filter of taps 1, filter[1], ... filter[order]; fills `count` - order values. */
export function filterSeries(series: usize, count: i32, filter: usize, order: i32, output: usize): void {
  const kept = max<i32>(0, count - order);
  const reach: usize = <usize>order << 3;
  let m: usize = 0;
  const end: usize = <usize>kept << 3;
  for (; m + 16 <= end; m += 16) {
    let sum = f64x2.splat(0);
    for (let k: usize = 0; k <= reach; k += 8) {
      sum = f64x2.add(sum, f64x2.mul(v128.load64_splat(filter + k), v128.load(series + m + reach - k)));
    }
    v128.store(output + m, sum);
  }
  for (; m < end; m += 8) {
    let sum: f64 = 0;
    for (let k: usize = 0; k <= reach; k += 8) sum += load<f64>(filter + k) * load<f64>(series + m + reach - k);
    store<f64>(output + m, sum);
  }
}

function dot(a: usize, b: usize, count: i32): f64 {
  let sums = f64x2.splat(0);
  let otherSums = f64x2.splat(0);
  const end: usize = <usize>count << 3;
  let m: usize = 0;
  for (; m + 32 <= end; m += 32) {
    sums = f64x2.add(sums, f64x2.mul(v128.load(a + m), v128.load(b + m)));
    otherSums = f64x2.add(otherSums, f64x2.mul(v128.load(a + m, 16), v128.load(b + m, 16)));
  }
  sums = f64x2.add(sums, otherSums);
  let sum = f64x2.extract_lane(sums, 0) + f64x2.extract_lane(sums, 1);
  for (; m < end; m += 8) sum += load<f64>(a + m) * load<f64>(b + m);
  return sum;
}

/**
 * Filters `rows` series and fills the inner products of each with itself and those before it: row r, column c at r * rows + c.
 *
 * @param series - of `count` values each, `stride` values from one to the next
 * @param white - room for as many
 */
export function whitenedProducts(
  series: usize,
  rows: i32,
  count: i32,
  stride: i32,
  filter: usize,
  order: i32,
  white: usize,
  products: usize,
): void {
  const bytes: usize = <usize>stride << 3;
  for (let r = 0; r < rows; r++) {
    const row = white + <usize>r * bytes;
    filterSeries(series + <usize>r * bytes, count, filter, order, row);
    for (let c = 0; c <= r; c++) {
      store<f64>(
        products + (<usize>(r * rows + c) << 3),
        dot(row, white + <usize>c * bytes, count - order),
      );
    }
  }
}
