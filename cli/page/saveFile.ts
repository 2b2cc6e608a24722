/** Hands a file to the browser to be saved. */
export function saveFile(name: string, content: Blob | string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(typeof content === "string" ? new Blob([content]) : content);
  link.download = name;
  link.click();
  // The browser has to have begun before the address is taken back.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** A file's name with another ending. */
export function withEnding(name: string, ending: string): string {
  return `${name.replace(/\.[^.]{1,5}$/, "")}${ending}`;
}
