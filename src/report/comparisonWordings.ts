import type { ComparisonFindingCode } from "../comparison/Comparison.js";
import type { FindingWording } from "./FindingWording.js";

/** What each finding of a comparison says. The last wording of a code needs no value. */
export const comparisonWordings: Readonly<Record<ComparisonFindingCode, readonly FindingWording[]>> = {
  "note-missing": [
    {
      text:
        "Left out of the comparison, being absent from {takeCount} of the takes of {side}: {strings}. Play the same strings in " +
        "every take.",
    },
    { text: "A note that some takes lack was left out of the comparison." },
  ],
  "no-common-note": [
    {
      text:
        "There is no string that every take has, so nothing can be compared. Play the same strings in every take, and " +
        "together or one by one alike on all sides.",
    },
  ],
  "no-low-part": [
    {
      text:
        "The low part of {sides} can't be had in every take: no partial was heard on one side of the edge. Record the low " +
        "strings too.",
    },
    { text: "The low part can't be had in every take. Record the low strings too." },
  ],
  "one-take": [
    {
      text:
        "{sides}: one take only. A difference between two single takes proves nothing, for it may be the placing of " +
        "player and microphone. Make three takes a side or more, each newly placed, sides alternated.",
    },
    { text: "One take only on a side: a difference between two single takes proves nothing." },
  ],
  "take-apart": [
    {
      text:
        "{side}: take {take} of {takeCount} ({value:1} dB) stands apart from the others. Listen to it: if something went wrong " +
        "(a knock, another place, a damped string), make it again. Don't leave it out only because it disturbs.",
    },
    { text: "One take stands apart from the others of its side. Listen to it." },
  ],
  "no-scatter": [
    {
      text:
        "{sides}: takes that are all but identical, as copies of one file are. Copies make a side look surer than it is. Without " +
        "takes that were newly placed nothing says how surely a difference is the instrument's.",
    },
    { text: "Some takes are all but identical, as copies of one file are." },
  ],
  "sample-rates-differ": [
    {
      text:
        "Sample rates differ: {sideA} {ratesA} Hz, {sideB} {ratesB} Hz. The measures end at 2818 Hz, so that alone does " +
        "not matter; another recorder or setting might.",
    },
    { text: "Sample rates differ." },
  ],
  "low-cut-differs": [
    {
      text:
        "The lows were filtered out in {cutTakesA} of the takes of {sideA} and in {cutTakesB} of those of {sideB}. " +
        "That is a difference of microphones or switches, not of the instruments. Record all takes alike.",
    },
    {
      text:
        "The lows were filtered out differently: {sideA} below about {cutoffHzA:0} Hz, {sideB} below about {cutoffHzB:0} " +
        "Hz. That is a difference of microphones or switches, not of the instruments. Record both sides alike.",
    },
    {
      text:
        "On {sideA} the lows were filtered out below about {cutoffHzA:0} Hz, on {sideB} not. That is a difference of " +
        "microphones or switches, not of the instruments. Record both sides alike.",
    },
    {
      text:
        "On {sideB} the lows were filtered out below about {cutoffHzB:0} Hz, on {sideA} not. That is a difference of " +
        "microphones or switches, not of the instruments. Record both sides alike.",
    },
    { text: "The lows were filtered out differently on the two sides. Record both alike." },
  ],
  "codecs-differ": [
    {
      text:
        "The recordings of the sides are not compressed alike: {sideA} {codecsA}, {sideB} {codecsB}. A lossy codec changes the levels of " +
        "weak and high partials; that is a difference of the recordings, not of the instruments. Record both sides alike, as WAV.",
    },
    { text: "The recordings of the sides are not compressed alike. Record both sides alike, as WAV." },
  ],
  "band-limit-differs": [
    {
      text:
        "The highs end at about {cutoffHzA:0} Hz on {sideA} and at about {cutoffHzB:0} Hz on {sideB}, as after different codecs or " +
        "sample rates. That is a difference of the recordings, not of the instruments. Record both sides alike, as WAV.",
    },
    {
      text:
        "On {sideA} there is nothing above about {cutoffHzA:0} Hz, as after a lossy codec or a change of sample rate; no such limit was seen " +
        "on {sideB}. That is a difference of the recordings, not of the instruments. Record both sides alike, as WAV.",
    },
    {
      text:
        "On {sideB} there is nothing above about {cutoffHzB:0} Hz, as after a lossy codec or a change of sample rate; no such limit was seen " +
        "on {sideA}. That is a difference of the recordings, not of the instruments. Record both sides alike, as WAV.",
    },
    {
      text: "The highs end differently on the two sides, as after different codecs. Record both alike, as WAV.",
    },
  ],
  "noise-differs": [
    {
      text:
        "The notes stand {noteToNoiseDbA:0} dB over the noise on {sideA} and {noteToNoiseDbB:0} dB on {sideB}. Weak " +
        "partials that drown on one side only are missing there. Record both sides in the same place, equally close.",
    },
    { text: "The noise differs between the sides." },
  ],
  "gain-control-used": [
    {
      text: "Automatic gain in {takeCount} of the takes of {side}: it may also change the tone. Switch it off.",
    },
    { text: "Some takes were made with automatic gain. Switch it off." },
  ],
  "clipping-present": [
    {
      text: "Cut off at full scale in {takeCount} of the takes of {side}, which adds partials. Record lower.",
    },
    { text: "Some takes are cut off at full scale. Record lower." },
  ],
  "tunings-differ": [
    {
      text:
        "{sideA} and {sideB} are tuned apart: {string} by {largestCents:1} cents (of {strings}). Another pitch meets " +
        "other places of the body's curve. Tune both alike.",
    },
    { text: "The sides are tuned apart. Tune them alike." },
  ],
  "no-body-curve": [
    {
      reason: "strings-not-connected",
      text:
        "No body curve for {side}: these strings share no part of the range, so how strong they are against each other " +
        "is not known: {groups}. Record more strings, or a scale.",
    },
    {
      reason: "too-few-partials",
      text: "No body curve for {side}: too few partials could be measured. Record more strings, or a scale.",
    },
    {
      reason: "no-reference",
      text: "No body curve for {side}: too little was heard between 355 and 1413 Hz to set it against.",
    },
    { text: "No body curve could be had for some take." },
  ],
  "reach-below-lowest": [
    {
      reason: "all-takes",
      text:
        "The low reach of {sides} lies at or below {frequencyHz:0} Hz: even the lowest partial that was played is within 10 dB. " +
        "So it can't be compared.",
    },
    {
      reason: "some-takes",
      text:
        "In some takes of {sides} the low reach lies at or below {frequencyHz:0} Hz: even the lowest partial that was played is " +
        "within 10 dB. So it can't be compared.",
    },
    { text: "The body reaches lower than was played." },
  ],
  "microphone-short": [
    {
      text:
        "The microphone's table reaches from {fromHz:0} to {toHz:0} Hz only; beyond it its first and last value were " +
        "taken. The measures look at 45 to 2818 Hz.",
    },
    { text: "The microphone's table does not reach over the whole range." },
  ],
};
