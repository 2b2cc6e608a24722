import {
  closeSync,
  existsSync,
  fchmodSync,
  fsyncSync,
  linkSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { codeOf, writing } from "./fileErrors.js";
import { perhaps } from "./perhaps.js";

/**
 * Writes a text file whole or not at all: beside its place first, then moved there at once. A file that came there in between
 * is left as it is, unless `force` is given. Where a link stands, `force` writes what it leads to.
 *
 * @throws AnalysisError `output-unusable`
 */
export function writeWhole(path: string, text: string, force: boolean): void {
  writing(() => {
    const target = force && existsSync(path) ? realpathSync(path) : path;
    const replaced = force ? statSync(target, { throwIfNoEntry: false }) : undefined;
    const beside = join(dirname(target), `.gurdybench-${crypto.randomUUID().slice(0, 8)}.part`);
    const descriptor = openSync(beside, "wx");
    try {
      try {
        writeFileSync(descriptor, text);
        if (replaced !== undefined) perhaps(() => fchmodSync(descriptor, replaced.mode & 0o777));
        perhaps(() => fsyncSync(descriptor), ["ENOSPC", "EDQUOT", "EIO"]);
      } finally {
        closeSync(descriptor);
      }
      if (force) renameSync(beside, target);
      else placeNew(beside, target);
    } finally {
      perhaps(() => rmSync(beside, { force: true }));
    }
  });
}

/** A link is refused where a file stands already, without a moment between looking and writing. Not all disks have links. */
function placeNew(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (error) {
    if (!["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS", "EMLINK"].includes(codeOf(error))) throw error;
    // There the name is taken by an empty file first, which only one can do.
    closeSync(openSync(to, "wx"));
    try {
      renameSync(from, to);
    } catch (failure) {
      perhaps(() => rmSync(to, { force: true }));
      throw failure;
    }
  }
}
