import { equalGroups, lowEdgeRangeHz, lowRegisterEdgeHz, printable } from "../../src/index.js";
import type { Analyst } from "./Analyst.js";
import { NumberField } from "./NumberField.js";
import { numberText } from "./numbers.js";
import { StringChecks } from "./StringChecks.js";
import { StringSelect } from "./StringSelect.js";
import { useKnownStrings } from "./useKnownStrings.js";
import { words } from "./words.js";
import type { KnownString, MoreTargets, TargetsAsked } from "./worker/Messages.js";

const { choices: said } = words;
/** More equal strings than these have too many orders for a list. */
const MOST_EQUAL = 4;

interface TargetChoicesProps {
  readonly analyst: Analyst;
  readonly targets: TargetsAsked;
  readonly more: MoreTargets;
  readonly onChoose: (more: MoreTargets) => void;
}

/** What few takes need to be told, folded away: capos, which strings sound, the order of equal ones, the stuck one, the low edge. */
export function TargetChoices({ analyst, targets, more, onChoose }: TargetChoicesProps) {
  const strings = useKnownStrings(analyst, targets);
  const change = (next: Partial<MoreTargets>) => onChoose({ ...more, ...next });
  const groups = equalGroups(strings, [])
    .map((group) => group.map((t) => strings[t]!.name))
    .filter(({ length }) => length > 1 && length <= MOST_EQUAL);
  const sentence = shortly(more);
  return (
    <details class="folded">
      <summary>{sentence === "" ? said.title : `${said.title}: ${sentence}`}</summary>
      {strings.length > 0 && (
        <>
          <div class="fields">
            {strings
              .filter(({ capo }) => capo.length > 0)
              .map((string) => (
                <CapoSelect
                  key={string.name}
                  string={string}
                  semitones={more.capo[string.name] ?? 0}
                  onChoose={(semitones) => change({ capo: withCapo(more.capo, string.name, semitones) })}
                />
              ))}
            <StringSelect
              label={said.anchor}
              strings={strings}
              chosen={more.anchor}
              none={said.noAnchor}
              isFree
              onChoose={(name) => change({ anchor: name === "" ? null : name })}
            />
            {groups.map((group) => (
              <OrderSelect key={group.join()} group={group} groups={groups} more={more} onChange={change} />
            ))}
          </div>
          <StringChecks
            legend={said.sounding}
            help={said.soundingHelp}
            strings={strings}
            chosen={more.sounding ?? []}
            onChoose={(names) => change({ sounding: names.length === 0 ? null : names })}
          />
        </>
      )}
      <NumberField
        label={said.lowEdge}
        help={said.lowEdgeHelp(numberText(lowRegisterEdgeHz, 1))}
        range={lowEdgeRangeHz}
        first={more.lowEdgeHz}
        onNumber={(value) => change({ lowEdgeHz: value ?? null })}
      />
    </details>
  );
}

function CapoSelect(props: {
  readonly string: KnownString;
  readonly semitones: number;
  readonly onChoose: (semitones: number) => void;
}) {
  const { string, semitones, onChoose } = props;
  return (
    <label class="field">
      <span>{said.capo(printable(string.name))}</span>
      <select value={semitones} onChange={({ currentTarget }) => onChoose(Number(currentTarget.value))}>
        <option value={0}>{said.noCapo}</option>
        {string.capo.map((one) => (
          <option key={one} value={one}>
            {said.semitones(one)}
          </option>
        ))}
      </select>
    </label>
  );
}

function OrderSelect(props: {
  readonly group: readonly string[];
  readonly groups: readonly (readonly string[])[];
  readonly more: MoreTargets;
  readonly onChange: (next: Partial<MoreTargets>) => void;
}) {
  const { group, groups, more, onChange } = props;
  const orders = permutations(group);
  const now = (one: readonly string[]) => (more.order ?? []).filter((name) => one.includes(name));
  const chosen = orders.findIndex((order) => order.join("\n") === now(group).join("\n"));
  return (
    <label class="field">
      <span>{said.order(group.map(printable).join(", "))}</span>
      <select
        value={chosen}
        onChange={({ currentTarget }) => {
          const next = groups.flatMap((one) =>
            one === group ? (orders[Number(currentTarget.value)] ?? []) : now(one),
          );
          onChange({ order: next.length === 0 ? null : next });
        }}
      >
        <option value={-1}>{said.noOrder}</option>
        {orders.map((order, i) => (
          <option key={order.join("\n")} value={i}>
            {order.map(printable).join(said.inTurn)}
          </option>
        ))}
      </select>
    </label>
  );
}

function permutations(names: readonly string[]): string[][] {
  if (names.length === 0) return [[]];
  return names.flatMap((name) =>
    permutations(names.filter((other) => other !== name)).map((rest) => [name, ...rest]),
  );
}

function withCapo(capo: MoreTargets["capo"], name: string, semitones: number): MoreTargets["capo"] {
  const others = Object.entries(capo).filter(([other]) => other !== name);
  return Object.fromEntries(semitones === 0 ? others : [...others, [name, semitones]]);
}

function shortly({ capo, order, sounding, anchor, lowEdgeHz }: MoreTargets): string {
  const names = (all: readonly string[]) => all.map(printable).join(", ");
  return [
    ...Object.entries(capo).map(([name, semitones]) => `${said.capo(printable(name))}: ${semitones}`),
    ...(anchor === null ? [] : [said.shortAnchor(printable(anchor))]),
    ...(order === null ? [] : [said.shortOrder(names(order))]),
    ...(sounding === null ? [] : [said.shortSounding(names(sounding))]),
    ...(lowEdgeHz === null ? [] : [said.shortLowEdge(numberText(lowEdgeHz, 1))]),
  ].join("; ");
}
