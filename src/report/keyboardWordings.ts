import type { KeyboardFindingCode } from "../keyboard/KeyboardReading.js";
import type { FindingWording } from "./FindingWording.js";

/** What each finding of a scale says. The last wording of a code needs no value. */
export const keyboardWordings: Readonly<Record<KeyboardFindingCode, readonly FindingWording[]>> = {
  "no-key": [
    {
      text:
        "No key of {string} could be heard. Was this string on the wheel, and no other melody string? Name the drones " +
        "that sound in the instrument, play each key for half a second or more, and come nearer with the microphone.",
    },
    { text: "No key could be heard." },
  ],
  "few-keys": [
    { text: "Keys heard: {count}, too few to tell a shift of nut or bridge. Play all of them." },
    { text: "Too few keys were heard to tell a shift of nut or bridge. Play all of them." },
  ],
  "open-not-played": [
    {
      text:
        "The open string was not played, so the keys are counted from its target ({openHz:1} Hz). What all keys are off " +
        "by alike may be the string's tuning. Play the open string first to tell.",
    },
    { text: "The open string was not played: the keys are counted from its target." },
  ],
  "open-off-target": [
    {
      text:
        "The open string is {deviationCents:+1} cents from its target. The keys are counted from the string as it is, so " +
        "tuning it moves them all along.",
    },
    { text: "The open string is off its target. The keys are counted from the string as it is." },
  ],
  "no-length": [
    {
      text:
        "The length of {string} is not known, so cents can't be made millimetres. Measure from nut to bridge and give " +
        "--length-mm, or lengthMm in the instrument file.",
    },
    { text: "Without the length of the string cents can't be made millimetres. Give --length-mm." },
  ],
  "keys-missed": [
    { text: "Not heard: key {keys}. Either it was not played, or not for long enough." },
    { text: "Some keys were not heard." },
  ],
  "notes-not-placed": [
    {
      text: "Notes that are no key of this string: {count}, the first at {startSeconds:1} s. Slips, or another string; left out.",
    },
    { text: "Some notes are no key of this string. They were left out." },
  ],
  "keys-beyond-file": [
    {
      text:
        "Notes above the last key ({keyCount}): {count}, left out. If there are more keys, say how many in the instrument " +
        "file (keys), and read the scale again.",
    },
    { text: "Some notes lie above the last key. Say in the instrument file how many keys there are." },
  ],
  "played-too-fast": [
    {
      text:
        "Played too fast: notes of 0.3 s or less, which are not read: {count}, the first at {startSeconds:1} s. Hold each " +
        "key for half a second or more.",
    },
    {
      text: "Played too fast: notes of 0.3 s or less are not read. Hold each key for half a second or more.",
    },
  ],
  "likely-string": [
    {
      severity: "problem",
      text:
        "This sounds like the keys of {other}, not of {string}: notes lie below the open {string}. Read it again with " +
        "--string and that name; the numbers here are of the wrong string.",
    },
    {
      text:
        "No key of {string} below key {lowestKey} was heard, and from there on it would be the open string and the keys of {other}. If the " +
        "scale was played on {other}, read it again with --string and that name.",
    },
    { text: "This sounds like the keys of another string than the one named." },
  ],
  "large-move": [
    {
      text:
        "Key {keys}: the tangent would have to move by more than {largestMm:0} mm, which turning it on its shaft does " +
        "not give. Look whether it is loose, bent or in the wrong hole, or whether the key does not go home.",
    },
    { text: "A tangent would have to move further than turning it gives. Look whether it is loose or bent." },
  ],
  "harsh-keys": [
    {
      text:
        "Much harsher than the others, with more noise between the partials: key {keys}. Look at the tangent's edge, and " +
        "whether both tangents touch or the key is pressed home; then at cotton and rosin.",
    },
    { text: "Some keys are much harsher than the others. Look at the tangent's edge." },
  ],
  "unsteady-keys": [
    {
      text:
        "Moving about much more than the others: key {keys}. The tangent may be loose or hold the string too lightly; its " +
        "cents are less sure.",
    },
    { text: "Some keys move about much more than the others. Their tangents may be loose." },
  ],
  "other-string": [
    {
      text:
        "{other} seems to sound along, stopped by the same keys ({sharePercent} % of the notes show it). Lift it off the " +
        "wheel and play the scale again: two strings at once are not read apart here.",
    },
    { text: "Another melody string seems to sound along. Lift it off the wheel and play the scale again." },
  ],
  "something-beats": [
    {
      text:
        "Something beats along with {string} on most notes ({sharePercent} %): perhaps another melody string stopped by " +
        "the same keys. Lift the others off the wheel and play the scale again; these readings are not sure.",
    },
    { text: "Something beats along on most notes. Lift the other melody strings off the wheel." },
  ],
  "unnamed-sound": [
    {
      text:
        "Something strong sounds along with {string} on most notes that is none of the strings named: a drone that is not " +
        "in this tuning, or is far off it. Name the instrument, tune the drones, or lift them off; some keys may be missing.",
    },
    { text: "Something strong sounds along on most notes. Lift the other strings off the wheel." },
  ],
  "drones-taken-out": [
    {
      text: "Sounding throughout, and taken out before the keys were read: {drones}.",
    },
    { text: "Drones were taken out before the keys were read." },
  ],
};
