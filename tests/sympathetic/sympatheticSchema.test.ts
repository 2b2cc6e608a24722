import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { documentJsonSchema } from "../../fixtures/documentJsonSchema.js";
import { sympatheticDocumentSchema } from "../../src/sympathetic/sympatheticDocumentSchema.js";

it("the JSON Schema file is in step with the schema in the source (npx tsx fixtures/writeSchema.ts)", () => {
  const file = new URL("../../src/sympathetic/sympatheticDocument.schema.json", import.meta.url);
  expect(readFileSync(file, "utf8")).toBe(documentJsonSchema(sympatheticDocumentSchema));
});
