import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runProgram } from "../../cli/program.js";
import { makeTestFiles, type TestFiles, toneHz } from "./testFiles.js";

let files: TestFiles;
beforeAll(() => {
  files = makeTestFiles();
});
afterAll(() => files.remove());

interface Result {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

function run(args: readonly string[], options: { colour?: boolean; isTTY?: boolean } = {}): Result {
  let out = "";
  let err = "";
  const code = runProgram(args, {
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text), isTTY: options.isTTY ?? false, columns: 60 },
    colour: options.colour ?? false,
  });
  return { code, out, err };
}

describe("wrong usage", () => {
  const cases: readonly [string, readonly string[], string][] = [
    ["no command", [], "Usage"],
    ["an unknown command", ["gauge"], "unknown command"],
    ["no take", ["measure"], "missing required argument"],
    ["an unknown tuning", ["measure", "x.wav", "--tuning", "tuba"], "alto, tenor"],
    [
      "instrument and tuning",
      ["measure", "x.wav", "--tuning", "alto", "--instrument", "i"],
      "cannot be used with",
    ],
    ["turns that are no number", ["wheel", "x.wav", "--turns-per-second", "fast"], "0.3 to 4"],
    ["turns beyond a crank", ["wheel", "x.wav", "--turns-per-second", "9"], "0.3 to 4"],
    ["two takes at once", ["wheel", "x.wav", "y.wav"], "too many arguments"],
    ["a tonic without strings", ["measure", "x.wav", "--tonic", "C"], "--tonic can only be used with"],
    [
      "a tonic that is no note",
      ["measure", "x.wav", "--tuning", "alto", "--tonic", "X"],
      '"X" is not a note',
    ],
    ["an A4 that is no number", ["measure", "x.wav", "--a4", "440,5"], "440 or 442.5"],
    ["an A4 out of range", ["measure", "x.wav", "--a4", "44"], "300 to 600"],
    ["a capo without semitones", ["measure", "x.wav", "--tuning", "alto", "--capo", "C2"], "C4=2"],
    [
      "a capo the string has not",
      ["measure", "x.wav", "--tuning", "unison-pair", "--capo", "C4=3"],
      "Possible: 2",
    ],
    [
      "an order of strings that are not there",
      ["measure", "x.wav", "--tuning", "alto", "--order", "C2,Z"],
      '"Z"',
    ],
    ["an anchor without strings", ["measure", "x.wav", "--anchor", "C2"], "--anchor can only be used with"],
    [
      "an anchor that is not there",
      ["measure", "x.wav", "--tuning", "alto", "--anchor", "Z"],
      '--anchor names a string "Z" that the instrument does not have. It has: C2, G2',
    ],
    [
      "two anchors",
      ["measure", "x.wav", "--tuning", "alto", "--anchor", "C2", "--anchor", "G2"],
      "Only one string",
    ],
    [
      "an anchor without a name",
      ["measure", "x.wav", "--tuning", "alto", "--anchor", " "],
      "name of one string",
    ],
    [
      "a string named twice as sounding",
      ["measure", "x.wav", "--tuning", "alto", "--sounding", "C2,G2,C2"],
      '--sounding names the string "C2" twice',
    ],
    [
      "a string named twice in the order, in two options",
      ["measure", "x.wav", "--tuning", "soprano", "--order", "G4 2,G4", "--order", "G4 2"],
      '--order names the string "G4 2" twice',
    ],
    [
      "a list with a name missing",
      ["measure", "x.wav", "--tuning", "alto", "--sounding", "C2,,G2"],
      "G4,G4 2",
    ],
    [
      "a missing instrument file",
      ["measure", "x.wav", "--instrument", "nowhere.yaml"],
      "nowhere.yaml was not found",
    ],
    ["unknown options", ["measure", "x.wav", "--plot", "y"], "unknown option '--plot'"],
    ["an argument too many", ["tunings", "alto"], "too many arguments"],
  ];
  for (const [what, args, needed] of cases) {
    it(`refuses ${what} with code 2 and a sentence on stderr`, () => {
      const { code, out, err } = run(args);
      expect(code).toBe(2);
      expect(err).toContain(needed);
      expect(out).toBe("");
    });
  }

  it("refuses a bad instrument file with line and column", () => {
    const { code, err } = run(["measure", files.path("good.wav"), "--instrument", files.path("bad.yaml")]);
    expect(code).toBe(2);
    expect(err).toMatch(/bad\.yaml, line 4, column \d+/);
  });

  it("lets no control character that was typed through", () => {
    const { err } = run(["\u001b[2J\u202e"]);
    expect(err).toContain("\\u{1b}[2J\\u{202e}");
    expect(err).not.toMatch(/[\u001b\u202e]/);
  });
});

describe("names of strings with a comma", () => {
  const measure = (...names: string[]) =>
    run(["measure", files.path("good.wav"), "--json", "--instrument", files.path("comma.yaml"), ...names]);

  it("are given by themselves, others beside them", () => {
    const { code, out } = measure("--sounding", "low, left", "--sounding", "C3,D4", "--anchor", "low, left");
    expect(code).toBe(0);
    const { settings } = JSON.parse(out);
    expect(settings).toMatchObject({ sounding: ["low, left", "C3", "D4"], anchor: "low, left" });
  });

  it("are explained where one can't be found", () => {
    const { code, err } = measure("--sounding", "C3,low, left");
    expect(code).toBe(2);
    expect(err).toContain('"low" that the instrument does not have');
    expect(err).toContain('A name with a comma in it is given by itself: --sounding "A, b" --sounding C.');
  });
});

describe("help, version and tunings", () => {
  it("answers with code 0 on stdout", () => {
    expect(run(["--help"])).toMatchObject({ code: 0, err: "", out: expect.stringContaining("measure") });
    expect(run(["measure", "--help"])).toMatchObject({ code: 0, out: expect.stringContaining("Example") });
    expect(run(["--version"])).toMatchObject({ code: 0, out: expect.stringMatching(/^\d+\.\d+\.\d+\n$/) });
    expect(run(["tunings"])).toMatchObject({ code: 0, err: "", out: expect.stringContaining("unison-pair") });
  });
});

describe("measure and check", () => {
  it("measures the good take, reports the bad one, and ends with code 1", () => {
    const { code, out, err } = run(["measure", files.path("good.wav"), files.path("text.wav"), "--json"]);
    expect(code).toBe(1);
    expect(err).toMatch(/^gurdybench: .*text\.wav is not a WAV file.*\n$/);
    const document = JSON.parse(out);
    expect(document).toMatchObject({ schemaVersion: 1, tool: "gurdybench", instrument: null });
    expect(document.failed).toEqual([
      { file: files.path("text.wav"), code: "wav-not-riff", message: expect.any(String) },
    ]);
    const [string] = document.takes[0].strings;
    expect(string).toMatchObject({ name: "G2", status: "measured" });
    // One decimal is +-0.05 cents; noise this faint moves a steady tone of 5 s by less than 0.001 (Cramer-Rao bound).
    expect(string.deviationCents).toBeCloseTo(1200 * Math.log2(toneHz / 97.99886), 1);
  });

  it("prints a sheet with progress only on a terminal, erased, and colours only where asked for", () => {
    const path = files.path("good.wav");
    const plain = run(["measure", path, "--tuning", "alto", "--tonic", "C", "--a4", "440"]);
    expect(plain).toMatchObject({ code: 0, err: "", out: expect.stringContaining("G2") });
    expect(plain.out).not.toContain("\u001b");
    const onTerminal = run(["measure", path, "--tuning", "alto", "--tonic", "C"], {
      isTTY: true,
      colour: true,
    });
    expect(onTerminal.err).toMatch(/%/);
    expect(onTerminal.err.endsWith("\r\u001b[K")).toBe(true);
    expect(onTerminal.out.replace(/\u001b\[\d+m/g, "")).toBe(plain.out);
  });

  it("counts from the anchor, and says so where it is not heard", () => {
    const measure = (anchor: string) =>
      run(["measure", files.path("good.wav"), "--tuning", "alto", "--anchor", anchor, "--json"]);
    const heard = JSON.parse(measure("G2").out);
    expect(heard.settings.anchor).toBe("G2");
    expect(heard.takes[0].referencePitch).toMatchObject({ anchor: "G2" });
    const { code, out } = measure("C2");
    expect(code).toBe(0);
    const [take] = JSON.parse(out).takes;
    expect(take.referencePitch).toMatchObject({ anchor: null });
    expect(take.findings).toContainEqual(
      expect.objectContaining({ code: "anchor-not-heard", severity: "warning" }),
    );
  });

  it("checks a recording", () => {
    const { code, out, err } = run(["check", files.path("good.wav")]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toContain("Good enough to measure from");
  });

  it("says of strings that sound together that a tuning has to be named, and reads them with one", () => {
    const check = run(["check", files.path("together.wav")]);
    expect(check).toMatchObject({ code: 0, err: "" });
    expect(check.out).toContain("Several strings seem to sound together");
    expect(check.out).not.toContain("Not good enough");
    const measured = run(["measure", files.path("together.wav"), "--tuning", "alto-three", "--json"]);
    const [take] = JSON.parse(measured.out).takes;
    expect(take.passages[0].strings).toEqual(["C2", "G2"]);
  });

  it("says that --order is of no use where strings sound together", () => {
    const codes = (name: string) => {
      const args = ["measure", files.path(name), "--tuning", "alto-three", "--order", "C2,G2", "--json"];
      return JSON.parse(run(args).out).takes[0].findings.map(({ code }: { code: string }) => code);
    };
    expect(codes("together.wav")).toContain("order-unused");
    expect(codes("good.wav")).not.toContain("order-unused");
  });
});

describe("wheel", () => {
  it("says of a steady tone that no swing is shown, with code 0, as text and as JSON", () => {
    const text = run(["wheel", files.path("good.wav")]);
    expect(text).toMatchObject({ code: 0, err: "" });
    expect(text.out).toContain("No swing that keeps time with the wheel is shown");
    const { code, out } = run(["wheel", files.path("good.wav"), "--turns-per-second", "1.5", "--json"]);
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      schemaVersion: 1,
      settings: { turnsPerSecond: 1.5 },
      turnsPerSecond: null,
      pitchSwingCents: null,
    });
  });

  it("ends with code 3 where the take can't be used", () => {
    expect(run(["wheel", files.path("empty.wav")])).toMatchObject({ code: 3, out: "" });
    expect(run(["wheel", files.path("missing.wav")]).err).toContain("was not found");
  });
});
