import type { Finding } from "../audio/Finding.js";
import type { StringRole, StringTarget } from "../instrument/Instrument.js";
import { nearestNoteTarget } from "../instrument/nearestNoteTarget.js";
import { equalGroups } from "../strings/equalGroups.js";
import { cents } from "../units/cents.js";
import type { HeardSound } from "./HeardSound.js";
import type { LiveStatus, LiveString } from "./LiveReading.js";

interface Row {
  readonly name: string;
  readonly role: StringRole | null;
  readonly targetHz: number;
  sound: HeardSound | null;
  /** When it was last heard. */
  heardSeconds: number;
  /** Where its pitch last was; a string is looked for there too. */
  lastHz: number | null;
}

/** A string is where it should be or where it was last, to within this; a newly strung one may be further off. */
const NEAR_CENTS = 60;
const FAR_CENTS = 300;
/** A run that begins so long before the last one ended is that one. */
const SAME_RUN_SECONDS = 0.06;
/** A run keeps its string while a peg is turned, but not where the octave comes out another. */
const SAME_OCTAVE_CENTS = 600;
/** A shorter break on the same pitch is a hiccup of the bowing, and no change between two strings of one note. */
const HICCUP_SECONDS = 0.9;
const HICCUP_CENTS = 3;

/**
 * The strings and what was last heard of each.
 *
 * A pitch goes to the string within 60 cents, counted from its target or from where it was last heard; else to the nearest one
 * not heard so far, up to 300 cents away. It keeps its string as long as it goes on, however far a peg takes it. Strings of one
 * note are taken in turn.
 */
export class StringTable {
  private readonly rows: Row[];
  private readonly groups: readonly (readonly number[])[];
  private readonly turns: number[];
  private readonly a4Hz: number;
  private readonly isFixed: boolean;
  private last: { row: Row; endSeconds: number; frequencyHz: number } | null = null;

  /** @param targets - null: a row for every note that is heard */
  constructor(targets: readonly StringTarget[] | null, a4Hz: number) {
    this.a4Hz = a4Hz;
    this.isFixed = targets !== null;
    this.rows = (targets ?? []).map(({ name, role, targetHz }) => rowOf(name, role, targetHz));
    this.groups = targets === null ? [] : equalGroups(targets, []);
    this.turns = this.groups.map(() => 0);
  }

  /** Level of the loudest string heard so far; null where there is none. */
  get loudestDb(): number | null {
    const levels = this.rows.flatMap(({ sound }) => sound?.levelDb ?? []);
    return levels.length === 0 ? null : Math.max(...levels);
  }

  /**
   * Notes what was read of a run of one pitch.
   *
   * @returns the name of its string; null where it is none of them
   */
  keepRun(
    run: { readonly startSeconds: number; readonly endSeconds: number },
    sound: HeardSound,
  ): string | null {
    const frequencyHz = sound.frequencyHz ?? 0;
    const row = this.rowOfRun(run.startSeconds, frequencyHz);
    if (row === null) return null;
    this.last = { row, endSeconds: run.endSeconds, frequencyHz };
    keep(row, sound, run.endSeconds);
    return row.name;
  }

  /**
   * Notes what was read of a string under others; where its pitch can't be had now, what was read before stays.
   *
   * @returns its name, and whether it was noted
   */
  keepString(index: number, sound: HeardSound): { readonly name: string; readonly isKept: boolean } {
    const row = this.rows[index];
    // A run that was followed through it is no longer one string's.
    this.last = null;
    const isKept = sound.frequencyHz !== null || row.lastHz === null;
    if (isKept) keep(row, sound, sound.endSeconds);
    return { name: row.name, isKept };
  }

  /** @param statusOf - of a string that was heard */
  strings(seconds: number, statusOf: (name: string) => LiveStatus): LiveString[] {
    return this.rows.map((row) => liveString(row, seconds, statusOf(row.name), this.equalFinding(row)));
  }

  private rowOfRun(startSeconds: number, frequencyHz: number): Row | null {
    const { last } = this;
    if (last !== null) {
      const gapSeconds = startSeconds - last.endSeconds;
      const awayCents = Math.abs(cents(frequencyHz, last.frequencyHz));
      if (gapSeconds < -SAME_RUN_SECONDS && awayCents < SAME_OCTAVE_CENTS) return last.row;
      if (gapSeconds < HICCUP_SECONDS && awayCents < HICCUP_CENTS) return last.row;
    }
    if (!this.isFixed) return this.noteRow(frequencyHz);
    const near = nearest(this.groups, (members) =>
      Math.min(...members.map((m) => this.distance(this.rows[m], frequencyHz))),
    );
    if (near !== null && near.distance <= NEAR_CENTS) {
      const members = this.groups[near.index];
      return this.rows[members[this.turns[near.index]++ % members.length]];
    }
    const free = this.rows.filter(({ lastHz }) => lastHz === null);
    const far = nearest(free, ({ targetHz }) => Math.abs(cents(frequencyHz, targetHz)));
    return far !== null && far.distance <= FAR_CENTS ? free[far.index] : null;
  }

  private distance({ targetHz, lastHz }: Row, frequencyHz: number): number {
    const fromTarget = Math.abs(cents(frequencyHz, targetHz));
    return lastHz === null ? fromTarget : Math.min(fromTarget, Math.abs(cents(frequencyHz, lastHz)));
  }

  private noteRow(frequencyHz: number): Row {
    const { note, targetHz } = nearestNoteTarget(frequencyHz, this.a4Hz);
    const known = this.rows.find(({ name }) => name === note);
    if (known !== undefined) return known;
    const row = rowOf(note, null, targetHz);
    this.rows.push(row);
    this.rows.sort((a, b) => a.targetHz - b.targetHz);
    return row;
  }

  /** Which of two strings of one note it is can't be heard. */
  private equalFinding({ name, sound }: Row): Finding[] {
    const members = this.groups.find((group) => group.some((m) => this.rows[m].name === name)) ?? [];
    if (members.length < 2 || sound === null) return [];
    const strings = members.map((m) => this.rows[m].name).join(", ");
    return [{ code: "equal-strings", severity: "info", values: { strings } }];
  }
}

function rowOf(name: string, role: StringRole | null, targetHz: number): Row {
  return { name, role, targetHz, sound: null, heardSeconds: 0, lastHz: null };
}

function keep(row: Row, sound: HeardSound, heardSeconds: number): void {
  row.sound = sound;
  row.heardSeconds = heardSeconds;
  row.lastHz = sound.frequencyHz ?? row.lastHz;
}

function nearest<T>(
  items: readonly T[],
  distanceOf: (item: T) => number,
): { index: number; distance: number } | null {
  let best: { index: number; distance: number } | null = null;
  for (const [index, item] of items.entries()) {
    const distance = distanceOf(item);
    if (best === null || distance < best.distance) best = { index, distance };
  }
  return best;
}

function liveString(row: Row, seconds: number, given: LiveStatus, more: readonly Finding[]): LiveString {
  const { name, role, targetHz, sound } = row;
  const status = sound === null ? "not-heard" : given;
  const frequencyHz = sound?.frequencyHz ?? null;
  const deviationCents = frequencyHz === null ? null : cents(frequencyHz, targetHz);
  const interval = sound?.interval95Cents ?? null;
  const farOff: Finding[] =
    deviationCents !== null && Math.abs(deviationCents) > NEAR_CENTS
      ? [{ code: "far-off", severity: "warning", values: { deviationCents } }]
      : [];
  return {
    name,
    role,
    targetHz,
    status,
    frequencyHz,
    deviationCents,
    interval95Cents:
      interval === null || deviationCents === null
        ? null
        : [deviationCents + interval[0], deviationCents + interval[1]],
    lack: sound === null ? "not-heard" : sound.lack,
    isMoving: status === "sounding" && (sound?.isMoving ?? false),
    windowSeconds: sound === null ? null : sound.endSeconds - sound.startSeconds,
    levelDb: sound?.levelDb ?? null,
    secondsAgo: sound === null ? null : status === "sounding" ? 0 : Math.max(0, seconds - row.heardSeconds),
    isTogether: sound?.isTogether ?? false,
    findings: [...farOff, ...(sound?.findings ?? []), ...more],
  };
}
