/** Loops over samples and spectra (`assembly/fourier`, `decimation`, `decoding`, `survey`, `tracker`). Places are byte offsets; the sources say what each asks for. */
export interface SampleKernels {
  transform(values: number, work: number, factors: number, size: number): number;
  inverse(values: number, work: number, factors: number, size: number): number;
  transformReal(values: number, work: number, factors: number, turns: number, half: number): number;
  decimate(
    input: number,
    taps: number,
    tapCount: number,
    factor: number,
    output: number,
    count: number,
  ): void;
  summarise(samples: number, count: number, result: number): void;
  productSum(first: number, second: number, count: number): number;
  firstOutside(samples: number, start: number, count: number, lowest: number, highest: number): number;
  decode16(from: number, stride: number, to: number, count: number): void;
  decode24(from: number, stride: number, to: number, count: number): void;
  addPower(
    samples: number,
    window: number,
    size: number,
    values: number,
    work: number,
    factors: number,
    turns: number,
    power: number,
    firstBin: number,
    lastBin: number,
  ): void;
  addPowers(
    first: number,
    second: number,
    window: number,
    size: number,
    values: number,
    work: number,
    factors: number,
    power: number,
    firstBin: number,
    lastBin: number,
  ): void;
  correlate(
    power: number,
    amplitude: number,
    firstBin: number,
    lastBin: number,
    last: number,
    waves: number,
    folded: number,
    work: number,
    factors: number,
    turns: number,
    correlation: number,
    count: number,
  ): void;
  firstHighPeak(
    correlation: number,
    envelope: number,
    amplitude: number,
    size: number,
    firstBin: number,
    lastBin: number,
    lagMinimum: number,
    lagMaximum: number,
    leastClarity: number,
    firstPeakShare: number,
    roughShare: number,
    dipShare: number,
    lags: number,
    result: number,
  ): void;
  summariseBlocks(
    samples: number,
    length: number,
    count: number,
    result: number,
    powers: number,
    totals: number,
  ): void;
  smallestStep(samples: number, count: number, least: number): number;
  subtractConstant(samples: number, count: number, constant: number): void;
  makeFactors(size: number, factors: number, turns: number): void;
}
