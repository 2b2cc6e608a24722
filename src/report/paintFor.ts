/** Marks words by colour. Colour never carries a meaning that the words do not carry as well. */
export interface Paint {
  readonly heading: (text: string) => string;
  readonly good: (text: string) => string;
  readonly doubtful: (text: string) => string;
  readonly bad: (text: string) => string;
}

const colouredBy = (code: number) => (text: string) => `\u001b[${code}m${text}\u001b[0m`;
const plain = (text: string) => text;

/** Paint with terminal colours, or paint that leaves every text as it is. */
export function paintFor(colour: boolean): Paint {
  return colour
    ? { heading: colouredBy(1), good: colouredBy(32), doubtful: colouredBy(33), bad: colouredBy(31) }
    : { heading: plain, good: plain, doubtful: plain, bad: plain };
}
