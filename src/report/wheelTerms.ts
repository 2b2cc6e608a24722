/** Before anyone looks at the wheel. */
export const wheelCaution =
  "A turning wheel catches hair, cuffs and fingers. Tie hair back, keep hands off the wheel while someone cranks, and turn it " +
  "by hand, slowly, when you look at the rim.";

/** What the words of the tables mean. */
export const wheelTerms =
  "Degrees: of one turn, counted from where the first string that swings is highest. Swing: half of highest to lowest, of the waves that come round " +
  "one to four times a turn and are shown. One turn: means at eight places against the mean of the turn, 95 % sure (+-) over the " +
  "turns; all 24 places: --json.";
