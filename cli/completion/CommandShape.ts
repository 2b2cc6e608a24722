/** What follows an option or a command's name: files, one of a few words, or what only the person can know. */
export type Completed = "files" | readonly string[] | null;

/** An option as it is typed. */
export interface OptionShape {
  /** Every form of it, `--tuning` or `-h`. */
  readonly names: readonly string[];
  readonly description: string;
  /** What its value is completed with; undefined for an option without one. */
  readonly value: Completed | undefined;
  /** True for an option that takes all words after it, up to the next option. */
  readonly takesMany: boolean;
}

/** A command as it is typed. */
export interface CommandShape {
  readonly name: string;
  readonly description: string;
  readonly options: readonly OptionShape[];
  /** What stands after it besides options; null for a command that takes none. */
  readonly argument: Completed;
}
