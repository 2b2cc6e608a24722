/** By itself, so that what reads YAML is loaded only where an instrument file is named. */
export { readInstrument } from "../src/index.js";
