import type { ScratchUser } from "./ScratchUser.js";

/** Places in the kernels' memory are byte offsets; the sources in `assembly/` say what each asks for. */
export interface KernelFunctions {
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
  cutBand(
    band: number,
    values: number,
    work: number,
    factors: number,
    size: number,
    scale: number,
    binHz: number,
    restHz: number,
    flatHz: number,
    edgeHz: number,
    turnReal: number,
    turnImaginary: number,
    firstFrame: number,
    count: number,
    real: number,
    imaginary: number,
  ): void;
  turnFrames(real: number, imaginary: number, phasors: number, count: number): void;
  phasorPowers(phasors: number, start: number, count: number, rows: number, powers: number): void;
  summarise(samples: number, count: number, result: number): void;
  productSum(first: number, second: number, count: number): number;
  firstOutside(samples: number, start: number, count: number, lowest: number, highest: number): number;
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
  decode16(from: number, stride: number, to: number, count: number): void;
  decode24(from: number, stride: number, to: number, count: number): void;
  demodulate(
    samples: number,
    from: number,
    sampleCount: number,
    sampleRateHz: number,
    firstSeconds: number,
    gridSeconds: number,
    hopSeconds: number,
    frames: number,
    frequencyHz: number,
    course: number,
    partialCount: number,
    pairs: number,
    sums: number,
    weights: number,
    real: number,
    imaginary: number,
    stride: number,
  ): void;
  turnedSums(
    samples: number,
    stepReal: number,
    stepImaginary: number,
    blockSamples: number,
    blocks: number,
    partialCount: number,
    work: number,
    real: number,
    imaginary: number,
  ): void;
  addPartials(
    sound: number,
    stepReal: number,
    stepImaginary: number,
    count: number,
    centreSamples: number,
    centres: number,
    amplitudesReal: number,
    amplitudesImaginary: number,
    partialCount: number,
    pieceSamples: number,
    work: number,
  ): void;
  smooth(values: number, weights: number, half: number, count: number, smoothed: number): void;
  neighbourColumn(
    mine: number,
    theirs: number,
    gain: number,
    level: number,
    turnReal: number,
    turnImaginary: number,
    count: number,
    real: number,
    imaginary: number,
  ): void;
  innerProduct(
    aReal: number,
    aImaginary: number,
    bReal: number,
    bImaginary: number,
    weights: number,
    count: number,
    result: number,
  ): void;
  takeOut(
    real: number,
    imaginary: number,
    columnReal: number,
    columnImaginary: number,
    amplitudeReal: number,
    amplitudeImaginary: number,
    count: number,
  ): void;
  restEnergy(
    real: number,
    imaginary: number,
    column: number,
    amplitudeReal: number,
    amplitudeImaginary: number,
    count: number,
  ): number;
  addEquations(
    columns: number,
    amplitudes: number,
    restReal: number,
    restImaginary: number,
    strings: number,
    turn: number,
    weight: number,
    count: number,
    normal: number,
    right: number,
    rows: number,
  ): void;
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
  unwrap(real: number, imaginary: number, count: number, phases: number): void;
  leastShare(real: number, imaginary: number, count: number): number;
  addScaled(values: number, factor: number, count: number, sum: number): void;
  strayEnergy(values: number, others: number, factor: number, count: number): number;
  energy(real: number, imaginary: number, count: number): number;
  phasorSums(
    real: number,
    imaginary: number,
    count: number,
    lag: number,
    bend: number,
    sizes: number,
    result: number,
  ): void;
  addSizes(real: number, imaginary: number, count: number, sum: number): void;
  gainSums(
    real: number,
    imaginary: number,
    gain: number,
    weights: number,
    count: number,
    result: number,
  ): void;
  addSpectrum(
    real: number,
    imaginary: number,
    weights: number,
    count: number,
    values: number,
    work: number,
    factors: number,
    size: number,
    reach: number,
    factor: number,
    powers: number,
  ): void;
  leftShares(explained: number, uncovered: number, count: number, least: number, energy: number): void;
  leastProduct(
    numbers: number,
    reaches: number,
    left: number,
    stride: number,
    parts: number,
    span: number,
    step: number,
    binHz: number,
    result: number,
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
  addFramePowers(real: number, imaginary: number, count: number, sum: number): void;
  frameSums(real: number, imaginary: number, count: number, result: number): void;
  turnsOfCycles(cycles: number, count: number, turns: number): void;
  solveColumns(
    columns: number,
    size: number,
    real: number,
    imaginary: number,
    weights: number,
    count: number,
    ridge: number,
    rows: number,
    amplitudes: number,
  ): number;
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
  makeFactors(size: number, factors: number, turns: number): void;
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

/** The kernels and the memory that they work in. */
export interface LoadedKernels {
  readonly functions: KernelFunctions;
  /** The memory as it is now: to be asked for anew after an allocation, which may move it. */
  readonly u8: Uint8Array;
  readonly f32: Float32Array;
  readonly f64: Float64Array;
  /** Memory for good, in steps of 16 bytes: for tables that are made once. */
  allocate(byteCount: number): number;
  /** Memory of one user until that user asks for it the next time; nothing is promised of what is in it. */
  scratch(byteCount: number, user: ScratchUser): number;
}
