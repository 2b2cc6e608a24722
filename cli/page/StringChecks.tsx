import { printable } from "../../src/index.js";

interface StringChecksProps {
  readonly legend: string;
  readonly help?: string;
  readonly strings: readonly { readonly name: string }[];
  readonly chosen: readonly string[];
  readonly onChoose: (names: readonly string[]) => void;
}

/** A choice of some strings by their names, in the order of the instrument. */
export function StringChecks({ legend, help = "", strings, chosen, onChoose }: StringChecksProps) {
  return (
    <fieldset>
      <legend>{legend}</legend>
      {help !== "" && <small>{help}</small>}
      <div class="checks">
        {strings.map(({ name }) => (
          <label key={name} class="check">
            <input
              type="checkbox"
              checked={chosen.includes(name)}
              onChange={({ currentTarget: { checked } }) =>
                onChoose(
                  strings
                    .map((one) => one.name)
                    .filter((one) => (one === name ? checked : chosen.includes(one))),
                )
              }
            />
            <span>{printable(name)}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
