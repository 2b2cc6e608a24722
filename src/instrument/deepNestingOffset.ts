import { type LineCounter, Parser } from "yaml";

interface Token {
  readonly offset?: number;
  readonly items?: readonly { readonly key?: unknown; readonly value?: unknown }[];
  readonly value?: unknown;
}

/**
 * The place of a value nested more than `maximumDepth` deep, or null where there is none; `lines` is filled.
 *
 * The YAML composer recurses, and a text of thousands of brackets can take the whole process down with the
 * stack. The flat syntax pass before it does not recurse, and its tokens are walked with a stack of our own.
 */
export function deepNestingOffset(text: string, maximumDepth: number, lines: LineCounter): number | null {
  for (const document of new Parser(lines.addNewLine).parse(text)) {
    const open: { token: Token; depth: number }[] = [{ token: document as Token, depth: 0 }];
    for (let top = open.pop(); top; top = open.pop()) {
      const { token, depth } = top;
      if (depth > maximumDepth) return token.offset ?? 0;
      const children = [token.value, ...(token.items ?? []).flatMap((item) => [item.key, item.value])];
      for (const child of children) {
        if (typeof child === "object" && child !== null) open.push({ token: child, depth: depth + 1 });
      }
    }
  }
  return null;
}
