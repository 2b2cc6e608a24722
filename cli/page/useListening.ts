import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { MeasureDocument } from "../../src/index.js";
import type { Analyst } from "./Analyst.js";
import { Loudspeaker } from "./Loudspeaker.js";
import type { NamedSound } from "./worker/Messages.js";

type HeardString = MeasureDocument["takes"][number]["strings"][number];

/** Quiet, whatever the loudspeaker is set to. */
const FIRST_PER_CENT = 10;

/** What can be heard of a string: what was recorded, or the tone it should have. */
export type Hearing = "passage" | "target";

/** Playing of strings, one sound at a time. */
export interface Listening {
  readonly perCent: number;
  setPerCent(perCent: number): void;
  /** Whether this sounds, or is about to. */
  isOn(string: HeardString, what: Hearing): boolean;
  /** Null where the string can't be heard so: the recording is not at hand, or the string is not in it. */
  play(string: HeardString, what: Hearing): (() => void) | null;
  /** Null where nothing sounds. */
  readonly stop: (() => void) | null;
}

/** @param sound - null where the recording is not at hand */
export function useListening(analyst: Analyst, sound: NamedSound | null): Listening {
  const [perCent, setPerCent] = useState(FIRST_PER_CENT);
  const [on, setOn] = useState<{ readonly name: string; readonly what: Hearing } | null>(null);
  const loudspeaker = useMemo(() => new Loudspeaker(loudnessOf(FIRST_PER_CENT)), []);
  const tapped = useRef(0);
  useEffect(
    () => () => {
      tapped.current++;
      loudspeaker.stop();
    },
    [loudspeaker],
  );

  function stop(): void {
    tapped.current++;
    loudspeaker.stop();
    setOn(null);
  }

  function start(
    string: HeardString,
    what: Hearing,
    longest: HeardString["perPassage"][number] | null,
  ): void {
    stop();
    const tap = tapped.current;
    const end = () => {
      if (tap === tapped.current) setOn(null);
    };
    setOn({ name: string.name, what });
    if (what === "target") loudspeaker.playTone(string.targetHz, end);
    else if (longest !== null && sound !== null) {
      const { startSeconds, endSeconds } = longest;
      void analyst.ask({ kind: "passage", sound, startSeconds, endSeconds }, (reply) => {
        // Another was tapped meanwhile.
        if (tap !== tapped.current) return;
        if (reply.kind === "passage") loudspeaker.playSamples(reply.samples, reply.sampleRateHz, end);
        else if (reply.kind === "failed") end();
      });
    }
  }

  return {
    perCent,
    setPerCent: (next) => {
      setPerCent(next);
      loudspeaker.setLoudness(loudnessOf(next));
    },
    isOn: ({ name }, what) => on?.name === name && on.what === what,
    play: (string, what) => {
      const [longest = null] = [...string.perPassage].sort((a, b) => secondsOf(b) - secondsOf(a));
      const isThere = what === "target" || (sound !== null && longest !== null);
      return isThere ? () => start(string, what, longest) : null;
    },
    stop: on === null ? null : stop,
  };
}

/** Half way up sounds about half as loud: loudness goes with a power of the amplitude (common practice, no source). */
function loudnessOf(perCent: number): number {
  return (perCent / 100) ** 1.7;
}

function secondsOf(passage: { readonly startSeconds: number; readonly endSeconds: number }): number {
  return passage.endSeconds - passage.startSeconds;
}
