/** A heading and its lines, parted from what stands before; nothing where there are no lines. */
export function section(heading: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : ["", heading, ...lines];
}
