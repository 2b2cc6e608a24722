import { codeOf } from "./fileErrors.js";

/** Not all disks can do this; only these errors count. */
export function perhaps(action: () => void, grave: readonly string[] = []): void {
  try {
    action();
  } catch (error) {
    if (grave.includes(codeOf(error))) throw error;
  }
}
