/** Loops over series of numbers (`assembly/linear`, `series`, `wheel`, `whitening`). Places are byte offsets; the sources say what each asks for. */
export interface SeriesKernels {
  whitenedProducts(
    series: number,
    rows: number,
    count: number,
    stride: number,
    filter: number,
    order: number,
    white: number,
    products: number,
  ): void;
  filterSeries(series: number, count: number, filter: number, order: number, output: number): void;
  addWindowPower(
    series: number,
    window: number,
    length: number,
    size: number,
    values: number,
    work: number,
    factors: number,
    turns: number,
    firstBin: number,
    lastBin: number,
    factor: number,
    power: number,
  ): void;
  bestBefore(
    best: number,
    count: number,
    reaches: number,
    factors: number,
    strengths: number,
    share: number,
    next: number,
    back: number,
  ): void;
  addPulls(
    white: number,
    innovations: number,
    count: number,
    firstPlace: number,
    placeStep: number,
    variance: number,
    knots: number,
    stride: number,
    matrix: number,
    right: number,
  ): void;
  reflect(forward: number, backward: number, count: number, k: number): number;
  blockEnergies(samples: number, length: number, count: number, energies: number): void;
  blockDifferenceEnergies(samples: number, length: number, count: number, energies: number): void;
  addRamp(values: number, slope: number, count: number, sums: number): void;
  lineFit(values: number, count: number, result: number): void;
  meanLogRatio(start: number, middle: number, end: number, count: number, share: number): number;
  integralsAt(
    integral: number,
    length: number,
    hop: number,
    times: number,
    count: number,
    result: number,
  ): void;
  turnMeans(values: number, count: number, places: number, means: number): void;
  sinusoidGains(
    values: number,
    count: number,
    stepSeconds: number,
    rate: number,
    rateStep: number,
    lastRate: number,
    least: number,
    gains: number,
  ): number;
  roots(values: number, count: number, result: number): void;
  highestApart(
    density: number,
    first: number,
    end: number,
    binHz: number,
    frequencies: number,
    frequencyCount: number,
    guardHz: number,
    spread: number,
  ): number;
  /** 1 where the matrix is positive definite, else 0. */
  cholesky(matrix: number, size: number, factor: number): number;
  forwardSolve(factor: number, size: number, column: number): void;
  backSolve(factor: number, size: number, column: number): void;
  total(values: number, count: number): number;
  toShares(values: number, count: number, least: number, most: number): void;
  pathPhase(
    knots: number,
    knotCount: number,
    knotSeconds: number,
    rateHz: number,
    zeroSeconds: number,
    stepSeconds: number,
    count: number,
    phase: number,
  ): void;
  waves(phase: number, harmonic: number, count: number, cosine: number, sine: number): void;
  crossings(
    phase: number,
    count: number,
    cell: number,
    from: number,
    to: number,
    stepSeconds: number,
    times: number,
  ): void;
}
