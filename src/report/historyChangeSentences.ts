import type { HistoryDocument } from "../history/historyDocumentSchema.js";
import { namesText, sizeText, spanText, takenText } from "./historyWords.js";
import { printable } from "./printable.js";
import { signed } from "./signed.js";

type InstrumentDocument = Pick<HistoryDocument["instruments"][number], "takes" | "strings">;
type Change = NonNullable<InstrumentDocument["strings"][number]["takes"][number]["change"]>;

interface LastChange {
  readonly name: string;
  readonly take: number;
  readonly change: Change;
}

/** What became of each string up to its last take, from the last one of an earlier day; strings of one kind in one sentence. */
export function historyChangeSentences({ takes, strings }: InstrumentDocument): string[] {
  const last = strings.flatMap(({ name, latest }): LastChange[] =>
    latest === null ? [] : [{ name, ...latest }],
  );
  const groups = new Map<string, LastChange[]>();
  for (const one of last) {
    const { fromTake, verdict, cents } = one.change;
    const isTold = verdict === "with-others" || verdict === "stood" || verdict === "unsure";
    const kind = isTold ? `${verdict} ${verdict === "with-others" && cents > 0}` : one.name;
    const key = JSON.stringify([one.take, fromTake, kind]);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].map((group) => {
    const { take, change } = group[0]!;
    const works = [
      ...new Set(
        takes
          .slice(change.fromTake + 1, take + 1)
          .flatMap(({ work }) => (work === null ? [] : [printable(work)])),
      ),
    ];
    const isOld = take < takes.length - 1 ? ` (last heard ${takenText(takes[take]!)})` : "";
    const moved = change.verdict !== "stood" && change.verdict !== "unsure";
    const also =
      works.length > 0 && moved
        ? ` Work was done in between (${works.join("; ")}), so it may be that as well.`
        : "";
    return `${sentenceOf(group)}${isOld === "" ? "" : isOld}.${also}`;
  });
}

function sentenceOf(group: readonly LastChange[]): string {
  const [{ name, change }] = group as [LastChange, ...LastChange[]];
  const { cents, interval95Cents, othersCents, ownCents, ownInterval95Cents } = change;
  const names = namesText(group.map((one) => one.name));
  const span = spanText(change.days);
  const moved = `${printable(name)} ${wayOf(cents)} ${sizeText(cents, interval95Cents)} cents ${span}`;
  const others = othersCents === null ? "" : `${wayOf(othersCents)} ${sizeText(othersCents, null)}`;
  switch (change.verdict) {
    case "stood":
      return `${names} stood: a cent at the most ${span}, or no more than the readings leave open`;
    case "apart":
      return `${printable(name)} stood (${signed(cents, 1)} cents ${span}) while the other strings ${others}`;
    case "with-others": {
      if (group.length === 1)
        return `${moved}; the other strings ${others} with it, so it is the instrument or the weather, not this peg`;
      const sizes = group.map((one) => Math.abs(one.change.cents));
      return (
        `${names} ${wayOf(cents)} together, by ${Math.min(...sizes).toFixed(1)} to ${Math.max(...sizes).toFixed(1)} cents ${span}, ` +
        "so it is the instrument or the weather, not their pegs"
      );
    }
    case "alone":
      return `${moved} while the other strings stood (${signed(othersCents ?? 0, 1)}): look at this string and its peg`;
    case "both":
      return (
        `${moved}; the other strings ${others}, so ${signed(ownCents ?? 0, 1)} ± ` +
        `${sizeText(0, ownInterval95Cents).split("± ")[1]} are its own: look at this string and its peg`
      );
    case "unclear":
      return othersCents === null
        ? `${moved}; whether it is this peg can't be told, since fewer than two other strings were heard in both takes`
        : `${moved}; whether it is this peg or all strings (${signed(othersCents, 1)}) can't be told`;
    case "unsure":
      return `${names}: no range can be given for the change ${span}, so nothing is said of it`;
  }
}

function wayOf(cents: number): string {
  return cents < 0 ? "fell" : "rose";
}
