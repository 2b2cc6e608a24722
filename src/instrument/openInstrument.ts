import { type Document, isMap, isScalar, isSeq, type Scalar, visit, YAMLMap, YAMLSeq } from "yaml";
import { checkInstrument } from "./checkInstrument.js";
import { InstrumentYaml } from "./InstrumentYaml.js";

/** An instrument file as a form sees it. */
export interface OpenInstrument {
  readonly document: Document;
  readonly root: YAMLMap;
  /** A list of mappings; not yet in the document where the text has none. */
  readonly strings: YAMLSeq<YAMLMap>;
  /** Whether places in the text are still those of the document. */
  readonly isAsWritten: boolean;
}

/**
 * Opens an instrument file whose entries may be wrong, but which has the shape of one: a mapping, in it perhaps a list of mappings.
 * What is empty counts as empty mapping or list. Aliases become copies of what they stand for, so that a string can be changed by itself.
 *
 * @throws AnalysisError `instrument-invalid` with the first problem of any other text
 */
export function openInstrument(yamlText: string): OpenInstrument {
  const yaml = new InstrumentYaml(yamlText);
  const { document } = yaml;
  const isAsWritten = !writeAliasesOut(document);
  const refuse = () => checkInstrument(yaml).problems[0] ?? yaml.errorAt(0, "", "not an instrument file");

  if (isEmpty(document.contents)) document.contents = new YAMLMap();
  const root = document.contents;
  if (!isMap(root)) throw refuse();
  const given = root.get("strings", true);
  const strings = isEmpty(given) ? new YAMLSeq<YAMLMap>() : given;
  if (!isSeq(strings)) throw refuse();
  for (const [index, item] of strings.items.entries()) {
    if (isEmpty(item)) strings.items[index] = new YAMLMap();
    else if (!isMap(item)) throw refuse();
  }
  return { document, root, strings: strings as YAMLSeq<YAMLMap>, isAsWritten };
}

function isEmpty(node: unknown): boolean {
  return node === null || node === undefined || (isScalar(node) && node.value === null);
}

/** Writes aliases out, and forgets anchors, which are of no use then. @returns whether there were aliases */
function writeAliasesOut(document: Document): boolean {
  let found = false;
  visit(document, {
    Alias: (_key, alias) => {
      found = true;
      return alias.resolve(document)?.clone() as YAMLMap | undefined;
    },
  });
  const forgetAnchor = (_key: unknown, node: Scalar | YAMLMap | YAMLSeq) => {
    delete node.anchor;
  };
  visit(document, { Scalar: forgetAnchor, Map: forgetAnchor, Seq: forgetAnchor });
  return found;
}
