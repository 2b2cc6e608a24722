/** Loops over the frames of strings (`assembly/band`, `columns`, `courses`, `demodulation`, `locating`, `smoothing`). Places are byte offsets; the sources say what each asks for. */
export interface StringKernels {
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
}
