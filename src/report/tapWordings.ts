import type { TapFindingCode } from "../tap/TapReading.js";
import type { FindingWording } from "./FindingWording.js";

/** What each finding of a take of taps says. The last wording of a code needs no value. */
export const tapWordings: Readonly<Record<TapFindingCode, readonly FindingWording[]>> = {
  "no-tap": [
    {
      text:
        "No tap could be used. Damp all strings with a cloth, tap the bridge several times at one spot, a second apart, and let " +
        "each tap ring off in silence.",
    },
  ],
  "not-taps": [
    {
      text:
        "What begins suddenly here does not ring off as a tapped body does: it may be speech, music or knocks at several places. Damp the " +
        "strings, tap the bridge several times at one spot, a second apart, and say nothing meanwhile.",
    },
  ],
  "few-taps": [
    {
      text: "Taps that could be used: {count}. How far taps scatter can't be said; make five or more, at one spot.",
    },
    { text: "Too few taps to say how far they scatter. Make five or more, at one spot." },
  ],
  "taps-too-close": [
    {
      text: "Left out, the next tap following too soon: {count} (at {moments} s). Leave a second after each tap.",
    },
    { text: "Some taps follow each other too soon. Leave a second after each." },
  ],
  "tap-disturbed": [
    {
      text:
        "Left out, something else sounding within it (a second hit, a knock, a voice): {count} (at {moments} s). Let finger or stick " +
        "leave at once.",
    },
    { text: "Something else sounds within some taps; they were left out." },
  ],
  "tap-clipped": [
    {
      text: "Left out, cut off at full scale: {count} (at {moments} s). Turn the input down, or tap more lightly.",
    },
    { text: "Some taps are cut off at full scale; they were left out. Turn the input down." },
  ],
  "taps-left-out": [
    { text: "More taps than are needed: the first {used} were read, {count} were not." },
    { text: "More taps than are needed; only the first were read." },
  ],
  "string-rings": [
    {
      text:
        "A string rings (it decays far more slowly than a body): {frequencies} Hz. Damp it, with a cloth between the strings on both " +
        "sides of the bridge, and don't forget the sympathetic ones. Left out.",
    },
    { text: "A string rings. Damp it, on both sides of the bridge." },
  ],
  "steady-line": [
    { text: "Sounds on all the time, and is none of the taps': {frequencies} Hz (hum, a fan). Left out." },
    { text: "Something sounds on all the time. It was left out." },
  ],
  "modes-unclear": [
    {
      text:
        "Something rings there as well, too weakly or too briefly to be read: near {frequencies} Hz. More and harder taps may show it, or it is " +
        "the room's.",
    },
    { text: "Something more rings, too weakly or too briefly to be read." },
  ],
  "modes-crowded": [
    {
      text:
        "From about {fromHz:0} Hz up modes overlap: each is wider than the distance to the next. Single modes are less sure there, and " +
        "one may stand for several.",
    },
    { text: "The higher modes overlap; single ones are less sure there." },
  ],
  "room-strong": [
    {
      text:
        "Much of what was heard does not die away as modes do ({roomDb:0} dB of it): most likely the room. Go nearer with the " +
        "microphone (a hand's length), away from walls, among curtains or outdoors.",
    },
    { text: "Much of what was heard is most likely the room. Go nearer with the microphone." },
  ],
  "taps-noisy": [
    {
      text:
        "The taps stand only {peakToNoiseDb:0} dB over the noise between them. Weak modes drown; find a quieter room, or go nearer with " +
        "the microphone.",
    },
    { text: "The taps stand little over the noise. Find a quieter room, or go nearer with the microphone." },
  ],
};
