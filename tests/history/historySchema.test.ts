import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { documentJsonSchema } from "../../fixtures/documentJsonSchema.js";
import { historyDocumentSchema } from "../../src/history/historyDocumentSchema.js";
import { logLineSchema } from "../../src/history/logLineSchema.js";

it.each([
  ["historyDocument", historyDocumentSchema],
  ["logLine", logLineSchema],
] as const)(
  "%s.schema.json is in step with the schema in the source (npx tsx fixtures/writeSchema.ts)",
  (name, schema) => {
    const file = new URL(`../../src/history/${name}.schema.json`, import.meta.url);
    expect(readFileSync(file, "utf8")).toBe(documentJsonSchema(schema));
  },
);
