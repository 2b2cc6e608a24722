import type { TrompetteFindingCode } from "../trompette/TrompetteReading.js";
import type { FindingWording } from "./FindingWording.js";

/** What each finding of a trompette take says. The last wording of a code needs no value. */
export const trompetteWordings: Readonly<Record<TrompetteFindingCode, readonly FindingWording[]>> = {
  "no-string": [
    {
      text:
        "No string sounds for a second or more. Record the trompette bowed evenly: some seconds without strokes, then some with " +
        "strokes, close to the microphone.",
    },
  ],
  "no-buzz": [
    {
      reason: "alone",
      text:
        "No row of strokes in {soundingSeconds:1} s: {alone} sudden sounds might be strokes by themselves, but stand alone among many " +
        "notes or knocks. A buzz that never stops, or one much weaker than the bright part of the drone, is not seen.",
    },
    {
      text:
        "No sudden rise above 1 kHz that could be a stroke, in {soundingSeconds:1} s. A buzz that never stops, or one much weaker than the " +
        "bright part of the drone, is not seen.",
    },
    { text: "No sudden rise above 1 kHz that could be a stroke was found." },
  ],
  "continuous-buzz": [
    {
      text:
        "No strokes, but the sound above 1 kHz is as strong as {upperShareDb:1} dB against what lies below: 8 dB or more beyond an ideally bowed " +
        "string. It may buzz all the time, or be bowed very harshly; that can't be told apart here.",
    },
    { text: "No strokes, but a very strong sound above 1 kHz: it may buzz all the time." },
  ],
  "unclear-sounds": [
    {
      reason: "few",
      text: "Fewer than four sudden sounds of one colour (at {seconds} s) could be strokes; a knock or a cough could be the same, and strokes joined without a gap show as one. Play a row of eight even strokes or more.",
    },
    {
      reason: "no-pace",
      text:
        "{count} sudden sounds of one colour, but at no pace (the first ones at {seconds} s): notes, coughs or scratches can be like that. Play a " +
        "row of even strokes, without a melody.",
    },
    {
      reason: "notes",
      text:
        "{count} sudden sounds bring as much that is new below 1 kHz as above, as notes or plucks do (at {seconds} s). Record the strokes without " +
        "a melody.",
    },
    {
      reason: "knocks",
      text: "{count} sudden sounds are over at once, as knocks are (at {seconds} s). A stroke lasts 40 ms or more.",
    },
    { text: "Some sudden sounds may be strokes or not. Play a row of even strokes, without a melody." },
  ],
  "little-silence": [
    {
      text:
        "Only {silentSeconds:1} s without buzz: what the drone has by itself is not sure, nor are the strengths. Begin with three seconds or more " +
        "without strokes.",
    },
    { text: "Too little without buzz. Begin with three seconds or more without strokes." },
  ],
  "missed-strokes": [
    {
      text: "A stroke was due and none was found: {count}, at {seconds} s. Not played, or too soft to be seen.",
    },
    { text: "Some strokes that were due were not found." },
  ],
  "weak-strokes": [
    { text: "Weaker than the usual stroke by 6 dB or more: {count}, at {seconds} s." },
    { text: "Some strokes are 6 dB or more weaker than the usual one." },
  ],
  "uneven-strokes": [
    {
      text:
        "The strokes come unevenly: single ones lie {spreadMilliseconds:0} ms before or after the middle between their neighbours (standard " +
        "deviation). A rhythm of long and short ones shows like that too.",
    },
    { text: "The strokes come unevenly, or in a rhythm of long and short ones." },
  ],
  "unsure-onsets": [
    {
      text:
        "Onsets known less well than to 10 ms ('about' in the list, the worst to +-{widestMilliseconds:0} ms): {count}, of these {rough} because it " +
        "is not sure which of several knocks is the first loud enough to count, {faint} because it is faint against the strings or the room. Against the " +
        "latter, lift the other strings off and come nearer with the microphone.",
    },
    { text: "Some onsets are known less well than to 10 ms. Come nearer with the microphone." },
  ],
  "other-sounds": [
    {
      text: "Sudden sounds that were not taken for strokes: {count} ({notes} like notes, {knocks} like knocks, {unlike} of another colour, {alone} alone among these).",
    },
    { text: "Some sudden sounds were not taken for strokes." },
  ],
  "strings-along": [
    {
      text:
        "{strings} sounds along: strengths are against all strings together, weak strokes may be missed, and of the pitch only " +
        "what no other string covers is read. Record the trompette alone where you can.",
    },
    { text: "Other strings sound along. Record the trompette alone where you can." },
  ],
  "pitch-not-read": [
    {
      reason: "shared-partials",
      text: "The pitch can't be read apart: all low partials of the string lie on or beside those of {strings}. Lift the others off the wheel.",
    },
    {
      reason: "too-short",
      text: "The pitch was not read: the string sounds for too short a time.",
    },
    { text: "The pitch was not read: no partial of the string could be followed through the take." },
  ],
  "turns-unknown": [
    {
      reason: "no-silence",
      text:
        "Strokes a turn: not known, since no four seconds without strokes show how fast the wheel turns. Count the turns and give " +
        "--turns-per-second, or begin with five seconds of plain cranking.",
    },
    {
      text:
        "Strokes a turn: not known, since no swing that keeps time with the wheel is shown where it does not buzz. Count the turns and " +
        "give --turns-per-second.",
    },
  ],
  "upper-band-missing": [
    {
      severity: "problem",
      text: "The recording holds nothing above 1.2 kHz, where a buzz is looked for. Record at 44,100 samples a second or more.",
    },
    {
      text:
        "The recording ends at {topHz:0} Hz, so most of a buzz may be missing: strokes are found less surely, and strengths come out too " +
        "low. Record at 44,100 samples a second or more.",
    },
    { text: "The recording ends too low for a buzz. Record at 44,100 samples a second or more." },
  ],
  "no-target": [
    {
      text:
        "No other strings are known, so the take is read as the trompette alone. Where drones sound along, name the tuning or the instrument " +
        "(--tuning, --instrument).",
    },
  ],
};
