import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { csvText } from "../../src/report/csv/csvText.js";
import { parseCsv } from "./parseCsv.js";

const BYTE_ORDER_MARK = "\uFEFF";
const cell = fc.oneof(
  fc.string(),
  fc.string({ unit: fc.constantFrom("=", "+", "-", "@", '"', ",", "\r", "\n", "\t", " ", "a", "|") }),
  fc.double(),
  fc.constant(null),
);

describe("csvText", () => {
  it("comes back by RFC 4180 as it was, but for the apostrophe before what a spreadsheet would run", () => {
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 1 }), { minLength: 1 }), (rows) => {
        const text = csvText(rows);
        expect(text.startsWith(BYTE_ORDER_MARK)).toBe(true);
        const back = parseCsv(text.slice(1));
        expect(back.map(({ length }) => length)).toEqual(rows.map(({ length }) => length));
        for (const [r, row] of rows.entries()) {
          for (const [c, value] of row.entries()) {
            const read = back[r]![c]!;
            if (typeof value === "string") {
              expect([value, `'${value}`]).toContain(read);
              // OWASP, "CSV Injection": a cell may not begin with one of these, also after blanks.
              expect(read).not.toMatch(/^\s*[=+\-@]/);
              expect(read).not.toMatch(/^[\t\r\n]/);
            } else if (value === null || !Number.isFinite(value)) expect(read).toBe("");
            else expect(Number(read)).toBe(value === 0 ? 0 : value);
          }
        }
      }),
    );
  });

  it("keeps numbers as numbers, also negative ones, and leaves harmless texts alone", () => {
    expect(csvText([["C2", -4.5, null, "a, b", 'say "A"']])).toBe(
      `${BYTE_ORDER_MARK}C2,-4.5,,"a, b","say ""A"""\r\n`,
    );
    expect(csvText([["=1+1", "-C2", "@x", "+49", " =1"]])).toBe(
      `${BYTE_ORDER_MARK}'=1+1,'-C2,'@x,'+49,' =1\r\n`,
    );
  });
});
