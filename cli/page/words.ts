/** All texts of the page itself, to be translated here. What a reading comes to is worded by the core, in English. */
export const words = {
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
    noTonic: "None: equal temperament",
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

  hear: {
    title: "Listen",
    caution:
      "Starts quietly. Turn the volume up with care: a recording made close to the instrument can be loud on headphones.",
    volume: "Volume",
    sound: (name: string) => `${name} as recorded`,
    tone: (name: string) => `The tone ${name} should have`,
    stop: "Silence",
  },

  compare: {
    title: "Compare",
    lead: "Three takes a side or more, player and microphone placed anew for each. The same strings, bowed alike.",
    sides: ["First", "Second", "Third", "Fourth", "Fifth", "Sixth"],
    addSide: "One more side",
    dropSide: "Without this side",
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

  keyboard: {
    title: "Keyboard",
    lead: "A scale on one string, from the open string up, a second or more a key. Drones may sound.",
    string: "String that is played",
    needsInstrument: "Choose a tuning or an instrument first: the string has to be known.",
    length: "From nut to bridge, mm",
    lengthHelp: "Empty: as the instrument says. Without a length there are cents, but no millimetres.",
    lengthWrong: "Write a number of millimetres, such as 345 or 345.5.",
    choose: "Choose the scale",
    fromBench: "or a take from the bench",
    busy: "Reading the scale.",
    table: "Moves of the tangents",
    noKeys: "No key was heard.",
    columns: {
      key: "Key",
      off: "Off, cents",
      move: "Move as it is, mm",
      afterShift: "After the shift, mm",
    },
    key: (number: number, note: string) => `${number}: ${note}`,
    move: (size: string, towards: string) => `${size} to ${towards}`,
    towards: { nut: "nut", bridge: "bridge" },
    stays: "stays",
    stop: "Stop",
  },

  more: {
    title: "More of the set-up",
    what: "What to read",
    kinds: {
      wheel: "Wheel: how evenly it bows",
      trompette: "Trompette: the buzzing bridge",
      sympathetic: "Plucked strings: the sympathetic ones",
      tap: "Taps: the body by itself",
      stringing: "Stringing: tensions of the strings",
    },
    leads: {
      wheel: "Ten seconds or more of steady cranking; several strings at once say most.",
      trompette: "The trompette alone, or over drones: some turns with strokes, some without.",
      sympathetic: "The wheel still: pluck one string after another, a second and more apart, in any order.",
      tap: "All strings damped with a cloth: tap the bridge several times at one spot, a second apart.",
      stringing:
        "Reckoned from the instrument as it is written: note, lengthMm, and weight (massGrams and cutLengthMm, or diameterMm and material).",
    },
    string: "String that buzzes",
    notSaid: "Not said",
    choose: "Choose the recording",
    fromBench: "or a take from the bench",
    needsInstrument: "Choose a tuning or an instrument under Take first.",
    run: "Reckon",
    busy: "Reading.",
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
    history: "Over time",
    historyCaption: (name: string) => `${name}: cents off its target, by date`,
    date: "Date",
  },

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
