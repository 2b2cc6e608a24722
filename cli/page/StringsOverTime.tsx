import { printable } from "../../src/index.js";
import { DataTable } from "./DataTable.js";
import type { KeptReading } from "./keep/Kept.js";
import { dateText, signedText } from "./numbers.js";
import { words } from "./words.js";

const { keep: said } = words;

/** How far each string was off its target from reading to reading, a table for each instrument that was read twice or more. */
export function StringsOverTime({ readings }: { readonly readings: readonly KeptReading[] }) {
  const instruments = new Map<string, KeptReading[]>();
  for (const one of readings) {
    const name = one.document.instrument;
    if (name !== null) instruments.set(name, [...(instruments.get(name) ?? []), one]);
  }
  const repeated = [...instruments].filter(([, list]) => list.length > 1);
  if (repeated.length === 0) return null;
  return (
    <section>
      <h2>{said.history}</h2>
      {repeated.map(([name, list]) => (
        <InstrumentTable key={name} name={name} readings={list} />
      ))}
    </section>
  );
}

function InstrumentTable({
  name,
  readings,
}: {
  readonly name: string;
  readonly readings: readonly KeptReading[];
}) {
  const strings = [
    ...new Set(readings.flatMap(({ document }) => document.takes[0]!.strings.map((string) => string.name))),
  ];
  const offOf = ({ document }: KeptReading, string: string) =>
    document.takes[0]!.strings.find((one) => one.name === string)?.deviationCents ?? null;
  return (
    <DataTable
      caption={said.historyCaption(printable(name))}
      columns={[
        { heading: said.date, align: "left" },
        ...strings.map((string) => ({ heading: printable(string), align: "right" as const })),
      ]}
      rows={readings.map((reading) => ({
        key: reading.id,
        cells: [dateText(reading.keptAt), ...strings.map((string) => signedText(offOf(reading, string), 1))],
      }))}
    />
  );
}
