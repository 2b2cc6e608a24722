import { useState } from "preact/hooks";
import { SoundField } from "./SoundField.js";
import type { ChosenSound } from "./useAnalysis.js";
import { words } from "./words.js";
import type { MoreAsked, NamedBody, NamedSound } from "./worker/Messages.js";

const { bodies: said } = words;

interface TapFormProps {
  /** Recordings that are at hand already. */
  readonly sounds: readonly ChosenSound[];
  /** The taps that were read are chosen no longer. */
  readonly onNone: () => void;
  readonly onRun: (sounds: readonly ChosenSound[], ask: (ready: readonly NamedSound[]) => MoreAsked) => void;
}

interface ChosenBodies {
  readonly first: ChosenSound | null;
  readonly other: ChosenSound | null;
  readonly bowed: ChosenSound | null;
}

/** Taps on a body; another one beside it, and the first one bowed, where they are given. What is chosen is read at once. */
export function TapForm({ sounds, onNone, onRun }: TapFormProps) {
  const [chosen, setChosen] = useState<ChosenBodies>({ first: null, other: null, bowed: null });
  const [name, setName] = useState("");
  const [otherName, setOtherName] = useState("");

  function read(next: ChosenBodies): void {
    setChosen(next);
    const { first, other, bowed } = next;
    if (first === null) {
      onNone();
      return;
    }
    onRun(
      [first, ...(other === null ? [] : [other]), ...(bowed === null ? [] : [bowed])],
      ([firstSound, ...rest]) => ({
        what: "tap",
        first: bodyOf(firstSound!, name),
        other: other === null ? null : bodyOf(rest.shift()!, otherName),
        bowed: bowed === null ? null : rest.shift()!,
      }),
    );
  }

  const nameField = (label: string, value: string, onName: (name: string) => void) => (
    <label class="field">
      <span>{label}</span>
      <input
        autocomplete="off"
        maxLength={60}
        value={value}
        onInput={({ currentTarget }) => onName(currentTarget.value)}
      />
      <small>{said.nameHelp}</small>
    </label>
  );
  return (
    <>
      <div class="sides">
        <section>
          {nameField(said.name, name, setName)}
          <SoundField
            choose={said.choose}
            sounds={sounds}
            chosen={chosen.first}
            onChoose={(first) => read({ ...chosen, first })}
          />
        </section>
        <section>
          {nameField(said.otherName, otherName, setOtherName)}
          <SoundField
            choose={said.chooseOther}
            sounds={sounds}
            chosen={chosen.other}
            onChoose={(other) => read({ ...chosen, other })}
          />
        </section>
        <section>
          <p>{said.bowedLead}</p>
          <SoundField
            choose={said.chooseBowed}
            sounds={sounds}
            chosen={chosen.bowed}
            onChoose={(bowed) => read({ ...chosen, bowed })}
          />
        </section>
      </div>
      {chosen.first === null && (chosen.other !== null || chosen.bowed !== null) && (
        <p class="faint">{said.needFirst}</p>
      )}
      {chosen.first !== null && (
        <p class="actions">
          <button type="button" onClick={() => read(chosen)}>
            {words.again}
          </button>
        </p>
      )}
    </>
  );
}

function bodyOf(sound: NamedSound, name: string): NamedBody {
  return { sound, name: name.trim() === "" ? null : name.trim() };
}
