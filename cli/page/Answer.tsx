/** The answer of a sheet: a sentence a line. */
export function Answer({ sentences }: { readonly sentences: readonly string[] }) {
  return (
    <div class="answer">
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </div>
  );
}
