/** The command was called wrongly, or the instrument file is bad; the message is a sentence for people. */
export class UsageError extends Error {
  override readonly name = "UsageError";
}
