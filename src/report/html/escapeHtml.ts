const replacements: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** A text as HTML shows it, in an element or between quotes, whatever is in it. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (character) => replacements[character]!);
}
