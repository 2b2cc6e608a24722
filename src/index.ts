export { AnalysisError } from "./errors.js";
