import { readFileSync } from "node:fs";
import { expect, it } from "vitest";

it("the compiled kernels are those of their sources", async () => {
  const { kernelModule } = (await import("../../.kernels.mjs" as string)) as {
    kernelModule: () => Promise<string>;
  };
  const written = readFileSync(new URL("../../src/kernels/kernelBytes.ts", import.meta.url), "utf8");
  expect(await kernelModule()).toBe(written);
});
