import type { ComponentChildren } from "preact";
import { printable } from "../../src/index.js";
import type { BenchTake } from "./BenchTake.js";
import { FilePicker, SOUND_FILES } from "./FilePicker.js";
import { saveFile, withEnding } from "./saveFile.js";
import { words } from "./words.js";

const { take: said } = words;

interface TakeTabProps {
  /** The form that says which strings are to be heard. */
  readonly instrument: ComponentChildren;
  /** The place to record in. */
  readonly recorder: ComponentChildren;
  readonly takes: readonly BenchTake[];
  readonly keptIds: ReadonlySet<string>;
  readonly onFiles: (files: readonly File[]) => void;
  readonly onShow: (id: string) => void;
  readonly onAgain: (id: string) => void;
  readonly onStop: (id: string) => void;
  readonly onKeep: (take: BenchTake) => void;
  readonly onRemove: (id: string) => void;
}

/** What is to be read: the instrument, the microphone and the recordings. */
export function TakeTab(props: TakeTabProps) {
  const { instrument, recorder, takes, onFiles } = props;
  return (
    <>
      <h1>{said.title}</h1>
      <p>{said.lead}</p>
      {instrument}
      {recorder}
      <section>
        <h2>{said.files}</h2>
        <FilePicker label={said.choose} hint={said.drop} accept={SOUND_FILES} onFiles={onFiles} />
      </section>
      <section>
        <h2>{said.list}</h2>
        {takes.length === 0 && <p class="faint">{said.none}</p>}
        <ul class="plain">
          {takes.map((take) => (
            <TakeRow key={take.id} take={take} {...props} />
          ))}
        </ul>
      </section>
    </>
  );
}

function TakeRow({ take, keptIds, ...on }: { readonly take: BenchTake } & TakeTabProps) {
  const { id, name, state, share, fault, reading, decoded, blob } = take;
  const isBusy = state === "waiting" || state === "decoding" || state === "reading";
  return (
    <li class="row">
      <p class="name">{printable(name)}</p>
      <p role="status" class={state === "failed" ? "finding problem" : "faint"}>
        {fault ?? said.states[state]} {decoded !== null && state === "read" ? said.byBrowser : ""}
      </p>
      {isBusy && <progress value={share} max={1} aria-label={said.progressLabel(printable(name))} />}
      <p class="actions">
        {reading !== null && (
          <button type="button" class="main" onClick={() => on.onShow(id)}>
            {said.show}
          </button>
        )}
        {isBusy ? (
          <button type="button" onClick={() => on.onStop(id)}>
            {said.stop}
          </button>
        ) : (
          <button type="button" onClick={() => on.onAgain(id)}>
            {said.again}
          </button>
        )}
        <button type="button" disabled={keptIds.has(id)} onClick={() => on.onKeep(take)}>
          {keptIds.has(id) ? said.kept : said.keep}
        </button>
        <button type="button" onClick={() => saveFile(withEnding(name, ".wav"), decoded ?? blob)}>
          {said.saveWav}
        </button>
        <button type="button" onClick={() => on.onRemove(id)}>
          {said.remove}
        </button>
      </p>
    </li>
  );
}
