export type { AudioRecording, DecodingNote } from "./audio/AudioRecording.js";
export type { Finding, FindingCode, FindingSeverity } from "./audio/Finding.js";
export { AnalysisError, type AnalysisErrorCode, type AnalysisErrorDetails } from "./errors.js";

export { builtInTunings } from "./instrument/builtInTunings.js";
export { findTuning } from "./instrument/findTuning.js";
export type { Instrument, InstrumentString, StringRole, StringTarget } from "./instrument/Instrument.js";
export { instrumentRanges } from "./instrument/instrumentRanges.js";
export { readInstrument } from "./instrument/readInstrument.js";
export { stringTargets, type TargetOptions } from "./instrument/stringTargets.js";
export { targetNames } from "./instrument/targetNames.js";

export type { PartialLevel } from "./partials/PartialLevel.js";
export type { MeasureOptions } from "./reading/MeasureOptions.js";
export { type MeasureDocument, measureDocumentSchema } from "./reading/measureDocumentSchema.js";
export { measureTake } from "./reading/measureTake.js";
export type {
  BandLevel,
  PassageSummary,
  ReferencePitch,
  TakeLowRegister,
  TakeReading,
} from "./reading/TakeReading.js";

export { checkText } from "./report/checkText.js";
export { type CheckVerdict, checkVerdict } from "./report/checkVerdict.js";
export { demoIntroText } from "./report/demoIntroText.js";
export { documentJson } from "./report/documentJson.js";
export { errorSentence } from "./report/errorSentence.js";
export { findingMessage } from "./report/findingMessage.js";
export { type MeasureDocumentInput, measureDocument } from "./report/measureDocument.js";
export { measureText, type TextOptions } from "./report/measureText.js";
export { printable } from "./report/printable.js";
export { shorten } from "./report/shorten.js";
export { type ListedTuning, tuningsText } from "./report/tuningsText.js";

export type { PairReading, PassageReading, StringReading, StringStatus } from "./strings/StringReading.js";

export type { ByteSource } from "./wav/ByteSource.js";
export { openWav } from "./wav/openWav.js";
