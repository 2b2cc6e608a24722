// Compiles the kernels (`src/kernels/assembly`) to WebAssembly and writes them as a module, so that they come with the
// sources: nothing has to be fetched or read where they run. `npm run kernels` after a change; a test holds one to the other.
import { writeFileSync } from "node:fs";
import asc from "assemblyscript/asc";

const OUT = "src/kernels/kernelBytes.ts";

/** The text of the module that holds the compiled kernels. */
export async function kernelModule() {
  const files = new Map();
  const { error, stderr } = await asc.main(
    [
      "src/kernels/assembly/index.ts",
      ...[
        "--outFile",
        "kernels.wasm",
        "--runtime",
        "stub",
        "--enable",
        "simd",
        "--noAssert",
        "-O3",
        "--importMemory",
      ],
    ],
    { writeFile: (name, contents) => void files.set(name, contents) },
  );
  if (error) throw new Error(stderr.toString());
  const text = Buffer.from(files.get("kernels.wasm")).toString("base64");
  const lines = text.match(/.{1,100}/g).map((line) => `  "${line}",`);
  return `/** The kernels of \`assembly/\`, compiled by \`npm run kernels\`; base64. Not to be edited. */
export const KERNEL_BYTES: string = [
${lines.join("\n")}
].join("");
`;
}

if (import.meta.url === `file://${process.argv[1]}`) writeFileSync(OUT, await kernelModule());
