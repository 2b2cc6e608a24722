import { shorten } from "../src/index.js";
import type { TextSink } from "./Terminal.js";

/** One line on a terminal that says how far a take is; nothing at all anywhere else. */
export class Progress {
  private shown = "";

  constructor(private readonly sink: TextSink) {}

  /** @param done - share that is done, 0 to 1 */
  show(name: string, done: number): void {
    if (this.sink.isTTY !== true) return;
    const percent = Math.round(100 * Math.min(1, Math.max(0, done)));
    const line = `${String(percent).padStart(3)} %  ${shorten(name, (this.sink.columns ?? 80) - 8)}`;
    if (line === this.shown) return;
    this.sink.write(`\r\u001b[K${line}`);
    this.shown = line;
  }

  erase(): void {
    if (this.shown !== "") this.sink.write("\r\u001b[K");
    this.shown = "";
  }
}
