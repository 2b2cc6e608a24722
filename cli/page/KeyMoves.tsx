import { type KeyboardDocument, printable } from "../../src/index.js";
import { Answer } from "./Answer.js";
import { type Column, DataTable } from "./DataTable.js";
import { numberText, signedText } from "./numbers.js";
import { words } from "./words.js";

const { keyboard: said } = words;
type Scale = NonNullable<KeyboardDocument["other"]>;

/** What to do, and the move of every tangent, in type to be read from where both hands work. */
export function KeyMoves({ document }: { readonly document: KeyboardDocument }) {
  const { keys, inShort, other } = document;
  if (keys.length === 0) return <p>{said.noKeys}</p>;
  return (
    <>
      <Answer sentences={inShort} />
      {other === null ? (
        <MovesTable scale={document} caption={said.table} />
      ) : (
        [document, other].map((scale) => (
          <MovesTable key={scale.string} scale={scale} caption={said.tableOf(printable(scale.string))} />
        ))
      )}
    </>
  );
}

function MovesTable({ scale, caption }: { readonly scale: Scale; readonly caption: string }) {
  const hasMm = scale.lengthMm !== null;
  const hasShift = scale.pattern.constantCents !== null || scale.pattern.bridgeCents !== null;
  const heads = said.columns;
  const columns: Column[] = [
    { heading: heads.key, align: "left" },
    { heading: heads.off, align: "right" },
    ...(hasMm ? [{ heading: heads.move, align: "right" as const }] : []),
    ...(hasMm && hasShift ? [{ heading: heads.afterShift, align: "right" as const }] : []),
  ];
  const rows = scale.keys.map((key) => ({
    key: String(key.key),
    cells: [
      said.key(key.key, key.note),
      signedText(key.deviationCents, 1),
      ...(hasMm ? [moveText(key.tangentMoveMm, key.towards)] : []),
      ...(hasMm && hasShift ? [moveText(key.tangentMoveAfterShiftMm, key.towardsAfterShift)] : []),
    ],
  }));
  return <DataTable isLarge caption={caption} columns={columns} rows={rows} />;
}

/** What rounds to nothing is no move. */
function moveText(moveMm: number | null, towards: "nut" | "bridge" | null): string {
  const size = numberText(moveMm, 1);
  if (moveMm === null || towards === null) return size;
  return Number(moveMm.toFixed(1)) === 0 ? said.stays : said.move(size, said.towards[towards]);
}
