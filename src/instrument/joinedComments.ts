/** Comments one under the other, as the YAML package holds them; undefined where there is none. */
export function joinedComments(...comments: readonly (string | null | undefined)[]): string | undefined {
  return comments.filter((comment) => typeof comment === "string").join("\n") || undefined;
}
