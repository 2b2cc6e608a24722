import {
  type Document,
  isAlias,
  isMap,
  isNode,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  parseDocument,
  visit,
  type YAMLError,
} from "yaml";
import { AnalysisError } from "../errors.js";
import { deepNestingOffset } from "./deepNestingOffset.js";

/** 32 strings with every entry and a comment each come to a tenth of this. */
const maximumCharacters = 64 * 1024;
/** A real file nests 5 deep. */
const maximumDepth = 16;
const maximumAliases = 100;
const NO_TAGS = "tags (!) are not used here";

/** A YAML text that was read, with the place of everything in it. */
export class InstrumentYaml {
  /** Plain objects, lists, texts and numbers. */
  readonly value: unknown;
  /** The same with its comments and styles, for those who change the text. */
  readonly document: Document;
  private readonly lines = new LineCounter();

  /**
   * @throws AnalysisError `instrument-invalid` for a text that is too long, not valid YAML, nested too deep,
   * or uses aliases beyond measure, tags or several documents
   */
  constructor(text: string) {
    if (text.length > maximumCharacters) {
      throw invalid(1, 1, "", `file of ${text.length} characters, at most ${maximumCharacters} are read`);
    }
    const deepOffset = deepNestingOffset(text, maximumDepth, this.lines);
    if (deepOffset !== null) throw this.errorAt(deepOffset, "", `nested more than ${maximumDepth} deep`);
    this.document = parseDocument(text, {
      prettyErrors: false,
      schema: "core",
      merge: false,
      resolveKnownTags: false,
      stringKeys: true,
    });
    // A warning is an unknown tag: what it asks for would be silently left undone.
    const problems = [...this.document.errors, ...this.document.warnings];
    const first = problems.sort((a, b) => a.pos[0] - b.pos[0])[0];
    if (first) throw this.errorAt(first.pos[0], "", syntaxProblem(first, text));
    this.refuseTags();
    this.value = this.resolved();
  }

  /** The place of a value, or of the nearest enclosing one that is there. */
  offsetOf(path: readonly PropertyKey[]): number {
    let node: Node | null = this.document.contents;
    let offset = node?.range?.[0] ?? 0;
    for (const step of path) {
      node = childOf(this.target(node), step);
      if (node === null) break;
      offset = node.range?.[0] ?? offset;
    }
    return offset;
  }

  /** The place of a key of the mapping at `path`. */
  offsetOfKey(path: readonly PropertyKey[], key: string): number {
    let node: Node | null = this.document.contents;
    for (const step of path) node = childOf(this.target(node), step);
    const mapping = this.target(node);
    if (isMap(mapping)) {
      for (const { key: keyNode } of mapping.items) {
        if (isScalar(keyNode) && String(keyNode.value) === key && keyNode.range) return keyNode.range[0];
      }
    }
    return this.offsetOf(path);
  }

  /** The error for a problem found at a character offset. */
  errorAt(offset: number, path: string, problem: string): AnalysisError<"instrument-invalid"> {
    const { line, col } = this.lines.linePos(offset);
    return invalid(Math.max(line, 1), Math.max(col, 1), path, problem);
  }

  /** A tag on an empty text is no error to the parser, but can't be read again once it is written. */
  private refuseTags(): void {
    visit(this.document, {
      Node: (_key, node) => {
        if (node.tag !== undefined) throw this.errorAt(node.range?.[0] ?? 0, "", NO_TAGS);
      },
    });
  }

  private resolved(): unknown {
    try {
      return this.document.toJS({ maxAliasCount: maximumAliases });
    } catch (error) {
      if (!(error instanceof ReferenceError)) throw error;
      let offset = 0;
      let problem = `aliases repeat too much, at most ${maximumAliases} repeats are read`;
      visit(this.document, {
        Alias: (_key, alias) => {
          const isUnknown = alias.resolve(this.document) === undefined;
          offset = alias.range?.[0] ?? 0;
          if (isUnknown) problem = `alias *${alias.source} has no anchor before it`;
          return isUnknown ? visit.BREAK : undefined;
        },
      });
      throw this.errorAt(offset, "", problem);
    }
  }

  private target(node: Node | null): Node | null {
    return isAlias(node) ? (node.resolve(this.document) ?? null) : node;
  }
}

function childOf(parent: Node | null, step: PropertyKey): Node | null {
  if (!isMap(parent) && !isSeq(parent)) return null;
  const child = parent.get(step, true);
  return isNode(child) ? child : null;
}

function invalid(line: number, column: number, path: string, problem: string) {
  return new AnalysisError("instrument-invalid", { line, column, path, problem });
}

/** Our own phrase for the slips people make; the parser's for the rest. */
function syntaxProblem(error: YAMLError, text: string): string {
  switch (error.code) {
    case "TAB_AS_INDENT":
      return "tab used to indent, YAML takes spaces only";
    case "DUPLICATE_KEY":
      return `${/^["']?[^\s:"']{1,40}/u.exec(text.slice(error.pos[0]))?.[0] ?? "key"} is given twice`;
    case "MULTIPLE_DOCS":
      return "more than one document in the file";
    case "TAG_RESOLVE_FAILED":
      return NO_TAGS;
    case "NON_STRING_KEY":
      return "keys must be plain text";
    default:
      return `not valid YAML: ${error.message.split("\n", 1)[0]}`;
  }
}
