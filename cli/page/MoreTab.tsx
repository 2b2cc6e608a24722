import { useState } from "preact/hooks";
import { turnsPerSecondRange } from "../../src/index.js";
import { AnalysisState } from "./AnalysisState.js";
import type { Analyst } from "./Analyst.js";
import { Answer } from "./Answer.js";
import type { KeptInstrument } from "./keep/Kept.js";
import { NumberField } from "./NumberField.js";
import { OneSound } from "./OneSound.js";
import { SaveButtons } from "./SaveButtons.js";
import { Sheet } from "./Sheet.js";
import { StringChecks } from "./StringChecks.js";
import { StringingForm } from "./StringingForm.js";
import { StringSelect } from "./StringSelect.js";
import { TapForm } from "./TapForm.js";
import { type ChosenSound, useAnalysis } from "./useAnalysis.js";
import { useKnownStrings } from "./useKnownStrings.js";
import { words } from "./words.js";
import type { MoreAsked, NamedSound, TargetsAsked } from "./worker/Messages.js";

const { more: said } = words;
type MoreKind = MoreAsked["what"];
const kinds = Object.keys(said.kinds) as MoreKind[];

interface MoreTabProps {
  readonly analyst: Analyst;
  readonly targets: TargetsAsked;
  /** Recordings that are at hand already. */
  readonly sounds: readonly ChosenSound[];
  /** Instruments that were kept. */
  readonly kept: readonly KeptInstrument[];
}

/** Wheel, trompette, plucked strings, taps and stringing: what their commands print, as a page. */
export function MoreTab({ analyst, targets, sounds, kept }: MoreTabProps) {
  const [what, setWhat] = useState<MoreKind>("wheel");
  const [name, setName] = useState("");
  const strings = useKnownStrings(analyst, targets);
  const [buzzing, setBuzzing] = useState<string | null>(null);
  const [plucked, setPlucked] = useState<readonly string[]>([]);
  const [turnsPerSecond, setTurnsPerSecond] = useState<number | null | undefined>(null);
  const analysis = useAnalysis(analyst, (reply) => (reply.kind === "made" ? reply : null));

  const usual = strings.find(({ role }) => role === "trompette")?.name ?? null;
  const string = strings.some((one) => one.name === buzzing) ? buzzing : usual;
  const isTurned = what === "wheel" || what === "trompette";
  const run = (from: readonly ChosenSound[], ask: (ready: readonly NamedSound[]) => MoreAsked) => {
    setName(from[0]?.name ?? what);
    analysis.run(from, (ready) => ({ kind: "more", targets, ...ask(ready) }));
  };
  const readOne = (chosen: ChosenSound) =>
    run([chosen], ([ready]): MoreAsked => {
      const sound = ready!;
      const turns = turnsPerSecond ?? null;
      if (what === "trompette") return { what, sound, string, turnsPerSecond: turns };
      if (what !== "sympathetic") return { what: "wheel", sound, turnsPerSecond: turns };
      const names = strings.map((one) => one.name).filter((one) => plucked.includes(one));
      return { what, sound, strings: names.length === 0 ? null : names };
    });
  return (
    <>
      <h1>{said.title}</h1>
      <label class="field">
        <span>{said.what}</span>
        <select
          value={what}
          onChange={({ currentTarget }) => {
            analysis.clear();
            setWhat(currentTarget.value as MoreKind);
          }}
        >
          {kinds.map((kind) => (
            <option key={kind} value={kind}>
              {said.kinds[kind]}
            </option>
          ))}
        </select>
      </label>
      <p>{said.leads[what]}</p>
      {what === "trompette" && strings.length > 0 && (
        <StringSelect
          label={said.string}
          strings={strings}
          chosen={string}
          none={said.notSaid}
          onChoose={setBuzzing}
        />
      )}
      {what === "stringing" &&
        (strings.length === 0 ? (
          <p class="finding warning">{said.needsInstrument}</p>
        ) : (
          <StringingForm
            strings={strings}
            kept={kept}
            onRun={(asked) => run([], () => ({ what, ...asked }))}
          />
        ))}
      {what === "tap" && <TapForm sounds={sounds} onNone={analysis.clear} onRun={run} />}
      {(isTurned || what === "sympathetic") && (
        <OneSound choose={said.choose} fromBench={said.fromBench} sounds={sounds} onChoose={readOne} />
      )}
      {isTurned && (
        <details class="folded">
          <summary>{words.choices.title}</summary>
          <NumberField
            label={said.turns}
            help={said.turnsHelp}
            range={turnsPerSecondRange}
            first={turnsPerSecond ?? null}
            onNumber={setTurnsPerSecond}
          />
        </details>
      )}
      {what === "sympathetic" && strings.length > 0 && (
        <details class="folded">
          <summary>{words.choices.title}</summary>
          <StringChecks
            legend={said.plucked}
            help={said.pluckedHelp}
            strings={strings}
            chosen={plucked}
            onChoose={setPlucked}
          />
        </details>
      )}
      <AnalysisState analysis={analysis} busy={said.busy} stop={said.stop} />
      {analysis.page !== null && (
        <>
          <h2>{analysis.page.title}</h2>
          <p class="faint">{analysis.page.subtitle}</p>
          <Answer sentences={analysis.page.answer} />
          <Sheet page={analysis.page} />
        </>
      )}
      {analysis.result !== null && (
        <SaveButtons name={name} json={() => analysis.result!.json} csv={() => analysis.result!.csv} />
      )}
    </>
  );
}
