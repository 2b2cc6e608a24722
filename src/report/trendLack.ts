import type { HistoryDocument } from "../history/historyDocumentSchema.js";

type TrendDocument = HistoryDocument["instruments"][number]["common"]["perDay"];

/** Why a trend can't be given. */
export function trendLack({ lacking, takeCount }: TrendDocument): string {
  switch (lacking) {
    case "no-range":
      return "all takes were made at one time, or in the same weather";
    case "no-scatter":
      return "the readings lie on a line exactly, as readings never do";
    case "too-few-strings":
      return "no take heard enough strings together";
    default:
      return `${takeCount} ${takeCount === 1 ? "take is" : "takes are"} too few`;
  }
}

/** Why some trends of a table are not given; nothing where all are. */
export function trendLackNotes(trends: readonly TrendDocument[]): string[] {
  const reasons = new Set(trends.filter(({ slope }) => slope === null).map(trendLack));
  if (reasons.size === 0) return [];
  return [
    `A dash: ${[...reasons].join("; ")}. A drift needs four takes, weather five; each work in between asks for one or two more, since the line starts anew after it.`,
  ];
}
