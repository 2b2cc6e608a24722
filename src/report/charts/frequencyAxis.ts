import { noteNameOfMidi } from "../../units/noteNameOfMidi.js";
import { chartColours } from "./chartColours.js";

/** MIDI number 0 at A4 = 440 Hz. */
const MIDI_ZERO_HZ = 440 / 2 ** (69 / 12);

/** Where a frequency stands on a frequency axis: octaves above MIDI number 0. */
export function octavesOf(frequencyHz: number): number {
  return Math.log2(frequencyHz / MIDI_ZERO_HZ);
}

/** The frequency at a place of the axis. */
function frequencyAt(octaves: number): number {
  return MIDI_ZERO_HZ * 2 ** octaves;
}

/**
 * An axis of frequency, an octave as wide as any other: a line at every C, with its note and its hertz.
 *
 * @param withHertz - an upright axis in little room leaves them out
 */
export function frequencyAxis(lowestHz: number, highestHz: number, position: "x" | "y", withHertz = true) {
  const lowest = octavesOf(lowestHz);
  const highest = octavesOf(highestHz);
  return {
    type: "value" as const,
    min: lowest,
    max: highest,
    axisTick: { customValues: octavesWithin(lowest, highest) },
    axisLabel: {
      customValues: octavesWithin(lowest, highest),
      formatter: (octaves: number) => {
        const note = noteNameOfMidi(12 * octaves);
        if (!withHertz) return note;
        return `${note}${position === "x" ? "\n" : "  "}${Math.round(frequencyAt(octaves))}`;
      },
      color: chartColours.faint.light,
      lineHeight: 16,
      hideOverlap: true,
    },
    splitLine: { show: false },
    axisLine: { show: true, onZero: false, lineStyle: { color: chartColours.rule.light } },
    name: position === "x" ? "note, and hertz" : withHertz ? "note, hertz" : "note",
    nameTextStyle: { color: chartColours.faint.light },
    nameLocation: position === "x" ? ("middle" as const) : ("end" as const),
    nameGap: position === "x" ? 40 : 10,
  };
}

function octavesWithin(lowest: number, highest: number): number[] {
  const first = Math.ceil(lowest - 1e-9);
  const count = Math.floor(highest + 1e-9) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, i) => first + i);
}
