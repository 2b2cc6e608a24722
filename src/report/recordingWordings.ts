import type { FindingWording } from "./FindingWording.js";

/** Wordings for what a recording is found to have; of each code the first that fits is taken, the last fits always. */
export const recordingWordings = {
  clipping: [
    {
      text:
        "Clipped in {count} places, first at {firstSeconds:1} s: too loud for the recorder, the tops are cut flat at " +
        "{limitDb:1} dB. Levels and partials are wrong there; turn the input down by 6 dB or more and record again.",
    },
    { text: "Clipped: too loud for the recorder. Turn the input down by 6 dB or more and record again." },
  ],
  "dc-offset": [
    {
      text:
        "The zero line of channel {channel} is off by {offsetPercent:+1} % of full scale. The readings stand, but have " +
        "a look at the recorder or its cable.",
    },
    { text: "The zero line is off. The readings stand, but have a look at the recorder or its cable." },
  ],
  "mains-hum": [
    {
      severity: "info",
      text: "Mains hum ({humHz} Hz and multiples) at {levelDb:1} dB, so far below the strings that it does no harm.",
    },
    {
      text:
        "Mains hum ({humHz} Hz and multiples, strongest at {strongestHz:0} Hz) at {levelDb:1} dB. Move cables and " +
        "recorder away from mains leads, or record on battery.",
    },
    { text: "Mains hum ({humHz} Hz). Move cables and recorder away from mains leads, or record on battery." },
    { text: "Mains hum. Move cables and recorder away from mains leads, or record on battery." },
  ],
  "noise-floor": [
    {
      severity: "info",
      text: "The background in the pauses is {noteToNoiseDb:0} dB below the strings: quiet enough.",
    },
    {
      text:
        "The background in the pauses is only {noteToNoiseDb:0} dB below the strings ({levelDb:1} dB). Find a quieter " +
        "room, or place the microphone nearer.",
    },
    { severity: "info", text: "The background in the pauses is at {levelDb:1} dB." },
    { text: "The background in the pauses is loud. Find a quieter room, or place the microphone nearer." },
  ],
  "noise-unknown": [
    {
      reason: "silence",
      text:
        "How loud the background is can't be said: the pauses hold {pauseSeconds:1} s of digital silence, as if a gate " +
        "or noise reduction was on. Switch it off.",
    },
    {
      text:
        "How loud the background is can't be said: there is no pause to listen to. Leave two seconds before the " +
        "wheel starts and after it stops.",
    },
  ],
  "too-quiet": [
    {
      severity: "problem",
      text: "Far too quiet: the loudest moment is {peakDb:1} dB. Turn the input up until it comes to about -12 dB.",
    },
    {
      text: "Very quiet: the loudest moment is only {peakDb:1} dB. Turn the input up until it comes to about -12 dB.",
    },
    { text: "There is no sound in it. Check the microphone and the input that was recorded." },
  ],
  "too-short": [
    { text: "Only {durationSeconds:1} s long. Hold each string for six seconds or more." },
    { text: "Too short. Hold each string for six seconds or more." },
  ],
  "high-pass": [
    {
      text:
        "The lows were filtered out below about {cutoffHz:0} Hz ({slopeDbPerOctave:0} dB an octave). Switch off the " +
        "low cut of microphone or recorder, or use another one; the low register of this take is not the instrument's.",
    },
    { text: "The lows were filtered out. Switch off the low cut of microphone or recorder." },
  ],
  "high-pass-open": [
    {
      reason: "no-pause",
      text:
        "Whether a low cut was on can't be said without a pause to listen to. Leave two seconds before the wheel " +
        "starts, and look at the switch of the microphone.",
    },
    {
      reason: "short-pauses",
      text:
        "Whether a low cut was on can't be said: the pauses are too short to hear it. Leave two seconds before the " +
        "wheel starts, and look at the switch of the microphone.",
    },
    {
      text:
        "Whether a low cut was on can't be said: the pauses hold nothing but the file's own silence. Look at the " +
        "switch of the microphone.",
    },
  ],
  "band-limit": [
    {
      severity: "info",
      text:
        "Above about {cutoffHz:0} Hz there is nothing: the spectrum falls by {fallDb:0} dB within {widthHz:0} Hz, as after a lossy " +
        "codec (MP3, voice memo, messenger) or a change of sample rate. What is measured ends at 2818 Hz and is hardly " +
        "touched; still, record WAV straight away and send it as a file.",
    },
    {
      text:
        "Above about {cutoffHz:0} Hz there is nothing: the spectrum falls by {fallDb:0} dB within {widthHz:0} Hz, as after a " +
        "telephone or voice codec or a change of sample rate. That may touch the range that is measured (up to 2818 Hz). " +
        "Record WAV straight away, without a voice mode, and send it as a file.",
    },
    { text: "The highs end as after a lossy codec. Record WAV straight away." },
  ],
  "gain-control": [
    {
      text:
        "Automatic gain seems to have been on: in {pauseCount} pauses the background rises by {riseDb:1} dB within " +
        "{seconds:1} s. Switch automatic level and limiter off and record again; levels here can't be trusted.",
    },
    {
      text: "Automatic gain seems to have been on. Switch automatic level and limiter off and record again.",
    },
  ],
  "gain-control-open": [
    {
      text:
        "Whether automatic gain was on can't be said without a pause of a second after a note. Stop the wheel for two " +
        "seconds between strings, and look in the recorder's menu.",
    },
  ],
  "channel-silent": [
    {
      text: "Silent: channel {channels} of {channelCount}. Check its microphone and cable; the others were used.",
    },
    { text: "A channel is silent. Check its microphone and cable; the others were used." },
  ],
  "channel-difference": [
    {
      text:
        "Channel {quieterChannel} is {differenceDb:1} dB weaker than channel {louderChannel}. Pitch is taken from the " +
        "clearer one; set both inputs alike if levels matter.",
    },
    { text: "The channels differ much in level. Set the inputs alike if levels matter." },
  ],
  "channel-polarity": [
    {
      text:
        "The two channels move against each other (correlation {correlation:2}): one cable is turned over. Channels " +
        "are never added here, so the readings stand; put the cable right before using the take elsewhere.",
    },
    { text: "The two channels move against each other: one cable is turned over. The readings stand." },
  ],
  "not-finite": [
    {
      text: "{count} samples are not numbers, first at {firstSeconds:1} s. They were left out; export the recording again.",
    },
    { text: "Some samples are not numbers. They were left out; export the recording again." },
  ],
  truncated: [
    {
      text:
        "The file is cut off: it promises {promisedBytes} bytes of sound and holds {foundBytes}. What is there was " +
        "measured; copy it again if the end is missing.",
    },
    {
      text: "The file ends with {extraBytes} bytes too many for a whole sample. They were left out; nothing is lost.",
    },
    { text: "The file is cut off. What is there was measured; copy it again if the end is missing." },
  ],
  "lossy-codec": [
    {
      text:
        "The recording is compressed with loss ({codec}): what such a codec takes to be inaudible was left out, first the weak and high " +
        "partials. Pitch is hardly touched; the level of a partial can be off by some tenths of a decibel, at low bit rates " +
        "by 1 to 3 dB; and how much noise a string has can't be trusted. To judge sound, record WAV or a lossless format.",
    },
    { text: "The recording is compressed with loss. Record WAV or a lossless format straight away." },
  ],
  "media-damaged": [
    {
      text:
        "The file is cut off or damaged: it promises {promisedSeconds:1} s of sound, and {durationSeconds:1} s could be decoded. That was " +
        "measured; times after a damaged place are wrong. Copy or export the recording again.",
    },
    {
      text:
        "The file is cut off or damaged in places: not all of it could be decoded. What could was measured; sound may be " +
        "missing or wrong there. Copy or export the recording again.",
    },
  ],
  "size-unset": [
    {
      text:
        "The recorder never wrote down the length of the recording, as when it is broken off. It was measured to the " +
        "end of the file ({foundBytes} bytes of sound); check that the take is complete.",
    },
    { text: "The recorder never wrote down the length of the recording. Check that the take is complete." },
  ],
} as const satisfies Record<string, readonly FindingWording[]>;
