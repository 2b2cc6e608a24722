import { spawn } from "node:child_process";
import { findProgram } from "./files/findProgram.js";

/** What opens an address in the browser that people have chosen, without a shell in between. */
const openers: Partial<Record<NodeJS.Platform, readonly [string, ...string[]]>> = {
  darwin: ["open"],
  win32: ["rundll32", "url.dll,FileProtocolHandler"],
};
/** An opener that has not failed by then has started a browser, and may stay for as long as that is open. */
const PATIENCE_MS = 5000;

/** Opens an address in the browser. @returns whether that seems to have gone well */
export function openBrowser(address: string): Promise<boolean> {
  const [name, ...args] = openers[process.platform] ?? ["xdg-open"];
  const program = findProgram(name);
  if (program === null) return Promise.resolve(false);
  return new Promise((resolve) => {
    try {
      // A group of its own: an interrupt of this command leaves the browser open.
      const child = spawn(program, [...args, address], {
        stdio: "ignore",
        detached: true,
        windowsHide: true,
      });
      const patience = setTimeout(() => resolve(true), PATIENCE_MS);
      const settle = (isOpen: boolean) => {
        clearTimeout(patience);
        resolve(isOpen);
      };
      child.on("error", () => settle(false));
      child.on("exit", (code) => settle(code === 0));
      child.unref();
    } catch {
      resolve(false);
    }
  });
}
