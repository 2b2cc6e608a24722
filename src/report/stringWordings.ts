import type { FindingWording } from "./FindingWording.js";

/** Wordings for what strings and passages are found to have; of each code the first that fits is taken. */
export const stringWordings = {
  "octave-doubt": [
    {
      text:
        "The octave is in doubt: what was read as {frequencyHz:1} Hz could be {otherHz:1} Hz. Record the string alone, " +
        "or name the instrument.",
    },
    { text: "The octave is in doubt. Record the string alone, or name the instrument." },
  ],
  "far-off": [
    {
      text:
        "It is {deviationCents:+0} cents from its target, so it may be another string. Make sure which one was on the " +
        "wheel.",
    },
    { text: "It is far from its target, so it may be another string. Make sure which one was on the wheel." },
  ],
  "other-sound": [
    {
      text:
        "Something at {frequencyHz:1} Hz sounds that is none of the strings. Lift other strings off the wheel and damp " +
        "the sympathetic strings.",
    },
    {
      text:
        "Something sounds along that none of the strings explains: another string of the same note, or one that was not " +
        "named. This reading is not sure. Lift other strings off the wheel and damp the sympathetic strings.",
    },
  ],
  "several-strings": [
    {
      text:
        "From {startSeconds:1} to {endSeconds:1} s two strings sound together, near {lowerHz:1} and {upperHz:1} Hz, so " +
        "neither was read. Record each string alone, with the others lifted off the wheel, or name the tuning so that " +
        "they can be told apart.",
    },
    {
      text:
        "Another string seems to sound along, near {frequencyHz:1} Hz: level and low register of this one may be wrong. " +
        "Lift the others off the wheel and record it alone.",
    },
    {
      text:
        "Several strings sound at once where one was looked for. Lift the others off the wheel and record each string " +
        "alone.",
    },
  ],
  "not-separable": [
    {
      text:
        "It can't be told from another string whose partials all but coincide with its own: a passage of " +
        "{neededSeconds:0} s might part them. Hold the sound that long, or record this string alone, with the others " +
        "lifted off the wheel.",
    },
    {
      text:
        "Its partials all but coincide with those of another string. Record it alone, with the others lifted off the " +
        "wheel.",
    },
  ],
  "unison-locked": [
    {
      text:
        "It was not heard apart from {other}: it does not sound, or it lies within {withinCents:1} cents of {other}, or " +
        "the two have locked together, as strings under one wheel may. Lift {other} off the wheel and record this one " +
        "alone, or hold both for {neededSeconds:0} s.",
    },
    {
      text:
        "It was not heard apart from another string of the same note. Lift that one off the wheel and record this one " +
        "alone.",
    },
  ],
  "hidden-under": [
    {
      text:
        "It was not heard apart from {other}, whose partials lie over all of its own: it does not sound, or it lies " +
        "within {withinCents:1} cents of pure to {other}. Lift {other} off the wheel and record this one alone, or hold " +
        "both for {neededSeconds:0} s.",
    },
    {
      text:
        "It was not heard apart from another string whose partials lie over all of its own. Lift that one off the wheel " +
        "and record this one alone.",
    },
  ],
  "twin-strings": [
    {
      text:
        "From {startSeconds:1} to {endSeconds:1} s two strings of one note sound, at {lowerHz:2} and {upperHz:2} Hz, " +
        "where one was expected, so neither was read. Lift one off the wheel, or name a tuning that has both.",
    },
    {
      text: "Two strings of one note sound where one was expected. Lift one off the wheel, or name a tuning that has both.",
    },
  ],
  "foreign-sound": [
    {
      text:
        "From {startSeconds:1} to {endSeconds:1} s a strong sound at {frequencyHz:1} Hz is none of the strings of this " +
        "instrument as it is tuned here, so what sounds with it was not read. Look for a string far from its pitch, a key " +
        "that was pressed, a sympathetic string; or name the tuning that was used.",
    },
    {
      text: "A strong sound is none of the strings of this instrument as it is tuned here, so what sounds with it was not read.",
    },
  ],
  "changing-sound": [
    {
      text:
        "From {startSeconds:1} to {endSeconds:1} s something at {frequencyHz:1} Hz could not be read: a string that moves, or " +
        "that sounds for part of that time only. Hold all strings still for three seconds or more.",
    },
    {
      text: "Something moves, or sounds for part of the time only, and could not be read. Hold all strings still.",
    },
  ],
  "partly-sounding": [
    {
      text:
        "From {startSeconds:1} to {endSeconds:1} s it seems to sound for part of the time only, so it was not read there. " +
        "Hold it for three seconds or more.",
    },
    {
      text: "It seems to sound for part of a passage only, so it was not read there. Hold it for three seconds or more.",
    },
  ],
  "string-moved": [
    {
      reason: "after",
      text:
        "From {startSeconds:1} to {endSeconds:1} s it moved by {movedCents:+0} cents while others sounded. What is given is " +
        "its pitch after that.",
    },
    {
      reason: "before",
      text:
        "From {startSeconds:1} to {endSeconds:1} s it moved by {movedCents:+0} cents while others sounded. What is given is " +
        "its pitch before that: afterwards it was not read. Hold it still for three seconds or more.",
    },
    {
      text:
        "From {startSeconds:1} to {endSeconds:1} s it moved by {movedCents:+0} cents while others sounded, and was not held " +
        "long enough before or after. Hold it still for three seconds or more.",
    },
    { text: "It moved while others sounded. Hold it still for three seconds or more." },
  ],
  "equal-together": [
    {
      text:
        "{strings} have the same target, and nothing in the sound tells which is which: the flatter one stands first. " +
        "Lift one off the wheel to learn which is which.",
    },
    {
      text: "Strings with the same target sound together, and nothing tells which is which. Lift one off the wheel to learn.",
    },
  ],
  "unread-stretch": [
    {
      text:
        "From {startSeconds:1} to {endSeconds:1} s something sounds that could not be read as one steady string: several " +
        "strings at once, a slide, or a note too short. Record each string alone, for four seconds or more.",
    },
    {
      text:
        "Something sounds that could not be read as one steady string. Record each string alone, for four seconds or " +
        "more.",
    },
  ],
  unsteady: [
    {
      text:
        "It wavers by {unsteadinessCents:1} cents. Look at cotton, rosin and the string's pressure on the wheel, and " +
        "crank evenly.",
    },
    {
      text: "It wavers much. Look at cotton, rosin and the string's pressure on the wheel, and crank evenly.",
    },
  ],
  "short-passage": [
    {
      text: "It was held steadily for only {durationSeconds:1} s. Hold it for six seconds or more for a surer reading.",
    },
    {
      text: "It was held steadily for a short time only. Hold it for six seconds or more for a surer reading.",
    },
  ],
  "equal-strings": [
    {
      text:
        "{strings} have the same target and are told apart only by the order they were played in. Check it, or give " +
        "it with --order.",
    },
    {
      text:
        "Strings with the same target are told apart only by the order they were played in. Check it, or give it with " +
        "--order.",
    },
  ],
  "unmatched-passage": [
    {
      text:
        "From {startSeconds:1} to {endSeconds:1} s sounds {frequencyHz:1} Hz, which fits no string. Check the tuning " +
        "that was named, and whether a key was pressed.",
    },
    { text: "A passage fits no string. Check the tuning that was named, and whether a key was pressed." },
  ],
  "hum-near-partial": [
    {
      text:
        "Mains hum at {humHz:1} Hz lies close to partial {partial}. That partial was kept out of the pitch, but its " +
        "level may be wrong. For a true low register get rid of the hum and record again.",
    },
    { text: "Mains hum lies close to one of its partials. Get rid of the hum and record again." },
  ],
  "no-passage": [
    { text: "No steady tone was found. Hold one string at a time for six seconds or more, cranking evenly." },
  ],
  "passages-disagree": [
    {
      text:
        "Its passages disagree by {spreadCents:1} cents: it drifted or was retuned between them. Let it settle and " +
        "record again.",
    },
    {
      text: "Its passages disagree: it drifted or was retuned between them. Let it settle and record again.",
    },
  ],
  "order-unused": [
    {
      text:
        "The order that was given ({strings}) was not used where strings sound together: it says which of equal strings was " +
        "bowed first, one after another.",
    },
    { text: "The order that was given was not used where strings sound together." },
  ],
  "anchor-not-heard": [
    {
      reason: "unresolved",
      text:
        "{string} was named as the anchor, but can't be told apart from another string here, so this take is read as if " +
        "there were no anchor. Record {string} alone as well.",
    },
    {
      text:
        "{string} was named as the anchor, but is not heard here, so this take is read as if there were no anchor. " +
        "Record {string} as well.",
    },
    { text: "The string named as the anchor was not read, so this take is read as if there were no anchor." },
  ],
} as const satisfies Record<string, readonly FindingWording[]>;
