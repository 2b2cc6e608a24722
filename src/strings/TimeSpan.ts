/** A piece of a recording, in seconds from its start. */
export interface TimeSpan {
  readonly startSeconds: number;
  readonly endSeconds: number;
}
