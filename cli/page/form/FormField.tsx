import { useId, useState } from "preact/hooks";

interface FormFieldProps {
  readonly label: string;
  /** The text as the file has it. */
  readonly value: string;
  /** What is wrong with it; null where nothing is. */
  readonly fault: string | null;
  /** Said while nothing is wrong. */
  readonly hint?: string | undefined;
  readonly example?: string;
  readonly isNumber?: boolean;
  /** Texts to choose from, beside any other. */
  readonly offers?: readonly string[];
  /** By which it is found again, once the form has changed. */
  readonly part?: string;
  readonly onText: (text: string) => void;
}

/** An entry of the instrument that is typed. While it is typed it stays as it is typed: `345,` becomes a number once it is left. */
export function FormField({ label, value, fault, hint, example, offers, onText, ...field }: FormFieldProps) {
  const id = useId();
  const [draft, setDraft] = useState<string | null>(null);
  const said = fault ?? hint;
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        autocomplete="off"
        autocapitalize="none"
        spellcheck={false}
        inputMode={field.isNumber ? "decimal" : "text"}
        placeholder={example}
        list={offers && `${id}o`}
        value={draft ?? value}
        data-part={field.part}
        aria-invalid={fault !== null}
        aria-describedby={said === undefined ? undefined : `${id}s`}
        onInput={({ currentTarget }) => {
          setDraft(currentTarget.value);
          onText(currentTarget.value);
        }}
        onBlur={() => setDraft(null)}
      />
      {offers && (
        <datalist id={`${id}o`}>
          {offers.map((offer) => (
            <option key={offer} value={offer} />
          ))}
        </datalist>
      )}
      {said !== undefined && (
        <small id={`${id}s`} class={fault === null ? undefined : "fault"}>
          {said}
        </small>
      )}
    </div>
  );
}
