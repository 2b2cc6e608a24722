import { useState } from "preact/hooks";
import { documentJson, instrumentRanges, type KeyboardDocument, keyboardCsv } from "../../src/index.js";
import { AnalysisState } from "./AnalysisState.js";
import type { Analyst } from "./Analyst.js";
import { KeyMoves } from "./KeyMoves.js";
import { NumberField } from "./NumberField.js";
import { SaveButtons } from "./SaveButtons.js";
import { Sheet } from "./Sheet.js";
import { SoundField } from "./SoundField.js";
import { StringSelect } from "./StringSelect.js";
import { type ChosenSound, useAnalysis } from "./useAnalysis.js";
import { useKnownStrings } from "./useKnownStrings.js";
import { words } from "./words.js";
import type { DrawnPage, TargetsAsked } from "./worker/Messages.js";

const { keyboard: said } = words;

interface KeyboardTabProps {
  readonly analyst: Analyst;
  readonly targets: TargetsAsked;
  /** Recordings that are at hand already. */
  readonly sounds: readonly ChosenSound[];
}

/** A scale on one string, and how to move its tangents; another string of the same keys beside it. */
export function KeyboardTab({ analyst, targets, sounds }: KeyboardTabProps) {
  const melody = useKnownStrings(analyst, targets).filter(({ role }) => role === "melody");
  const [string, setString] = useState("");
  const [otherString, setOtherString] = useState("");
  const [scale, setScale] = useState<ChosenSound | null>(null);
  const [otherScale, setOtherScale] = useState<ChosenSound | null>(null);
  const [lengthMm, setLengthMm] = useState<number | null | undefined>(null);
  const analysis = useAnalysis(analyst, (reply) => (reply.kind === "keyed" ? reply.document : null));

  const name = melody.some((one) => one.name === string) ? string : (melody[0]?.name ?? "");
  const others = melody.filter((one) => one.name !== name);
  const otherName = others.some((one) => one.name === otherString) ? otherString : (others[0]?.name ?? "");

  function read(
    first: ChosenSound | null,
    other: ChosenSound | null,
    played: string = name,
    beside: string = otherName,
  ): void {
    setScale(first);
    setOtherScale(other);
    setString(played);
    setOtherString(beside);
    if (first === null) {
      analysis.clear();
      return;
    }
    analysis.run(other === null ? [first] : [first, other], ([ready, readyBeside]) => ({
      kind: "keyboard",
      sound: ready!,
      targets,
      string: played,
      lengthMm: lengthMm ?? null,
      other: readyBeside === undefined ? null : { sound: readyBeside, string: beside },
    }));
  }

  return (
    <>
      <h1>{said.title}</h1>
      <p>{said.lead}</p>
      {melody.length === 0 ? (
        <p class="finding warning">{said.needsInstrument}</p>
      ) : (
        <>
          <div class="fields">
            <StringSelect
              label={said.string}
              strings={melody}
              chosen={name}
              onChoose={(played) => {
                // The two are never one string.
                const beside =
                  played === otherName ? (melody.find((one) => one.name !== played)?.name ?? "") : otherName;
                read(scale, otherScale, played, beside);
              }}
            />
            <NumberField
              label={said.length}
              help={said.lengthHelp}
              range={instrumentRanges.lengthMm}
              first={lengthMm ?? null}
              onNumber={setLengthMm}
            />
          </div>
          <SoundField
            choose={said.choose}
            sounds={sounds}
            chosen={scale}
            onChoose={(sound) => read(sound, otherScale)}
          />
          {others.length > 0 && (
            <details class="folded">
              <summary>{said.beside}</summary>
              <p>{said.besideLead}</p>
              <StringSelect
                label={said.otherString}
                strings={others}
                chosen={otherName}
                onChoose={(beside) => read(scale, otherScale, name, beside)}
              />
              <SoundField
                choose={said.chooseOther}
                sounds={sounds}
                chosen={otherScale}
                onChoose={(sound) => read(scale, sound)}
              />
            </details>
          )}
          {scale !== null && (
            <p class="actions">
              <button type="button" disabled={lengthMm === undefined} onClick={() => read(scale, otherScale)}>
                {words.again}
              </button>
            </p>
          )}
        </>
      )}
      <AnalysisState analysis={analysis} busy={said.busy} stop={said.stop} />
      {analysis.result !== null && <KeyMoves document={analysis.result} />}
      {analysis.page !== null && analysis.result !== null && (
        <Sheet page={withoutKeyTables(analysis.page, analysis.result.other === null ? 1 : 2)} />
      )}
      {analysis.result !== null && <SaveScale document={analysis.result} />}
    </>
  );
}

/** The page sets the tables of the keys itself: they come first, one for each string. */
function withoutKeyTables(page: DrawnPage, stringCount: number): DrawnPage {
  return {
    ...page,
    sections: page.sections.map((section, s) =>
      s < stringCount
        ? { ...section, blocks: section.blocks.filter(({ kind }) => kind !== "table") }
        : section,
    ),
  };
}

function SaveScale({ document }: { readonly document: KeyboardDocument }) {
  return (
    <SaveButtons name={document.file} json={() => documentJson(document)} csv={() => keyboardCsv(document)} />
  );
}
