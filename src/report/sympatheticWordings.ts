import type { SympatheticFindingCode } from "../sympathetic/SympatheticReading.js";
import type { FindingWording } from "./FindingWording.js";

/** What each finding of plucked strings says. The last wording of a code needs no value. */
export const sympatheticWordings: Readonly<Record<SympatheticFindingCode, readonly FindingWording[]>> = {
  "no-pluck": [
    {
      text:
        "None of these strings was heard. Stop the wheel, pluck one string after another, let each ring for a second " +
        "or more, and come nearer with the microphone.",
    },
  ],
  "plucks-not-placed": [
    {
      text:
        "The pluck at {startSeconds:1} s is none of these strings: {frequencyHz:2} Hz, {deviationCents:+0} cents from " +
        "{note}. It was left out.",
    },
    { text: "Further plucks that are none of these strings: {count}." },
    { text: "Some plucks are none of these strings. They were left out." },
  ],
  "held-sound": [
    {
      text:
        "Something begins at {startSeconds:1} s that does not fade as a plucked string does (at {frequencyHz:1} Hz): a " +
        "bowed string, a voice, a hum. It was not taken for a pluck. Keep the wheel still.",
    },
    { text: "Something begins that does not fade as a plucked string does. Keep the wheel still." },
  ],
  "unread-begin": [
    {
      text:
        "Sounds that begin and have no pitch that could be read: {count}, the first at {startSeconds:1} s. Knocks and " +
        "fingers do that; if it was a pluck, it was too weak.",
    },
    { text: "Some sounds that begin have no pitch that could be read." },
  ],
  "plucks-too-close": [
    {
      text:
        "Plucks followed by the next within a sixth of a second: {count}, the first at {startSeconds:1} s. Too short to " +
        "read; wait a second after each.",
    },
    { text: "Some plucks were followed too soon by the next. Wait a second after each." },
  ],
  "pluck-far-off": [
    {
      text: "{string} is {deviationCents:+0} cents from its target, so it may be another string. Make sure before you tune it.",
    },
    { text: "This string is far from its target. Make sure that it is the one you mean." },
  ],
  "equal-plucks": [
    {
      reason: "order",
      text:
        "{strings} are of one note: taken in the order of the instrument, as first plucked first. Say --order where it " +
        "was another.",
    },
    {
      reason: "guess",
      text:
        "{strings} are of one note, and their plucks come out neither one a string nor apart in pitch: which is which is a " +
        "guess. Pluck each once, in the order of the instrument, and damp the others.",
    },
    { text: "Strings of one note were taken in the order of plucking." },
  ],
  "plucks-differ": [
    {
      text:
        "{string} differs by {spreadCents:1} cents from pluck to pluck (standard deviation). Pluck more gently and always " +
        "alike; look whether it slips at the peg or touches something.",
    },
    { text: "This string differs from pluck to pluck. Pluck more gently and always alike." },
  ],
  "pluck-glides": [
    {
      text:
        "{string} starts {glideCents:0} cents sharp when plucked and falls: the pitch given is the one it settles at. A " +
        "gentler pluck glides less.",
    },
    { text: "This string starts sharp when plucked. The pitch given is the one it settles at." },
  ],
  "string-beats": [
    {
      text:
        "{string} beats with itself, {beatsPerSecond:1} times a second: it swings in two planes of slightly different pitch, " +
        "or its neighbour rings along. The pitch given is the mean.",
    },
    { text: "This string beats with itself. The pitch given is the mean." },
  ],
  "pluck-unsure": [
    {
      text:
        "{string} is known to within {halfWidthCents:1} cents only. Pluck it several times and let it ring for two seconds, " +
        "with the others damped.",
    },
    { text: "This string's pitch is not sure. Pluck it several times and let it ring." },
  ],
};
