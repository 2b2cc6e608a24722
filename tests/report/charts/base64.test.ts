import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { base64 } from "../../../src/report/charts/base64.js";

describe("base64", () => {
  // RFC 4648, section 10: test vectors.
  it.each([
    ["", ""],
    ["f", "Zg=="],
    ["fo", "Zm8="],
    ["foo", "Zm9v"],
    ["foob", "Zm9vYg=="],
    ["fooba", "Zm9vYmE="],
    ["foobar", "Zm9vYmFy"],
  ])("%s", (text, expected) => {
    expect(base64(new TextEncoder().encode(text))).toBe(expected);
  });

  it("agrees with Node's own for any bytes", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => {
        expect(base64(bytes)).toBe(Buffer.from(bytes).toString("base64"));
      }),
    );
  });
});
