import type { ComponentChildren } from "preact";
import { printable } from "../../src/index.js";
import type { Analyst } from "./Analyst.js";
import { FilePicker } from "./FilePicker.js";
import { HistoryPanel } from "./HistoryPanel.js";
import type { Kept, KeptInstrument, KeptKind, KeptReading, KeptTake, TakeNotes } from "./keep/Kept.js";
import { dateText } from "./numbers.js";
import { ReadingNotes } from "./ReadingNotes.js";
import { words } from "./words.js";

const { keep: said } = words;

interface KeepTabProps {
  readonly analyst: Analyst;
  /** Null where the browser keeps nothing. */
  readonly kept: Kept | null;
  readonly usedBytes: number | null;
  readonly isOffline: boolean;
  readonly onInstrument: (one: KeptInstrument) => void;
  readonly onTake: (one: KeptTake) => void;
  readonly onReading: (one: KeptReading) => void;
  readonly onNotes: (one: KeptReading, notes: TakeNotes) => void;
  /** A log of takes is to be brought in. */
  readonly onLog: (file: File) => void;
  readonly onRemove: (kind: KeptKind, id: string) => void;
  readonly onExport: () => void;
  readonly onImport: (file: File) => void;
}

/** What stays on this device. */
export function KeepTab({ analyst, kept, usedBytes, isOffline, ...on }: KeepTabProps) {
  const remove = (kind: KeptKind, { id, name }: { readonly id: string; readonly name: string }) => (
    <button
      type="button"
      onClick={() => {
        if (confirm(said.sure(printable(name)))) on.onRemove(kind, id);
      }}
    >
      {said.remove}
    </button>
  );
  return (
    <>
      <h1>{said.title}</h1>
      <p>{said.lead}</p>
      {kept === null && <p class="finding warning">{said.unavailable}</p>}
      <Shelf title={said.instruments} things={kept?.instruments ?? []}>
        {(one) => (
          <>
            <button type="button" class="main" onClick={() => on.onInstrument(one)}>
              {said.use}
            </button>
            {remove("instruments", one)}
          </>
        )}
      </Shelf>
      <Shelf title={said.takes} things={kept?.takes ?? []}>
        {(one) => (
          <>
            <button type="button" class="main" onClick={() => on.onTake(one)}>
              {said.toBench}
            </button>
            {remove("takes", one)}
          </>
        )}
      </Shelf>
      <Shelf
        title={said.readings}
        things={kept?.readings ?? []}
        note={(one) => <ReadingNotes reading={one} onNotes={(notes) => on.onNotes(one, notes)} />}
      >
        {(one) => (
          <>
            <button type="button" class="main" onClick={() => on.onReading(one)}>
              {said.show}
            </button>
            {remove("readings", one)}
          </>
        )}
      </Shelf>
      {kept !== null && kept.logs.length > 0 && (
        <Shelf title={said.logs} things={kept.logs}>
          {(one) => remove("logs", one)}
        </Shelf>
      )}
      <section>
        <h2>{said.all}</h2>
        <FilePicker
          label={said.importAll}
          hint=""
          accept=".zip,application/zip"
          isSingle
          onFiles={([file]) => file && on.onImport(file)}
        />
        <p class="actions">
          <button type="button" class="main" disabled={kept === null} onClick={on.onExport}>
            {said.exportAll}
          </button>
        </p>
        <p class="faint">
          {usedBytes === null ? "" : said.used((usedBytes / 1e6).toFixed(0))} {isOffline ? said.offline : ""}
        </p>
      </section>
      {/* Last, being long. */}
      {kept !== null && <HistoryPanel analyst={analyst} kept={kept} onLog={on.onLog} />}
    </>
  );
}

function Shelf<One extends { readonly id: string; readonly name: string; readonly keptAt: number }>(props: {
  readonly title: string;
  readonly things: readonly One[];
  /** What stands below a thing's name. */
  readonly note?: (one: One) => ComponentChildren;
  readonly children: (one: One) => ComponentChildren;
}) {
  return (
    <section>
      <h2>{props.title}</h2>
      {props.things.length === 0 && <p class="faint">{said.none}</p>}
      <ul class="plain">
        {props.things.map((one) => (
          <li key={one.id} class="row">
            <p class="name">{printable(one.name)}</p>
            <p class="faint">{dateText(one.keptAt)}</p>
            {props.note?.(one)}
            <p class="actions">{props.children(one)}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}
