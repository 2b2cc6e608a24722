import { closeSync, openSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { perhaps } from "./perhaps.js";

/** A file for what is decoded, which is gone as soon as nobody has it open. */
export interface Spool {
  readonly descriptor: number;
  append(bytes: Uint8Array): void;
  close(): void;
}

/** Opens one among the temporary files. It has lost its name before anything is written, so that nothing is ever left of it. */
export function openSpool(): Spool {
  const path = join(tmpdir(), `gurdybench-${crypto.randomUUID()}.part`);
  const descriptor = openSync(path, "wx+", 0o600);
  const remove = () => perhaps(() => rmSync(path, { force: true }));
  remove();
  return {
    descriptor,
    append: (bytes) => {
      for (let done = 0; done < bytes.length; ) done += writeSync(descriptor, bytes, done);
    },
    close: () => {
      closeSync(descriptor);
      remove();
    },
  };
}
