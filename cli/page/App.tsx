import { useEffect, useMemo, useState } from "preact/hooks";
import { logLimits, printable } from "../../src/index.js";
import { Analyst } from "./Analyst.js";
import type { BenchReading } from "./BenchTake.js";
import { CompareTab } from "./CompareTab.js";
import { type Choice, lastChoice, noChoices, rememberChoice } from "./choices.js";
import { Foot } from "./Foot.js";
import { InstrumentChoice } from "./InstrumentChoice.js";
import { KeepTab } from "./KeepTab.js";
import { KeyboardTab } from "./KeyboardTab.js";
import { exportKept } from "./keep/exportKept.js";
import { fileNotes } from "./keep/fileNotes.js";
import { importKept, type Reworded } from "./keep/importKept.js";
import { type Kept, keptKinds } from "./keep/Kept.js";
import { MoreTab } from "./MoreTab.js";
import { Notice } from "./Notice.js";
import { ReadTab, type ShownReading } from "./ReadTab.js";
import { RecordPanel } from "./record/RecordPanel.js";
import { saveFile } from "./saveFile.js";
import { TakeTab } from "./TakeTab.js";
import { TargetChoices } from "./TargetChoices.js";
import { useBench } from "./useBench.js";
import { useKept } from "./useKept.js";
import { useOffline } from "./useOffline.js";
import { sections, useSection } from "./useSection.js";
import { words } from "./words.js";

const firstChoice: Choice = {
  from: { kind: "nothing" },
  a4Hz: null,
  tonic: null,
  yaml: words.instrument.example,
};

/** The bench: one part of it is shown at a time, the others stay as they are. */
export function App() {
  const analyst = useMemo(() => new Analyst(), []);
  const bench = useBench(analyst);
  const keep = useKept();
  const isOffline = useOffline();
  const [section, setSection] = useSection();
  const [choice, setChoice] = useState<Choice>(() => lastChoice(firstChoice));
  const [shownId, setShownId] = useState<string | null>(null);
  const [keptShown, setKeptShown] = useState<ShownReading | null>(null);
  const [notice, setNotice] = useState<string | null>(null);
  const [more, setMore] = useState(noChoices);
  const { from, a4Hz, tonic } = choice;
  const targets = { from, a4Hz, tonic, more };

  function choose(next: Choice): void {
    // Strings that were named are those of the instrument that was there before.
    if (next.from !== from) setMore({ ...noChoices, lowEdgeHz: more.lowEdgeHz });
    setChoice(next);
    rememberChoice(next);
  }

  // What was said of one part is not said of another.
  useEffect(() => setNotice(null), [section]);

  const readings = [
    ...bench.takes.flatMap(({ id, name, blob, decoded, reading }) =>
      reading === null ? [] : [{ id, name, reading, sound: { name, blob, decoded } }],
    ),
    ...(keptShown === null ? [] : [keptShown]),
  ];
  const sounds = [...bench.takes, ...(keep.kept?.takes ?? [])].map(({ name, blob }) => ({ name, blob }));

  async function put(things: Partial<Kept>): Promise<boolean> {
    const keeping = await keep.put(things);
    setNotice(keeping === "kept" ? null : words.keep[keeping]);
    return keeping === "kept";
  }

  function show(id: string): void {
    setShownId(id);
    setSection("read");
  }

  function showKept({ id, name, document, answer }: Kept["readings"][number]): void {
    const shown = (page: BenchReading["page"]) => ({
      id,
      name,
      reading: { document, answer, page },
      sound: null,
    });
    setKeptShown(shown(null));
    show(id);
    void analyst.ask({ kind: "draw", document }, (reply) => {
      if (reply.kind === "drawn") setKeptShown(shown(reply.page));
      else if (reply.kind === "failed") setNotice(reply.sentence);
    });
  }

  async function bringIn(file: File): Promise<void> {
    const kept = await importKept(file, async (documents) => {
      let reworded: readonly Reworded[] = [];
      await analyst.ask({ kind: "reword", documents }, (reply) => {
        if (reply.kind === "reworded") reworded = reply.readings;
      });
      return reworded;
    });
    if (kept === null) {
      setNotice(words.keep.notOurs);
      return;
    }
    const count = keptKinds.reduce((sum, kind) => sum + kept[kind].length, 0);
    if (await put(kept)) setNotice(words.keep.brought(count));
  }

  async function bringInLog(file: File): Promise<void> {
    if (file.size > logLimits.fileBytes) {
      setNotice(words.history.notALog);
      return;
    }
    const text = await file.text();
    let takeCount = 0;
    await analyst.ask({ kind: "log", text }, (reply) => {
      if (reply.kind === "logged") takeCount = reply.takeCount;
    });
    if (takeCount === 0) {
      setNotice(words.history.notALog);
      return;
    }
    const { name } = file;
    const before = keep.kept?.logs.find((one) => one.name === name);
    const id = before?.id ?? crypto.randomUUID();
    if (await put({ logs: [{ id, name, keptAt: Date.now(), text }] })) {
      const { brought, instead } = words.history;
      setNotice(`${brought(takeCount)}${before === undefined ? "" : ` ${instead(printable(name))}`}`);
    }
  }

  return (
    <>
      <header>
        <p class="mark">{words.name}</p>
        <nav aria-label={words.sectionsLabel}>
          {sections.map((name) => (
            <a key={name} href={`#${name}`} aria-current={name === section ? "page" : undefined}>
              {words.sections[name]}
            </a>
          ))}
        </nav>
      </header>
      <main>
        {notice !== null && <Notice text={notice} onClose={() => setNotice(null)} />}
        <div hidden={section !== "take"}>
          <TakeTab
            instrument={
              <>
                <InstrumentChoice
                  analyst={analyst}
                  choice={choice}
                  kept={keep.kept?.instruments ?? []}
                  onChoose={choose}
                  onKeep={(name, yaml) => {
                    const before = keep.kept?.instruments.find((one) => one.name === name);
                    const id = before?.id ?? crypto.randomUUID();
                    void put({ instruments: [{ id, name, yaml, keptAt: Date.now() }] });
                  }}
                />
                <TargetChoices analyst={analyst} targets={targets} more={more} onChoose={setMore} />
              </>
            }
            recorder={
              <RecordPanel targets={targets} onTake={(take) => setShownId(bench.add([take], targets))} />
            }
            takes={bench.takes}
            keptIds={new Set(keep.kept?.takes.map(({ id }) => id))}
            onFiles={(files) => {
              const id = bench.add(
                files.map((file) => ({ name: file.name, blob: file })),
                targets,
              );
              setShownId(id);
            }}
            onShow={show}
            onAgain={(id) => bench.read(id, targets)}
            onStop={bench.stop}
            onRemove={bench.remove}
            onKeep={({ id, name, blob, reading }) =>
              void put({
                takes: [{ id, name, blob, keptAt: Date.now() }],
                ...(reading !== null && {
                  readings: [
                    {
                      id,
                      name,
                      document: reading.document,
                      answer: reading.answer,
                      keptAt: Date.now(),
                      notes: fileNotes(blob instanceof File ? blob.lastModified : Date.now()),
                    },
                  ],
                }),
              })
            }
          />
        </div>
        {section === "read" && (
          <ReadTab analyst={analyst} readings={readings} shownId={shownId} onShow={setShownId} />
        )}
        <div hidden={section !== "compare"}>
          <CompareTab analyst={analyst} targets={targets} sounds={sounds} />
        </div>
        <div hidden={section !== "keyboard"}>
          <KeyboardTab analyst={analyst} targets={targets} sounds={sounds} />
        </div>
        <div hidden={section !== "more"}>
          <MoreTab analyst={analyst} targets={targets} sounds={sounds} kept={keep.kept?.instruments ?? []} />
        </div>
        {section === "keep" && (
          <KeepTab
            analyst={analyst}
            kept={keep.kept}
            usedBytes={keep.usedBytes}
            isOffline={isOffline}
            onInstrument={({ yaml }) => {
              choose({ ...choice, yaml, from: { kind: "instrument", yaml } });
              setSection("take");
            }}
            onTake={({ name, blob }) => {
              setShownId(bench.add([{ name, blob }], targets));
              setSection("take");
            }}
            onReading={showKept}
            onNotes={(one, notes) => void put({ readings: [{ ...one, notes }] })}
            onLog={(file) => void bringInLog(file)}
            onRemove={(kind, id) => void keep.remove(kind, id)}
            onExport={() => {
              if (keep.kept !== null)
                void exportKept(keep.kept).then((file) => saveFile("gurdybench-kept.zip", file));
            }}
            onImport={(file) => void bringIn(file)}
          />
        )}
      </main>
      <Foot />
    </>
  );
}
