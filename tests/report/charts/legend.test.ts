import { describe, expect, it } from "vitest";
import { legend } from "../../../src/report/charts/legend.js";

describe("legend", () => {
  it("takes no room where there is nothing to tell", () => {
    expect(legend([], 350).pixels).toBe(0);
  });

  it("takes a further row where names don't fit beside each other", () => {
    const names = ["takes of the old one", "takes of the new one", "difference of the means"];
    expect(legend(names, 700).pixels).toBe(25);
    expect(legend(names, 350).pixels).toBeGreaterThan(25);
  });
});
