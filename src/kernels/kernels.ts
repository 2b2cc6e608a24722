import { AnalysisError } from "../errors.js";

import { KERNEL_BYTES } from "./kernelBytes.js";
import type { KernelFunctions, LoadedKernels } from "./LoadedKernels.js";

/** What is used of WebAssembly and of base64, which all browsers and Node have; the language's own types leave them out. */
interface Host {
  readonly WebAssembly: {
    readonly Module: new (bytes: Uint8Array) => object;
    readonly Memory: new (of: { initial: number }) => KernelMemory;
    readonly Instance: new (module: object, imports: object) => { readonly exports: object };
  };
  atob(text: string): string;
}

interface KernelMemory {
  readonly buffer: ArrayBuffer;
  grow(pages: number): number;
}

const PAGE_BYTES = 1 << 16;
/** Below it lie the constants of the compiled code. */
const FIRST_FREE = 1 << 12;
const ALIGNMENT = 16;
let made: LoadedKernels | null = null;

/**
 * The inner loops of the analysis, compiled from `assembly/` to WebAssembly: vectors of two or four values at a time, and
 * fast from the first call on, where the same in JavaScript runs slowly until it has been compiled (what that gives is in
 * `DEVELOPERS.md`). Made when it is first asked for; one memory, which only one call at a time works in.
 *
 * @throws AnalysisError `kernels-unavailable` where the host has no WebAssembly with vectors, or its content security policy
 * forbids it (`script-src` needs `'wasm-unsafe-eval'`)
 */
export function kernels(): LoadedKernels {
  made ??= makeKernels();
  return made;
}

function makeKernels(): LoadedKernels {
  const { WebAssembly, atob } = globalThis as unknown as Host;
  try {
    const bytes = Uint8Array.from(atob(KERNEL_BYTES), (character) => character.charCodeAt(0));
    const memory = new WebAssembly.Memory({ initial: 16 });
    const instance = new WebAssembly.Instance(new WebAssembly.Module(bytes), {
      env: { memory },
      math: { atan2: Math.atan2, cos: Math.cos, log: Math.log, sin: Math.sin },
    });
    return withMemory(memory, instance.exports as KernelFunctions);
  } catch (error) {
    throw new AnalysisError("kernels-unavailable", {
      reason: error instanceof Error ? error.name : "unknown",
    });
  }
}

function withMemory(memory: KernelMemory, functions: KernelFunctions): LoadedKernels {
  let u8 = new Uint8Array(memory.buffer);
  let f32 = new Float32Array(memory.buffer);
  let f64 = new Float64Array(memory.buffer);
  let end = FIRST_FREE;
  const scratches: { start: number; byteCount: number }[] = [];
  const refresh = () => {
    if (f64.buffer === memory.buffer) return;
    u8 = new Uint8Array(memory.buffer);
    f32 = new Float32Array(memory.buffer);
    f64 = new Float64Array(memory.buffer);
  };
  const allocate = (byteCount: number) => {
    // Without this, a length that is no number would ruin all that is given out afterwards, and nobody would see it.
    if (!(byteCount >= 0)) throw new RangeError(`no memory of ${byteCount} bytes`);
    const start = end;
    end += Math.ceil(byteCount / ALIGNMENT) * ALIGNMENT;
    const missing = end - memory.buffer.byteLength;
    if (missing > 0) memory.grow(Math.ceil(missing / PAGE_BYTES));
    refresh();
    return start;
  };
  return {
    functions,
    get u8() {
      return u8;
    },
    get f32() {
      return f32;
    },
    get f64() {
      return f64;
    },
    allocate,
    scratch: (byteCount, user) => {
      const known = scratches[user] ?? { start: 0, byteCount: 0 };
      if (byteCount <= known.byteCount) return known.start;
      // What is outgrown stays behind: twice as much each time, so that all of it together is no more than the last.
      const enough = Math.max(byteCount, 2 * known.byteCount);
      const start = allocate(enough);
      scratches[user] = { start, byteCount: enough };
      return start;
    },
  };
}
