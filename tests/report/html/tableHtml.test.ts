import { describe, expect, it } from "vitest";
import { tableHtml } from "../../../src/report/html/tableHtml.js";

const column = (heading: string, align: "left" | "right" = "right") => ({ heading, align });
const wide = {
  kind: "table" as const,
  caption: "Every string",
  columns: [
    column("string", "left"),
    column("off cents"),
    column("95 % sure between"),
    column("level dB"),
    column("95 % sure between"),
    column("highest"),
    column("", "left"),
  ],
  rows: [
    [
      "bass <drone>",
      "+2.6",
      "+2.4 to +2.8",
      "-12.5",
      "-13.0 to -12.0",
      "5",
      "tune down, by a long way, slowly",
    ],
  ],
};

describe("tableHtml", () => {
  it("gives each cell of a wide table the heading it stands under, for a phone", () => {
    const html = tableHtml(wide, "Strings");
    expect(html).toContain('<table role="table" class="cards">');
    expect([...html.matchAll(/data-label="([^"]*)"/g)].map(([, label]) => label)).toEqual([
      "string",
      "off cents",
      "95 % sure",
      "level dB",
      "95 % sure",
      "highest",
    ]);
    expect(html).toContain("bass &lt;drone&gt;");
    expect(html).toMatch(/class="whole">tune down/);
  });

  it("tells headings apart that stand twice and not right behind their column", () => {
    const columns = ["string", "pitch", "95 %", "highest", "level", "95 %", "highest"].map((one) =>
      column(one),
    );
    const rows = [["a".repeat(20), ...Array.from({ length: 6 }, () => "12.345")]];
    const html = tableHtml({ ...wide, columns, rows }, "Wheel");
    expect([...html.matchAll(/data-label="([^"]*)"/g)].map(([, label]) => label)).toEqual([
      "string",
      "pitch",
      "95 %",
      "pitch: highest",
      "level",
      "95 %",
      "level: highest",
    ]);
  });

  it("leaves a narrow one as it is, and is a table to all readers in any case", () => {
    const html = tableHtml({ ...wide, columns: wide.columns.slice(0, 2), rows: [["C2", "+2.6"]] }, "Strings");
    expect(html).not.toContain("cards");
    expect(html).not.toContain("data-label");
    for (const role of ["table", "rowgroup", "row", "columnheader", "rowheader", "cell"]) {
      expect(html).toContain(`role="${role}"`);
    }
  });
});
