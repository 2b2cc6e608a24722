/** Beyond this a string is brought up with care, and may not be the string it is taken for. Our policy. */
export const farOffCents = 60;

/** What to mind where a string goes up by more than that. */
export const raiseWithCare =
  "raise it in small steps: a string brought up too far snaps. Protect your eyes, and keep to the string maker's " +
  "limits first of all.";
