export type { AudioRecording, DecodingNote } from "./audio/AudioRecording.js";
export type { Finding, FindingCode, FindingSeverity } from "./audio/Finding.js";
export type { TimeSpan } from "./audio/findPauses.js";
export { memoryRecording } from "./audio/memoryRecording.js";
export type { RecordingEncoding } from "./audio/RecordingEncoding.js";
export type { Spectrogram } from "./audio/Spectrogram.js";
export { spectrogramOf } from "./audio/spectrogramOf.js";
export { LOW_REGISTER_EDGE_HZ as lowRegisterEdgeHz } from "./body/bandEdges.js";
export type { BodyCurve, BodyCurvePoint, BodyCurveRefusal } from "./body/bodyCurve.js";
export { coversLowRegister } from "./body/coversLowRegister.js";
export type { LowReach } from "./body/lowReach.js";
export type { PartialEnergy } from "./body/lowRegister.js";
export type { MicrophoneResponse } from "./body/MicrophoneResponse.js";
export type { PartialReach, StringReach } from "./body/reachOfString.js";
export { readMicrophoneResponse } from "./body/readMicrophoneResponse.js";
export type {
  ComparedSide,
  Comparison,
  ComparisonFinding,
  ComparisonFindingCode,
  ComparisonOptions,
  CurveDifference,
  MeasureComparison,
  MeasureName,
  PartialDifferenceReading,
  RankedSide,
  Verdict,
} from "./comparison/Comparison.js";
export { type CompareDocument, compareDocumentSchema } from "./comparison/compareDocumentSchema.js";
export { compareSides } from "./comparison/compareSides.js";
export { withMicrophoneFinding } from "./comparison/withMicrophoneFinding.js";
export { AnalysisError, type AnalysisErrorCode, type AnalysisErrorDetails } from "./errors.js";
export type {
  ChangeVerdict,
  InstrumentHistory,
  PitchChange,
  PitchTrends,
  StringHistory,
  StringMoment,
  Trend,
  TrendReading,
  WorkDifference,
  WorkEffect,
} from "./history/HistoryReading.js";
export { type HistoryDocument, historyDocumentSchema } from "./history/historyDocumentSchema.js";
export type { LogRepeat } from "./history/joinRepeats.js";
export { logLimits } from "./history/logLimits.js";
export { type LoggedTake, logLineSchema } from "./history/logLineSchema.js";
export { momentText } from "./history/momentText.js";
export { type Moment, parseMoment } from "./history/parseMoment.js";
export { readHistory } from "./history/readHistory.js";
export { type LogProblem, type LogReading, readLog } from "./history/readLog.js";
export { startsLog } from "./history/startsLog.js";
export type { PlacedTake } from "./history/takesInOrder.js";
export { takesSince } from "./history/takesSince.js";
export { workNote } from "./history/workNote.js";
export { builtInTunings } from "./instrument/builtInTunings.js";
export { editInstrument, type InstrumentEdit } from "./instrument/editInstrument.js";
export { findTuning } from "./instrument/findTuning.js";
export type { Instrument, InstrumentString, StringRole, StringTarget } from "./instrument/Instrument.js";
export type {
  InstrumentFields,
  InstrumentKey,
  StringFields,
  StringKey,
} from "./instrument/InstrumentFields.js";
export { instrumentProblems } from "./instrument/instrumentProblems.js";
export { instrumentRanges } from "./instrument/instrumentRanges.js";
export { readInstrument } from "./instrument/readInstrument.js";
export { readInstrumentFields } from "./instrument/readInstrumentFields.js";
export { stringTargets, type TargetOptions } from "./instrument/stringTargets.js";
export { targetNames } from "./instrument/targetNames.js";
export { writeInstrument } from "./instrument/writeInstrument.js";
export {
  compareKeyboards,
  type KeyboardComparison,
  type KeyDifference,
} from "./keyboard/compareKeyboards.js";
export type {
  KeyboardFinding,
  KeyboardFindingCode,
  KeyboardOptions,
  KeyboardOwnFinding,
  KeyboardPattern,
  KeyboardReading,
  KeyReading,
  NamedPitch,
} from "./keyboard/KeyboardReading.js";
export { type KeyboardDocument, keyboardDocumentSchema } from "./keyboard/keyboardDocumentSchema.js";
export { keyLadder } from "./keyboard/keyLadder.js";
export { readKeyboard } from "./keyboard/readKeyboard.js";
export { type ScaleChoice, scaleOptions } from "./keyboard/scaleOptions.js";
export type { Estimate } from "./keyboard/shiftPattern.js";
export type { TangentMove } from "./keyboard/tangentGeometry.js";
export type {
  LiveLack,
  LiveOptions,
  LiveReader,
  LiveReading,
  LiveSound,
  LiveStatus,
  LiveStray,
  LiveString,
} from "./live/LiveReading.js";
export { liveReader } from "./live/liveReader.js";
export {
  decodedRecording,
  LONGEST_DECODED_SECONDS as longestDecodedSeconds,
} from "./media/decodedRecording.js";
export type { MediaCodec, MediaContainer, MediaFormat } from "./media/MediaFormat.js";
export { sniffMedia } from "./media/sniffMedia.js";
export type { PartialLevel } from "./partials/PartialLevel.js";
export { checkLowEdge, LOW_EDGE_RANGE_HZ as lowEdgeRangeHz } from "./reading/checkLowEdge.js";
export { TURNS_PER_SECOND_RANGE as turnsPerSecondRange } from "./reading/checkTurns.js";
export { isMeasured } from "./reading/isMeasured.js";
export type { MeasureOptions } from "./reading/MeasureOptions.js";
export { type MeasureDocument, measureDocumentSchema } from "./reading/measureDocumentSchema.js";
export { measureOptionsOf } from "./reading/measureOptionsOf.js";
export { measureTake } from "./reading/measureTake.js";
export type {
  BandLevel,
  BodyReading,
  LowString,
  PassageSummary,
  ReferencePitch,
  SoundReading,
  TakeLowRegister,
  TakeReading,
} from "./reading/TakeReading.js";
export { type TakeChoice, type TakeTargets, takeTargets } from "./reading/takeTargets.js";
export { withMicrophone } from "./reading/withMicrophone.js";
export { chartColours } from "./report/charts/chartColours.js";
export { checkText } from "./report/checkText.js";
export { type CheckVerdict, checkVerdict } from "./report/checkVerdict.js";
export { type CompareDocumentInput, compareDocument } from "./report/compareDocument.js";
export { compareText } from "./report/compareText.js";
export { checkCsv } from "./report/csv/checkCsv.js";
export { compareCsv } from "./report/csv/compareCsv.js";
export { historyCsv } from "./report/csv/historyCsv.js";
export { keyboardCsv } from "./report/csv/keyboardCsv.js";
export { measureCsv } from "./report/csv/measureCsv.js";
export { stringingCsv } from "./report/csv/stringingCsv.js";
export { sympatheticCsv } from "./report/csv/sympatheticCsv.js";
export { tapCsv } from "./report/csv/tapCsv.js";
export { trompetteCsv } from "./report/csv/trompetteCsv.js";
export { tuningsCsv } from "./report/csv/tuningsCsv.js";
export { wheelCsv } from "./report/csv/wheelCsv.js";
export { demoCompareIntroText } from "./report/demoCompareIntroText.js";
export { demoIntroText } from "./report/demoIntroText.js";
export { documentJson } from "./report/documentJson.js";
export { errorSentence } from "./report/errorSentence.js";
export { findingMessage } from "./report/findingMessage.js";
export { type HistoryDocumentInput, historyDocument } from "./report/historyDocument.js";
export { historyText } from "./report/historyText.js";
export type { PicturedTake } from "./report/html/PicturedTake.js";
export { intervalText } from "./report/intervalText.js";
export { type KeyboardDocumentInput, keyboardDocument, type ReadScale } from "./report/keyboardDocument.js";
export { keyboardText } from "./report/keyboardText.js";
export { type LogNotes, logLine } from "./report/logLine.js";
export { type MeasureDocumentInput, measureDocument } from "./report/measureDocument.js";
export { measureText, type TextOptions } from "./report/measureText.js";
export { printable } from "./report/printable.js";
export { shorten } from "./report/shorten.js";
export { signed } from "./report/signed.js";
export { type StringingDocumentInput, stringingDocument } from "./report/stringingDocument.js";
export { stringingOf } from "./report/stringingOf.js";
export { stringingText } from "./report/stringingText.js";
export { type SympatheticDocumentInput, sympatheticDocument } from "./report/sympatheticDocument.js";
export { sympatheticText } from "./report/sympatheticText.js";
export { type TakeAnswer, takeAnswer } from "./report/takeAnswer.js";
export { type ReadTaps, type TapDocumentInput, tapDocument } from "./report/tapDocument.js";
export { tapText } from "./report/tapText.js";
export { type TrompetteDocumentInput, trompetteDocument } from "./report/trompetteDocument.js";
export { trompetteText } from "./report/trompetteText.js";
export { tuningsText } from "./report/tuningsText.js";
export type { ListedTuning } from "./report/tuningTable.js";
export { type WheelDocumentInput, wheelDocument } from "./report/wheelDocument.js";
export { wheelText } from "./report/wheelText.js";
export type { SlopeLack } from "./statistics/slopeWithin.js";
export type { DensityLacking, LinearDensity } from "./stringing/linearDensity.js";
export { type InstrumentChange, otherInstrument } from "./stringing/otherInstrument.js";
export { readStringing, type StrungInstrument } from "./stringing/readStringing.js";
export type { StringingComparison, StringingReading, StringingRow } from "./stringing/StringingReading.js";
export { type StringingDocument, stringingDocumentSchema } from "./stringing/stringingDocumentSchema.js";
export { type StringMaterial, stringMaterials } from "./stringing/stringMaterials.js";
export { type StringingChoice, strungBeside } from "./stringing/strungBeside.js";
export { equalGroups } from "./strings/equalGroups.js";
export type { StringMovement } from "./strings/StringMovement.js";
export type { PairReading, PassageReading, StringReading, StringStatus } from "./strings/StringReading.js";

export type { PluckReading } from "./sympathetic/PluckReading.js";
export { readSympathetic } from "./sympathetic/readSympathetic.js";
export type {
  StrayPluck,
  SympatheticFindingCode,
  SympatheticOptions,
  SympatheticOwnFinding,
  SympatheticReading,
  SympatheticString,
} from "./sympathetic/SympatheticReading.js";
export {
  type SympatheticDocument,
  sympatheticDocumentSchema,
} from "./sympathetic/sympatheticDocumentSchema.js";

export { type DemoSide, type DemoSideTake, demoSides } from "./synthesis/demoSides.js";
export {
  type BodyComparison,
  compareBodies,
  type ModePair,
  type TapDifference,
} from "./tap/compareBodies.js";
export { type ModeDecay, modeDecay } from "./tap/modeDecay.js";
export { readTaps, type TapOptions } from "./tap/readTaps.js";
export type {
  LeftOutVibration,
  ModeReading,
  TapBand,
  TapFinding,
  TapFindingCode,
  TapLack,
  TapModeValues,
  TapMoment,
  TapOwnFinding,
  TapReading,
  TapValue,
} from "./tap/TapReading.js";
export { type TapAndBow, type TapAndBowBand, tapAndBow } from "./tap/tapAndBow.js";
export { type TapDocument, tapDocumentSchema } from "./tap/tapDocumentSchema.js";
export { readTrompette } from "./trompette/readTrompette.js";
export type {
  BuzzState,
  NamedTarget,
  OtherSoundReason,
  PitchReading,
  PitchRefusal,
  Spread,
  StrokeDoubt,
  StrokeMean,
  StrokeReading,
  TrompetteFinding,
  TrompetteFindingCode,
  TrompetteOptions,
  TrompetteOwnFinding,
  TrompetteReading,
  TurnRefusal,
} from "./trompette/TrompetteReading.js";
export { type TrompetteDocument, trompetteDocumentSchema } from "./trompette/trompetteDocumentSchema.js";
export { trompetteStrings } from "./trompette/trompetteStrings.js";
export { type NoteName, parseNoteName } from "./units/parseNoteName.js";
export { type PitchClass, parsePitchClass } from "./units/parsePitchClass.js";
export { type Temperament, temperaments } from "./units/temperament.js";
export type { ByteSource } from "./wav/ByteSource.js";
export { memoryByteSource } from "./wav/memoryByteSource.js";
export { openWav } from "./wav/openWav.js";
export { wavOfBlocks } from "./wav/wavOfBlocks.js";
export type {
  CommonSwing,
  PhaseDifference,
  StringWheel,
  Swing,
  SwingHarmonic,
  TurnCandidate,
  TurnPlace,
  WheelPassage,
  WheelReading,
  WheelRefusal,
} from "./wheel/WheelReading.js";
export { type WheelDocument, wheelDocumentSchema } from "./wheel/wheelDocumentSchema.js";
