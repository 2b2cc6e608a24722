import type { KeyboardDocument } from "../keyboard/keyboardDocumentSchema.js";
import { intervalText } from "./intervalText.js";
import { signed } from "./signed.js";
import { type TableData, textTable } from "./textTable.js";

type ScaleDocument = NonNullable<KeyboardDocument["other"]>;
type KeyDocument = KeyboardDocument["keys"][number];

/** Every key: what was heard, how far off it is, and the move of its tangent. */
export function keyLines(scale: ScaleDocument, width: number): string[] {
  if (scale.keys.length === 0) return [];
  const { columns, rows } = keyTableData(scale);
  return textTable(columns, rows, width - 2).map((line) => `  ${line}`);
}

/** What stands in the table. */
export function keyTableData(scale: ScaleDocument): TableData {
  const hasMm = scale.lengthMm !== null;
  const hasShift = scale.pattern.constantCents !== null || scale.pattern.bridgeCents !== null;
  const hasRemarks = scale.keys.some(({ harsh, unsteady }) => harsh || unsteady);
  const columns = [
    { heading: ["key"], align: "right" as const },
    { heading: ["note"], align: "left" as const },
    { heading: ["heard", "Hz"], align: "right" as const },
    { heading: ["off", "cents"], align: "right" as const },
    { heading: ["95 % sure", "between"], align: "right" as const },
    ...(hasMm
      ? [{ heading: hasShift ? ["move, as", "it is, mm"] : ["move", "mm"], align: "right" as const }]
      : []),
    ...(hasMm ? [{ heading: ["towards"], align: "left" as const }] : []),
    ...(hasShift ? [{ heading: ["left after", "the shift"], align: "right" as const }] : []),
    ...(hasShift && hasMm ? [{ heading: ["towards"], align: "left" as const }] : []),
    ...(hasRemarks ? [{ heading: [""], align: "left" as const }] : []),
  ];
  const rows = scale.keys.map((key) => [
    String(key.key),
    key.note,
    key.frequencyHz.toFixed(2),
    signed(key.deviationCents, 1),
    intervalText(key.interval95Cents, 1),
    ...(hasMm ? [(key.tangentMoveMm ?? 0).toFixed(1), wayOf(key.tangentMoveMm, key.towards)] : []),
    ...(hasShift
      ? [
          hasMm ? `${(key.tangentMoveAfterShiftMm ?? 0).toFixed(1)} mm` : signed(key.leftCents, 1),
          ...(hasMm ? [wayOf(key.tangentMoveAfterShiftMm, key.towardsAfterShift)] : []),
        ]
      : []),
    ...(hasRemarks ? [remark(key)] : []),
  ]);
  return { columns, rows };
}

function wayOf(moveMm: number | null, towards: KeyDocument["towards"]): string {
  return moveMm !== null && moveMm < 0.05 ? "-" : (towards ?? "-");
}

function remark({ harsh, unsteady }: KeyDocument): string {
  return [harsh ? "harsh" : "", unsteady ? "unsteady" : ""].filter((word) => word !== "").join(", ");
}
