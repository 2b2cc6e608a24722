import { useState } from "preact/hooks";
import { AnalysisState } from "./AnalysisState.js";
import type { Analyst } from "./Analyst.js";
import { OneSound } from "./OneSound.js";
import { SaveButtons } from "./SaveButtons.js";
import { Sheet } from "./Sheet.js";
import { StringSelect } from "./StringSelect.js";
import { type ChosenSound, useAnalysis } from "./useAnalysis.js";
import { useKnownStrings } from "./useKnownStrings.js";
import { words } from "./words.js";
import type { MoreKind, TargetsAsked } from "./worker/Messages.js";

const { more: said } = words;
const kinds = Object.keys(said.kinds) as MoreKind[];

interface MoreTabProps {
  readonly analyst: Analyst;
  readonly targets: TargetsAsked;
  /** Recordings that are at hand already. */
  readonly sounds: readonly ChosenSound[];
}

/** Wheel, trompette, plucked strings, taps and stringing: what their commands print, as a page. */
export function MoreTab({ analyst, targets, sounds }: MoreTabProps) {
  const [what, setWhat] = useState<MoreKind>("wheel");
  const [name, setName] = useState("");
  const strings = useKnownStrings(analyst, targets);
  const [buzzing, setBuzzing] = useState<string | null>(null);
  const analysis = useAnalysis(analyst, (reply) => (reply.kind === "made" ? reply : null));
  const { from, a4Hz, tonic } = targets;

  const usual = strings.find(({ role }) => role === "trompette")?.name ?? null;
  const string = strings.some((one) => one.name === buzzing) ? buzzing : usual;
  const isReckoned = what === "stringing";
  const read = (sound: ChosenSound | null) => {
    setName(sound?.name ?? "stringing");
    analysis.run(sound === null ? [] : [sound], ([ready]) => ({
      kind: "more",
      what,
      sound: ready ?? null,
      targets: { from, a4Hz, tonic },
      string,
    }));
  };
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
      {isReckoned && strings.length === 0 && <p class="finding warning">{said.needsInstrument}</p>}
      {isReckoned && strings.length > 0 && (
        <button type="button" class="main" onClick={() => read(null)}>
          {said.run}
        </button>
      )}
      {!isReckoned && (
        <OneSound choose={said.choose} fromBench={said.fromBench} sounds={sounds} onChoose={read} />
      )}
      <AnalysisState analysis={analysis} busy={said.busy} stop={said.stop} />
      {analysis.page !== null && (
        <>
          <h2>{analysis.page.title}</h2>
          <p class="faint">{analysis.page.subtitle}</p>
          <div class="answer">
            {analysis.page.answer.map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
          </div>
          <Sheet page={analysis.page} />
        </>
      )}
      {analysis.result !== null && (
        <SaveButtons name={name} json={() => analysis.result!.json} csv={() => analysis.result!.csv} />
      )}
    </>
  );
}
