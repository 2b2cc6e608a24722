/** A stream that text goes to. */
export interface TextSink {
  write(text: string): unknown;
  readonly isTTY?: boolean;
  readonly columns?: number;
}

/** Where results and messages go. */
export interface Terminal {
  readonly stdout: TextSink;
  readonly stderr: TextSink;
  /** Whether results may be coloured. */
  readonly colour: boolean;
}
