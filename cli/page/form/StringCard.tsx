import { useState } from "preact/hooks";
import { printable, type StringFields, type StringKey, stringMaterials } from "../../../src/index.js";
import { words } from "../words.js";
import { FormField } from "./FormField.js";
import { FormSelect } from "./FormSelect.js";
import type { Faults } from "./faultsOf.js";

const { form: said } = words;

/** Entries that are asked for seldom, behind a lid. */
const seldom = [
  "offsetCents",
  "capo",
  "frequencyHz",
  "linearDensityGramsPerMetre",
  "massGrams",
  "cutLengthMm",
  "diameterMm",
  "material",
] as const satisfies readonly StringKey[];

interface StringCardProps {
  /** From 0. */
  readonly index: number;
  readonly count: number;
  readonly string: StringFields;
  readonly faults: Faults;
  readonly onSet: (key: StringKey, text: string) => void;
  readonly onMove: (to: number) => void;
  readonly onRemove: () => void;
}

/** What a string is called in the form. */
export function stringTitle(index: number, { name, note, frequencyHz }: StringFields): string {
  return said.string(index + 1, printable(name || note || (frequencyHz && `${frequencyHz} Hz`)));
}

/** One string of the instrument, to be filled in. */
export function StringCard({ index, count, string, faults, onSet, onMove, onRemove }: StringCardProps) {
  const [isOpen, setIsOpen] = useState(false);
  const at = `strings[${index}]`;
  const title = stringTitle(index, string);
  const field = (key: StringKey) => ({
    label: said.fields[key],
    value: string[key],
    fault: faults.at(`${at}.${key}`),
    onText: (text: string) => onSet(key, text),
  });
  const note = field("note");
  const hasFault = seldom.some((key) => faults.at(`${at}.${key}`) !== null);
  return (
    <fieldset>
      <legend>{title}</legend>
      {faults.elsewhere(index).map((fault) => (
        <p key={fault} class="fault">
          {fault}
        </p>
      ))}
      <div class="fields">
        <FormSelect {...field("role")} options={Object.entries(said.roles)} />
        {/* What the string lacks as a whole is its note. */}
        <FormField {...note} fault={note.fault ?? faults.at(at)} example="G4" part="note" />
        <FormField {...field("lengthMm")} isNumber />
        {(string.role === "melody" || string.keys !== "") && <FormField {...field("keys")} isNumber />}
        <FormField {...field("name")} example={string.note === "" ? undefined : printable(string.note)} />
      </div>
      <details open={isOpen || hasFault} onToggle={({ currentTarget }) => setIsOpen(currentTarget.open)}>
        <summary>{said.more}</summary>
        <div class="fields">
          {seldom.map((key) => (
            <FormField
              key={key}
              {...field(key)}
              isNumber={key !== "material" && key !== "capo"}
              hint={said.hints[key]}
              {...(key === "material" && { offers: stringMaterials.map(({ name }) => name) })}
            />
          ))}
        </div>
      </details>
      <p class="actions">
        <button
          type="button"
          data-part="up"
          aria-label={said.of(said.up, title)}
          disabled={index === 0}
          onClick={() => onMove(index - 1)}
        >
          {said.up}
        </button>
        <button
          type="button"
          data-part="down"
          aria-label={said.of(said.down, title)}
          disabled={index === count - 1}
          onClick={() => onMove(index + 1)}
        >
          {said.down}
        </button>
        <button type="button" aria-label={said.of(said.remove, title)} onClick={onRemove}>
          {said.remove}
        </button>
      </p>
    </fieldset>
  );
}
