import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname } from "node:path";
import { Script } from "node:vm";

/** A part of the built command, run. */
export interface LoadedPart {
  readonly exports: unknown;
  /** Whether there was code that the build had compiled ahead, and the engine took it. */
  readonly wasCompiled: boolean;
  /** What the engine makes of all that was called so far, for {@link codeOf}. */
  compiledCode(): Uint8Array;
}

/** Where the code that the build compiled ahead lies: it fits one version of Node on one kind of processor. */
export function codeOf(path: string): string {
  return `${path}.${process.version}-${process.arch}.code`;
}

/**
 * Loads a part of the built command, with the code that the build compiled ahead where there is some that fits. To read and compile the
 * sources took a tenth of the time of a take of two minutes.
 *
 * @param path - of a script that is one function (exports, require, module, filename, dirname), in ASCII but for comments, with a name that changes with what
 * is in it: the engine looks at no more than its length before it takes the code for its own
 */
export function loadPart(path: string): LoadedPart {
  const cachedData = codeAt(codeOf(path));
  const script = new Script(readFileSync(path, "latin1"), {
    filename: path,
    ...(cachedData !== null && { cachedData }),
  });
  const module = { exports: {} as unknown };
  script.runInThisContext()(module.exports, createRequire(path), module, path, dirname(path));
  return {
    exports: module.exports,
    wasCompiled: script.cachedDataRejected === false,
    compiledCode: () => script.createCachedData(),
  };
}

function codeAt(path: string): Buffer | null {
  try {
    return readFileSync(path);
  } catch {
    return null;
  }
}
