import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { documentJsonSchema } from "../../fixtures/documentJsonSchema.js";
import { trompetteDocumentSchema } from "../../src/trompette/trompetteDocumentSchema.js";

it("the JSON Schema file is in step with the schema in the source (npx tsx fixtures/writeSchema.ts)", () => {
  const file = new URL("../../src/trompette/trompetteDocument.schema.json", import.meta.url);
  expect(readFileSync(file, "utf8")).toBe(documentJsonSchema(trompetteDocumentSchema));
});
