import { besideWords } from "./besideWords.js";
import { soundWords } from "./soundWords.js";

/** All texts of the page itself, to be translated here. What a reading comes to is worded by the core, in English. */
export const words = {
  ...soundWords,
  ...besideWords,
  name: "Gurdybench",
  sections: {
    take: "Take",
    read: "Read",
    compare: "Compare",
    keyboard: "Keyboard",
    more: "More",
    keep: "Keep",
  },
  sectionsLabel: "Parts of the bench",

  take: {
    title: "Take",
    lead: "Choose the instrument, then the recording: each string for six seconds, a second of silence before each.",
    files: "Recordings",
    choose: "Choose recordings",
    drop: "or drop them here. WAV is best. M4A, MP3, FLAC and OGG are decoded by this browser.",
    list: "On the bench",
    none: "Nothing yet.",
    show: "Read it",
    again: "Read again",
    stop: "Stop",
    keep: "Keep",
    kept: "Kept",
    saveWav: "Save as WAV",
    remove: "Take off",
    progressLabel: (name: string) => `Reading ${name}`,
    states: {
      waiting: "Waits for its turn.",
      decoding: "The browser is decoding it.",
      reading: "Being read.",
      drawing: "Read. Its charts are being drawn.",
      read: "Read.",
      stopped: "Stopped.",
      failed: "Could not be read.",
    },
    byBrowser: "Decoded by this browser, brought to 48 kHz: the command may read it a little differently.",
  },

  instrument: {
    title: "Instrument",
    source: "Which strings",
    nothing: "Not said: the nearest note",
    tuning: (name: string) => `Tuning: ${name}`,
    kept: (name: string) => `Mine: ${name}`,
    own: "My own, written out",
    yaml: "The instrument, as in an instrument file",
    yamlHelp:
      "One line a string: role (melody, drone, trompette, sympathetic) and note. Name, lengthMm and keys may follow.",
    use: "Use it",
    keep: "Keep it",
    a4: "Pitch of A4, Hz",
    a4Help: "Empty: as the instrument says, or 440.",
    a4Wrong: "Write a number of hertz, such as 440 or 442.5.",
    tonic: "Note the drones are pure to",
    noTonic: "As the instrument says, or none",
    strings: (names: string) => `Strings: ${names}.`,
    example: `name: My instrument
a4Hz: 440
strings:
  - {role: drone, note: C2}
  - {role: drone, note: G2}
  - {role: melody, note: G4, lengthMm: 345, keys: 23}
`,
  },

  read: {
    title: "Read",
    none: "No take has been read yet. Choose one under Take.",
    which: "Take",
    strings: "Strings",
    pairs: "Pairs of strings",
    steps: "Step by step",
    whole: "The pitch of the whole",
    wheel: "The wheel",
    low: "Low register",
    findings: "About the recording",
    charts: "Pictures",
    drawing: "The pictures are being drawn.",
    noString: "No string was heard.",
    columns: {
      string: "String",
      off: "Off, cents",
      sure: "95 % sure between",
      heard: "Heard, Hz",
      wavers: "Wavers, cents",
      todo: "What to do",
      hear: "Hear it",
      pair: "Pair",
      ratio: "Ratio",
      fromPure: "From pure, cents",
      beats: "Beats a second",
    },
    status: { "not-heard": "not heard", unresolved: "unclear" },
    stringsCaption: "How far each string is off its target: plus is sharp, minus is flat",
    pairsCaption: "Pairs near a pure interval, and how fast they beat",
    inTurn: "reckoned: the two were played one after another",
    findingsOf: (name: string) => `${name}: `,
  },

  compare: {
    title: "Compare",
    lead: "Three takes a side or more, player and microphone placed anew for each. The same strings, bowed alike.",
    sides: ["First", "Second", "Third", "Fourth", "Fifth", "Sixth"],
    addSide: "One more side",
    removeSide: "Without this side",
    equalGain: "All recordings were made with one gain: levels compare too",
    sideName: "What it is called",
    add: "Add recordings",
    drop: "or drop them here",
    addKept: "Add a take from the bench or a kept one",
    pick: "Choose a take",
    remove: (name: string) => `Take off ${name}`,
    run: "Compare them",
    busy: "Reading the takes of both sides.",
    need: "Each side needs a take, and a name of its own.",
    stop: "Stop",
  },

  keep: {
    title: "Keep",
    lead: "Instruments, takes and readings that you keep stay in this browser, on this device, at this address. Nothing is sent anywhere.",
    instruments: "Instruments",
    takes: "Takes",
    readings: "Readings",
    none: "None kept.",
    use: "Use",
    toBench: "On the bench",
    show: "Show",
    remove: "Throw away",
    sure: (name: string) => `Throw ${name} away for good?`,
    all: "All of it as one file",
    exportAll: "Save all as one file",
    importAll: "Bring in such a file",
    brought: (count: number) => `${count} brought in.`,
    notOurs: "This is no file that was saved here, or it is damaged. Nothing was brought in.",
    full: "There is no room left for this in the browser's storage. It was not kept. Save all as one file, then throw away takes you no longer need.",
    unavailable:
      "This browser keeps nothing here (a private window, perhaps). What is on the bench is lost when the page is closed.",
    used: (used: string) => `In use: ${used} MB.`,
    offline: "This page works without a network from now on.",
    logs: "Logs",
  },

  numberWrong: (least: number, most: number) =>
    `Write a number from ${least} to ${most}, such as ${Math.round((least + most) / 2)}, or nothing.`,

  save: { document: "Save all figures (JSON)", table: "Save the table (CSV)" },

  sheet: { problem: "Problem", warning: "Mind", info: "Note" },

  failures: {
    threadLost:
      "The reading broke down: the page could not load its part, or ran out of memory. Load the page again; cut a very long recording.",
    notDecoded: (name: string) =>
      `${name} can't be decoded by this browser. Save it as WAV in an audio editor and choose that.`,
    said: "That did not work",
  },

  foot: {
    nothing:
      "A measurement informs a judgement at the bench; it does not replace it. Raise pitch in small steps and protect your eyes: strings snap.",
    licence: "Licence: GPL 3 or later",
    source: "Source",
    notices: "Works of others in it",
  },
} as const;
