import { useId, useMemo } from "preact/hooks";
import {
  AnalysisError,
  errorSentence,
  type InstrumentFields,
  instrumentProblems,
  readInstrumentFields,
} from "../../../src/index.js";
import { words } from "../words.js";
import { InstrumentForm } from "./InstrumentForm.js";

const { form: said, instrument } = words;

interface OwnInstrumentProps {
  readonly yaml: string;
  readonly chosen: { readonly a4Hz: number | null; readonly tonic: string | null };
  readonly isOpen: boolean;
  readonly onOpen: (isOpen: boolean) => void;
  readonly onYaml: (yaml: string) => void;
}

/** The maker's own instrument, as a form and as a text. Either shows at once what was changed in the other. */
export function OwnInstrument({ yaml, chosen, isOpen, onOpen, onYaml }: OwnInstrumentProps) {
  const id = useId();
  const problems = useMemo(() => (isOpen ? instrumentProblems(yaml) : []), [isOpen, yaml]);
  const fields = useMemo(() => (isOpen ? fieldsOf(yaml) : null), [isOpen, yaml]);
  const [first] = problems;
  return (
    <details class="own" open={isOpen} onToggle={({ currentTarget }) => onOpen(currentTarget.open)}>
      <summary>{said.title}</summary>
      <h3>{said.asForm}</h3>
      {fields !== null && (
        <InstrumentForm yaml={yaml} fields={fields} problems={problems} chosen={chosen} onYaml={onYaml} />
      )}
      {isOpen && fields === null && <p class="finding problem">{said.unreadable}</p>}
      <h3>{said.asText}</h3>
      <div class="field">
        <label for={id}>{instrument.yaml}</label>
        <textarea
          id={id}
          rows={12}
          spellcheck={false}
          value={yaml}
          aria-invalid={first !== undefined}
          aria-describedby={`${id}y`}
          onInput={({ currentTarget }) => onYaml(currentTarget.value)}
        />
        <small id={`${id}y`} class={first === undefined ? undefined : "fault"}>
          {first === undefined ? instrument.yamlHelp : errorSentence(first, said.theText)}
        </small>
      </div>
    </details>
  );
}

/** Null where the text is none that a form can show. */
function fieldsOf(yaml: string): InstrumentFields | null {
  try {
    return readInstrumentFields(yaml);
  } catch (error) {
    if (error instanceof AnalysisError) return null;
    throw error;
  }
}
