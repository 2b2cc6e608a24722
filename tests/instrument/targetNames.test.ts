import { describe, expect, it } from "vitest";
import { AnalysisError } from "../../src/errors.js";
import { findTuning } from "../../src/instrument/findTuning.js";
import { stringTargets } from "../../src/instrument/stringTargets.js";
import { targetNames } from "../../src/instrument/targetNames.js";

const soprano = stringTargets(findTuning("soprano"));

function errorOf(given: readonly string[], targets = soprano): unknown {
  try {
    return targetNames("order", given, targets);
  } catch (error) {
    return error;
  }
}

describe("targetNames", () => {
  it("gives the names as the instrument writes them, in the order asked for", () => {
    expect(targetNames("order", ["G4 2", "G4"], soprano)).toEqual(["G4 2", "G4"]);
    const [first] = soprano;
    const composed = [{ ...first!, name: "th\u00e9" }];
    expect(targetNames("order", ["the\u0301"], composed)).toEqual(["th\u00e9"]);
  });

  it("refuses a name that is not there and one given twice, also where only their Unicode form differs", () => {
    expect(errorOf(["G4", "Z"])).toBeInstanceOf(AnalysisError);
    expect(errorOf(["G4", "Z"])).toMatchObject({
      code: "string-unknown",
      details: { option: "order", given: "Z", known: soprano.map(({ name }) => name).join(", ") },
    });
    expect(errorOf(["G4"], [])).toMatchObject({ code: "string-unknown", details: { known: "" } });
    expect(errorOf(["G4", "G4 2", "G4"])).toMatchObject({
      code: "string-repeated",
      details: { option: "order", given: "G4" },
    });
    const composed = [{ ...soprano[0]!, name: "th\u00e9" }];
    expect(errorOf(["th\u00e9", "the\u0301"], composed)).toMatchObject({ code: "string-repeated" });
  });
});
