/** Texts of recording and listening. */
export const soundWords = {
  record: {
    title: "Record",
    start: "Record",
    stop: "End the recording",
    asking: "Waiting for the microphone",
    seconds: (seconds: string) => `${seconds} s`,
    level: (level: string) => `Peak ${level} dB`,
    takeName: (at: Date) =>
      `take ${at.getFullYear()}-${String(at.getMonth() + 1).padStart(2, "0")}-${String(at.getDate()).padStart(2, "0")} ` +
      `${[at.getHours(), at.getMinutes(), at.getSeconds()].map((part) => String(part).padStart(2, "0")).join("-")}.wav`,
    clipped:
      "Too loud: the recording is clipped. Move the microphone away, or turn its level down, and begin again.",
    gaps: (count: number) =>
      `Sound is missing at ${count} ${count === 1 ? "place" : "places"}: this device was too busy. Strings that sounded there may not be read. Close other programs, and record again.`,
    stillOn: (helps: string) =>
      `This browser does not let go of ${helps}. Tuning is hardly touched; levels and the low register are. Compare instruments from takes of a hand recorder.`,
    helps: {
      echoCancellation: "echo cancellation",
      noiseSuppression: "noise suppression",
      autoGainControl: "automatic gain",
    },
    faults: {
      denied:
        "The microphone is not allowed here. Allow it in the browser's settings for this page, and try again.",
      none: "No microphone was found. Plug one in, and try again.",
      busy: "The microphone can't be had: another program uses it, perhaps.",
      "not-secure": "A browser hands out the microphone to pages on this computer and on https only.",
      failed: "The microphone could not be opened.",
      lost: "The microphone went away. What was recorded until then is on the bench.",
      "too-long": "Twenty minutes are recorded at most. The take is on the bench.",
    },
    sounds: {
      nothing: "Nothing sounds.",
      one: "One string sounds.",
      together: "Several strings sound.",
      "together-unclear": "Several strings sound, not told apart yet. One at a time is read at once.",
      unclear: "Something sounds that can't be read yet.",
    },
    notYet: (names: string) => `Not heard yet: ${names}.`,
    caption: "Each string as it was last heard: plus is sharp, minus is flat",
    columns: { string: "String", off: "Off, cents", sure: "95 % sure between", turn: "Turn it", now: "Now" },
    lacks: {
      moving: "moving",
      "too-short": "a moment more",
      "not-separable": "too close to another",
      "not-followed": "unsure under the others",
      "not-heard": "",
    },
    turn: { up: "up", down: "down", leave: "leave it" },
    now: {
      sounding: "sounds",
      perhaps: "perhaps",
      ago: (seconds: number) => `${seconds} s ago`,
    },
  },

  listen: {
    passage: "As played",
    target: "Target",
    labels: {
      passage: (name: string) => `Hear ${name} as played`,
      target: (name: string) => `Hear the target of ${name}`,
    },
    stop: "Be quiet",
    loudness: "Loudness of what is heard",
    care: "It starts quiet. Turn it up slowly, above all with headphones.",
    noSound:
      "The recording is not on the bench, so there are only the targets to hear. A kept take can be put there under Keep.",
  },
} as const;
