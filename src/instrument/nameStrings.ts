/**
 * Gives every string a unique name: its own where it has one, else its note (`G4`, a second one `G4 2`).
 *
 * Given names are never changed, so a numbered name that someone already uses is passed over.
 */
export function nameStrings(strings: readonly { name: string | null; note: string }[]): string[] {
  const taken = new Set(strings.map((string) => string.name));
  return strings.map(({ name, note }) => {
    if (name !== null) return name;
    let free = note;
    for (let count = 2; taken.has(free); count += 1) free = `${note} ${count}`;
    taken.add(free);
    return free;
  });
}
