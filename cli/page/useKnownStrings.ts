import { useEffect, useState } from "preact/hooks";
import type { Analyst } from "./Analyst.js";
import type { KnownString, TargetsAsked } from "./worker/Messages.js";

/** The strings of what was chosen; none where no instrument was, or it can't be used. */
export function useKnownStrings(
  analyst: Analyst,
  { from, a4Hz, tonic }: TargetsAsked,
): readonly KnownString[] {
  const [strings, setStrings] = useState<readonly KnownString[]>([]);
  useEffect(() => {
    setStrings([]);
    void analyst.ask({ kind: "instrument", targets: { from, a4Hz, tonic } }, (reply) => {
      if (reply.kind === "instrument") setStrings(reply.strings);
    });
  }, [analyst, from, a4Hz, tonic]);
  return strings;
}
