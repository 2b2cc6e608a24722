/** What the numbers of an instrument may be: wide enough for anything built, narrow enough to catch a slip. */
export const instrumentRanges = {
  a4Hz: [300, 600],
  frequencyHz: [15, 5000],
  offsetCents: [-300, 300],
  lengthMm: [50, 2000],
  keys: [0, 60],
  capoSemitones: [1, 24],
  linearDensityGramsPerMetre: [0.01, 100],
  massGrams: [0.001, 100],
  cutLengthMm: [50, 10000],
  diameterMm: [0.05, 10],
} as const;
