/** Beyond this a string is brought up with care, and may not be the string it is taken for. Our policy. */
const doubtCents = 60;

/** What to mind where a string goes far, up positive; null where it doesn't. */
export function raiseWithCare(moveCents: number): string | null {
  if (Math.abs(moveCents) <= doubtCents) return null;
  const doubt = "Make sure first that it is the string you mean and that the target is right.";
  return moveCents < 0
    ? `${doubt} Then let it down in small steps.`
    : `${doubt} Then raise it in small steps: a string brought up too far snaps. Protect your eyes, and keep to the string ` +
        "maker's limits first of all.";
}
