/** An output can't be written; the message is a sentence for people. */
export class OutputError extends Error {
  override readonly name = "OutputError";
}
