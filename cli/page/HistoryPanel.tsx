import { useEffect, useMemo, useState } from "preact/hooks";
import { documentJson, type HistoryDocument, historyCsv } from "../../src/index.js";
import { AnalysisState } from "./AnalysisState.js";
import type { Analyst } from "./Analyst.js";
import { Answer } from "./Answer.js";
import { FilePicker } from "./FilePicker.js";
import type { Kept } from "./keep/Kept.js";
import { KEPT_LOG, logOfKept } from "./keep/logOfKept.js";
import { SaveButtons } from "./SaveButtons.js";
import { Sheet } from "./Sheet.js";
import { StringSelect } from "./StringSelect.js";
import { saveFile } from "./saveFile.js";
import { useAnalysis } from "./useAnalysis.js";
import { words } from "./words.js";

const { history: said } = words;

interface HistoryPanelProps {
  readonly analyst: Analyst;
  readonly kept: Pick<Kept, "logs" | "readings">;
  /** A log is to be brought in. */
  readonly onLog: (file: File) => void;
}

/** How each string drifted over what is kept: what the command says of the same log. */
export function HistoryPanel({ analyst, kept, onLog }: HistoryPanelProps) {
  const { logs, readings } = kept;
  const text = useMemo(() => logOfKept({ logs, readings }), [logs, readings]);
  const [string, setString] = useState<string | null>(null);
  const [since, setSince] = useState("");
  const [strings, setStrings] = useState<readonly string[]>([]);
  const analysis = useAnalysis<HistoryDocument>(analyst, (reply) => {
    if (reply.kind !== "historied") return null;
    setStrings(reply.strings);
    return reply.document;
  });
  const asked = strings.includes(string ?? "") ? string : null;

  useEffect(() => {
    if (text === "") analysis.clear();
    else
      analysis.run([], () => ({
        kind: "history",
        log: KEPT_LOG,
        text,
        strings: asked === null ? null : [asked],
        since: since === "" ? null : since,
      }));
    // The thread goes on with nothing that nobody waits for.
    return () => analysis.stop();
  }, [text, asked, since]);

  return (
    <section>
      <h2>{said.title}</h2>
      <p>{text === "" ? said.none : said.lead}</p>
      <FilePicker
        label={said.bringLog}
        hint={said.bringHint}
        accept=".jsonl,.log,.txt"
        isSingle
        onFiles={([file]) => file && onLog(file)}
      />
      <p class="actions">
        <button type="button" disabled={text === ""} onClick={() => saveFile(KEPT_LOG, text)}>
          {said.saveLog}
        </button>
      </p>
      {text !== "" && (
        <div class="fields">
          <StringSelect
            label={said.string}
            strings={strings.map((name) => ({ name }))}
            chosen={asked}
            none={said.allStrings}
            isFree
            onChoose={(name) => setString(name === "" ? null : name)}
          />
          <label class="field">
            <span>{said.since}</span>
            <input type="date" value={since} onInput={({ currentTarget }) => setSince(currentTarget.value)} />
          </label>
        </div>
      )}
      <AnalysisState analysis={analysis} busy={said.busy} stop={said.stop} />
      {analysis.page !== null && (
        <>
          <p class="faint">{analysis.page.subtitle}</p>
          <Answer sentences={analysis.page.answer} />
          <Sheet page={analysis.page} />
        </>
      )}
      {analysis.result?.instruments.length === 0 && <p class="finding warning">{said.nothingSince}</p>}
      {analysis.result !== null && (
        <SaveButtons
          name="gurdybench-history"
          json={() => documentJson(analysis.result!)}
          csv={() => historyCsv(analysis.result!)}
        />
      )}
    </section>
  );
}
