import { useState } from "preact/hooks";
import { documentJson, type KeyboardDocument, keyboardCsv } from "../../src/index.js";
import { AnalysisState } from "./AnalysisState.js";
import type { Analyst } from "./Analyst.js";
import { KeyMoves } from "./KeyMoves.js";
import { readNumber } from "./numbers.js";
import { OneSound } from "./OneSound.js";
import { SaveButtons } from "./SaveButtons.js";
import { Sheet } from "./Sheet.js";
import { StringSelect } from "./StringSelect.js";
import { type ChosenSound, useAnalysis } from "./useAnalysis.js";
import { useKnownStrings } from "./useKnownStrings.js";
import { words } from "./words.js";
import type { TargetsAsked } from "./worker/Messages.js";

const { keyboard: said } = words;

interface KeyboardTabProps {
  readonly analyst: Analyst;
  readonly targets: TargetsAsked;
  /** Recordings that are at hand already. */
  readonly sounds: readonly ChosenSound[];
}

/** A scale on one string, and how to move its tangents. */
export function KeyboardTab({ analyst, targets, sounds }: KeyboardTabProps) {
  const melody = useKnownStrings(analyst, targets).filter(({ role }) => role === "melody");
  const [string, setString] = useState("");
  const [lengthText, setLengthText] = useState("");
  const analysis = useAnalysis(analyst, (reply) => (reply.kind === "keyed" ? reply.document : null));
  const { from, a4Hz, tonic } = targets;

  const lengthMm = readNumber(lengthText);
  const lengthIsWrong = lengthText.trim() !== "" && lengthMm === null;
  const name = melody.some((one) => one.name === string) ? string : (melody[0]?.name ?? "");
  const read = (sound: ChosenSound) =>
    analysis.run([sound], ([ready]) => ({
      kind: "keyboard",
      sound: ready!,
      targets: { from, a4Hz, tonic },
      string: name,
      lengthMm,
    }));
  return (
    <>
      <h1>{said.title}</h1>
      <p>{said.lead}</p>
      {melody.length === 0 ? (
        <p class="finding warning">{said.needsInstrument}</p>
      ) : (
        <>
          <div class="fields">
            <StringSelect label={said.string} strings={melody} chosen={name} onChoose={setString} />
            <label class="field">
              <span>{said.length}</span>
              <input
                autocomplete="off"
                inputMode="decimal"
                value={lengthText}
                aria-invalid={lengthIsWrong}
                onInput={({ currentTarget }) => setLengthText(currentTarget.value)}
              />
              <small>{lengthIsWrong ? said.lengthWrong : said.lengthHelp}</small>
            </label>
          </div>
          <OneSound choose={said.choose} fromBench={said.fromBench} sounds={sounds} onChoose={read} />
        </>
      )}
      <AnalysisState analysis={analysis} busy={said.busy} stop={said.stop} />
      {analysis.result !== null && <KeyMoves document={analysis.result} />}
      {analysis.page !== null && <Sheet page={analysis.page} without={["table"]} />}
      {analysis.result !== null && <SaveScale document={analysis.result} />}
    </>
  );
}

function SaveScale({ document }: { readonly document: KeyboardDocument }) {
  return (
    <SaveButtons name={document.file} json={() => documentJson(document)} csv={() => keyboardCsv(document)} />
  );
}
