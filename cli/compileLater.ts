import { setFlagsFromString } from "node:v8";

/**
 * How much of a function runs, in bytes of its code, before the optimising compiler takes it: eight times what is usual in
 * Node 20. What is hot is in the kernels already, and compiling the rest took a third of the time of a take of two minutes.
 */
const BUDGET = "--interrupt-budget=1056000";

/**
 * Lets the optimising compiler wait longer. To be called once everything is loaded: Node's own modules come with code that is
 * compiled already, and that holds for the usual flags alone.
 */
export function compileLater(): void {
  setFlagsFromString(BUDGET);
}
