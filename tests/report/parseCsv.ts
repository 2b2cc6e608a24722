/** Rows of comma-separated values, read as RFC 4180 (section 2) has them; fails on what that does not allow. */
export function parseCsv(text: string): string[][] {
  const rows: string[][] = [[]];
  let at = 0;
  while (at < text.length) {
    const cell = /^(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/.exec(text.slice(at));
    if (cell === null) throw new Error(`no cell at ${at}: ${text.slice(at, at + 20)}`);
    const [whole, quoted, plain, end] = cell;
    rows[rows.length - 1]!.push(quoted === undefined ? plain! : quoted.replaceAll('""', '"'));
    at += whole.length;
    if (end === "\r\n" && at < text.length) rows.push([]);
  }
  return rows;
}
