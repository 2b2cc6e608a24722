import { describe, expect, it, vi } from "vitest";
import { KERNEL_BYTES } from "../../src/kernels/kernelBytes.js";
import { kernels } from "../../src/kernels/kernels.js";
import { ScratchUser } from "../../src/kernels/ScratchUser.js";

/** The first place that is given out, as `kernels.ts` has it. */
const FIRST_FREE = 4096;

describe("the kernels' memory", () => {
  it("keeps what was put where it was allocated while it grows, and gives each user its own", () => {
    const at = kernels().allocate(32);
    kernels().f64.set([1, 2, 3, 4], at / 8);
    const own = kernels().scratch(64, ScratchUser.smoothing);
    const before = kernels().f64.buffer.byteLength;
    const other = kernels().scratch(2 * before, ScratchUser.columns);
    expect(kernels().f64.buffer.byteLength).toBeGreaterThan(before);
    expect([...kernels().f64.subarray(at / 8, at / 8 + 4)]).toEqual([1, 2, 3, 4]);
    expect(kernels().scratch(64, ScratchUser.smoothing)).toBe(own);
    expect(other + 2 * before).toBeLessThanOrEqual(kernels().f64.buffer.byteLength);
  });

  it("has the constants of the compiled code below all that is given out", () => {
    // A function of the kernels' language with tables of its own would put them here, to be written over.
    const memory = new WebAssembly.Memory({ initial: 16 });
    const { cos, sin, log, atan2 } = Math;
    const module = new WebAssembly.Module(Buffer.from(KERNEL_BYTES, "base64"));
    new WebAssembly.Instance(module, { env: { memory }, math: { cos, sin, log, atan2 } });
    expect(new Uint8Array(memory.buffer, FIRST_FREE).every((byte) => byte === 0)).toBe(true);
    expect(kernels().allocate(1)).toBeGreaterThanOrEqual(FIRST_FREE);
  });

  it("is not given out in amounts that are no number, and stays in order", () => {
    const before = kernels().allocate(16);
    for (const amount of [Number.NaN, -8]) expect(() => kernels().allocate(amount)).toThrow(RangeError);
    expect(() => kernels().scratch(Number.NaN, ScratchUser.knots)).toThrow(RangeError);
    expect(kernels().allocate(16)).toBe(before + 16);
  });

  it("begins every part at a multiple of 16 bytes, one after another", () => {
    const first = kernels().allocate(5);
    const second = kernels().allocate(17);
    const third = kernels().allocate(8);
    expect([first % 16, second - first, third - second]).toEqual([0, 16, 32]);
  });
});

it("a host without WebAssembly is told so, as an error of its own", async () => {
  vi.stubGlobal("WebAssembly", undefined);
  vi.resetModules();
  try {
    const fresh = await import("../../src/kernels/kernels.js");
    expect(() => fresh.kernels()).toThrow(
      expect.objectContaining({ code: "kernels-unavailable", details: { reason: "TypeError" } }),
    );
  } finally {
    vi.unstubAllGlobals();
    vi.resetModules();
  }
});
