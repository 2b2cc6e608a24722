import { isScalar, isSeq, Scalar, type YAMLMap } from "yaml";
import { fieldText } from "./fieldText.js";
import { fieldValue } from "./fieldValue.js";
import type { InstrumentKey, StringKey } from "./InstrumentFields.js";
import { knownKeysAt } from "./instrumentSchema.js";
import { joinedComments } from "./joinedComments.js";
import { type OpenInstrument, openInstrument } from "./openInstrument.js";
import { printInstrument } from "./printInstrument.js";
import { removeEntry } from "./removeEntry.js";
import { valueWrittenOver } from "./valueWrittenOver.js";

/** One change of an instrument file. Strings are counted from 0. */
export type InstrumentEdit =
  /** An empty text takes the entry out. */
  | { readonly kind: "set"; readonly key: InstrumentKey; readonly text: string }
  | {
      readonly kind: "set-of-string";
      readonly string: number;
      readonly key: StringKey;
      readonly text: string;
    }
  /** A string at the end of the list, of the role of the one before; it still needs its note. */
  | { readonly kind: "add-string" }
  | { readonly kind: "remove-string"; readonly string: number }
  | { readonly kind: "move-string"; readonly string: number; readonly to: number };

/**
 * Makes one change in the text of an instrument file and leaves the rest as it is: order, quotes and comments. The text need not be a valid
 * instrument file, nor need it become one. Where an entry is taken out, the comments at it stay; with a string go those between its own
 * entries, while what stands before and after it stays. A changed value is written over in place; for other changes the text is laid out
 * anew, by which it may lose blanks and empty lines. A string that is not there changes nothing.
 *
 * @throws AnalysisError `instrument-invalid` for a text that {@link readInstrumentFields} can't read
 *
 * @example
 * ```ts
 * editInstrument("a4Hz: 440 # as the organ\n", { kind: "set", key: "a4Hz", text: "415" }); // "a4Hz: 415 # as the organ\n"
 * ```
 */
export function editInstrument(yamlText: string, edit: InstrumentEdit): string {
  const open = openInstrument(yamlText);
  const { root, strings } = open;
  switch (edit.kind) {
    case "set":
      return set(yamlText, open, root, edit.key, edit.text);
    case "set-of-string": {
      const string = strings.items[edit.string];
      return string === undefined ? yamlText : set(yamlText, open, string, edit.key, edit.text);
    }
    case "add-string":
      addString(open);
      break;
    case "remove-string":
      if (strings.items[edit.string] === undefined) return yamlText;
      removeString(open, edit.string);
      break;
    case "move-string": {
      const { string, to } = edit;
      const moved = strings.items[string];
      if (moved === undefined || strings.items[to] === undefined || to === string) return yamlText;
      strings.items.splice(string, 1);
      strings.items.splice(to, 0, moved);
    }
  }
  return printInstrument(yamlText, open);
}

function set(
  yamlText: string,
  open: OpenInstrument,
  mapping: YAMLMap,
  key: InstrumentKey | StringKey,
  text: string,
): string {
  const before = mapping.get(key, true);
  if (fieldText(before) === text.trim()) return yamlText;
  const value = fieldValue(key, text);
  if (value === null) {
    removeEntry(mapping, key);
    return printInstrument(yamlText, open);
  }
  if (open.isAsWritten && isScalar(before) && !Array.isArray(value)) {
    const written = valueWrittenOver(yamlText, before, value);
    if (written !== null) return written;
  }
  const node = open.document.createNode(value);
  if (isSeq(node)) node.flow = true;
  if (isScalar(before) || isSeq(before)) {
    node.comment = before.comment;
    node.commentBefore = before.commentBefore;
    if (node instanceof Scalar && isScalar(before) && before.type?.startsWith("QUOTE"))
      node.type = before.type;
  }
  insert(open, mapping, key, node);
  return printInstrument(yamlText, open);
}

/** Puts an entry after the nearest of those that the schema has before it. */
function insert({ document, root }: OpenInstrument, mapping: YAMLMap, key: string, value: unknown): void {
  const keys = mapping.items.map((pair) => (isScalar(pair.key) ? String(pair.key.value) : ""));
  const present = mapping.items[keys.indexOf(key)];
  if (present !== undefined) {
    present.value = value;
    return;
  }
  const order = knownKeysAt(mapping === root ? [] : ["strings", 0]);
  const earlier = order.slice(0, order.indexOf(key)).reverse();
  const after = earlier.map((one) => keys.indexOf(one)).find((index) => index >= 0) ?? -1;
  mapping.items.splice(after + 1, 0, document.createPair(key, value));
}

function addString(open: OpenInstrument): void {
  const { document, strings } = open;
  const last = strings.items.at(-1);
  const added = document.createNode({ role: fieldText(last?.get("role", true)) || "drone" }) as YAMLMap;
  added.flow = last?.flow ?? false;
  if (last === undefined) strings.flow = false;
  strings.items.push(added);
  insert(open, open.root, "strings", strings);
}

function removeString({ strings }: OpenInstrument, index: number): void {
  const [removed] = strings.items.splice(index, 1);
  const kept = [removed?.commentBefore, removed?.comment];
  const next = strings.items[index];
  if (next !== undefined) next.commentBefore = joinedComments(...kept, next.commentBefore);
  else strings.comment = joinedComments(...kept, strings.comment);
}
