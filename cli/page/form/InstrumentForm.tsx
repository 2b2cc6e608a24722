import { useLayoutEffect, useRef, useState } from "preact/hooks";
import {
  editInstrument,
  type InstrumentEdit,
  type InstrumentFields,
  type InstrumentKey,
  type instrumentProblems,
} from "../../../src/index.js";
import { words } from "../words.js";
import { FormField } from "./FormField.js";
import { FormSelect } from "./FormSelect.js";
import { faultsOf } from "./faultsOf.js";
import { StringCard, stringTitle } from "./StringCard.js";

const { form: said } = words;

interface InstrumentFormProps {
  /** The instrument file, which the form reads and writes. */
  readonly yaml: string;
  /** What it says, and what is wrong with it. */
  readonly fields: InstrumentFields;
  readonly problems: ReturnType<typeof instrumentProblems>;
  /** What is chosen over the instrument, and wins; null where nothing is. */
  readonly chosen: { readonly a4Hz: number | null; readonly tonic: string | null };
  readonly onYaml: (yaml: string) => void;
}

/** Where the keyboard is to go on once the form has changed. */
interface NextFocus {
  readonly string: number;
  readonly part: "note" | "up" | "down" | "back";
}

/** The instrument as fields to be filled in. All it knows stands in the text: each field reads it there and writes it there. */
export function InstrumentForm({ yaml, fields, problems, chosen, onYaml }: InstrumentFormProps) {
  const list = useRef<HTMLOListElement>(null);
  const nextFocus = useRef<NextFocus | null>(null);
  const [removed, setRemoved] = useState<{ at: number; title: string; before: string; after: string } | null>(
    null,
  );
  const [told, setTold] = useState("");
  // Before the next key is heard, which is meant for where the keyboard then is.
  useLayoutEffect(() => {
    if (nextFocus.current === null) return;
    const { string, part } = nextFocus.current;
    nextFocus.current = null;
    list.current
      ?.querySelector<HTMLElement>(`[data-string="${string}"] [data-part="${part}"]:not(:disabled)`)
      ?.focus();
  });

  const { strings } = fields;
  const ownKeys = (Object.keys(fields) as (keyof InstrumentFields)[]).filter((key) => key !== "strings");
  const shown = new Set([
    ...ownKeys,
    ...strings.flatMap((string, i) => [
      `strings[${i}]`,
      ...Object.keys(string).map((key) => `strings[${i}].${key}`),
    ]),
  ]);
  const faults = faultsOf(problems, shown);
  const change = (edit: InstrumentEdit, focus: NextFocus | null = null) => {
    nextFocus.current = focus;
    const after = editInstrument(yaml, edit);
    onYaml(after);
    return after;
  };
  const field = (key: InstrumentKey) => ({
    label: said.fields[key === "name" ? "instrumentName" : key],
    value: fields[key],
    fault: faults.at(key),
    onText: (text: string) => change({ kind: "set", key, text }),
  });

  function move(string: number, to: number): void {
    const last = strings.length - 1;
    const part = to === 0 ? "down" : to === last ? "up" : to < string ? "up" : "down";
    change({ kind: "move-string", string, to }, { string: to, part });
    setTold(said.moved(to + 1, strings.length));
  }

  function remove(string: number): void {
    const title = stringTitle(string, strings[string]!);
    const after = change({ kind: "remove-string", string }, { string: -1, part: "back" });
    setRemoved({ at: string, title, before: yaml, after });
    setTold("");
  }

  const back = removed !== null && removed.after === yaml && (
    <li key="back" class="actions" data-string="-1">
      <span>{said.removed(removed.title)}</span>
      <button
        type="button"
        data-part="back"
        onClick={() => {
          nextFocus.current = { string: removed.at, part: "note" };
          onYaml(removed.before);
        }}
      >
        {said.putBack}
      </button>
    </li>
  );
  return (
    <div class="instrument">
      {faults.elsewhere(null).map((fault) => (
        <p key={fault} class="fault">
          {fault}
        </p>
      ))}
      <div class="fields">
        <FormField {...field("name")} />
        <FormField
          {...field("a4Hz")}
          example="440"
          isNumber
          hint={chosen.a4Hz === null ? undefined : said.wins(String(chosen.a4Hz))}
        />
        <FormSelect {...field("temperament")} options={Object.entries(said.temperaments)} />
        <FormSelect
          {...field("tonic")}
          options={said.tonics}
          hint={chosen.tonic === null ? undefined : said.wins(chosen.tonic)}
        />
        {(fields.tonic !== "" || fields.drones !== "") && (
          <FormSelect {...field("drones")} options={Object.entries(said.drones)} />
        )}
      </div>
      <p class="faint">{said.stringsHelp}</p>
      <ol class="plain" ref={list}>
        {strings.map((string, index) => [
          removed?.at === index && back,
          <li key={index} data-string={index}>
            <StringCard
              index={index}
              count={strings.length}
              string={string}
              faults={faults}
              onSet={(key, text) => change({ kind: "set-of-string", string: index, key, text })}
              onMove={(to) => move(index, to)}
              onRemove={() => remove(index)}
            />
          </li>,
        ])}
        {removed !== null && removed.at >= strings.length && back}
      </ol>
      <p class="actions">
        <button
          type="button"
          onClick={() => change({ kind: "add-string" }, { string: strings.length, part: "note" })}
        >
          {said.add}
        </button>
        <span role="status" class="faint">
          {told}
        </span>
      </p>
    </div>
  );
}
