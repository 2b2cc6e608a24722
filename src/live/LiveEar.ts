import type { Finding } from "../audio/Finding.js";
import { withoutNonFinite } from "../audio/withoutNonFinite.js";
import { nearestNoteTarget } from "../instrument/nearestNoteTarget.js";
import { cents } from "../units/cents.js";
import { amplitudeToDb } from "../units/decibels.js";
import type { HeardSound } from "./HeardSound.js";
import { HumWatch } from "./HumWatch.js";
import { InputWatch } from "./InputWatch.js";
import type { LiveOptions, LiveReading, LiveSound, LiveStray } from "./LiveReading.js";
import { listenAlone } from "./listenAlone.js";
import { MixtureWatch } from "./MixtureWatch.js";
import { RecentBand } from "./RecentBand.js";
import { type RecentFrames, RecentTrack } from "./RecentTrack.js";
import { SteppedBlocks } from "./SteppedBlocks.js";
import { StringTable } from "./StringTable.js";
import { type PitchRun, type SoundNow, soundNow } from "./soundNow.js";

/** Sound is taken in by about this much; a reading comes after every fourth, and sooner where a pitch is new or moves. */
const STEP_SECONDS = 0.125;
const STEPS_OF_READING = 4;
const STEPS_WHILE_MOVING = 2;
/** The peak is that of the last second. */
const STEPS_OF_PEAK = 8;
/** The analysis looks this far beyond a value that can't be sound. */
const REACH_SECONDS = 0.1;
/** Of what was taken for several strings so much is looked at again, to see whether one is left. */
const AGAIN_SECONDS = 1;
/** A sound that can't be read as one string for so long is taken for several. */
const LEAST_UNCLEAR_SECONDS = 0.9;
/** A run that begins so long before the last one was read is that one. */
const SAME_RUN_SECONDS = 0.06;

/** What a look at the last seconds gave. */
interface Look {
  readonly sound: LiveSound;
  /** Names of the strings that sound. */
  readonly names: readonly string[];
  /** ... and of those that sound but could not be read now, though they were before. */
  readonly unreadNames?: readonly string[];
  readonly stray: LiveStray | null;
}

const NOTHING: Look = { sound: "nothing", names: [], stray: null };
const UNCLEAR: Look = { sound: "unclear", names: [], stray: null };

/** Takes sound in step by step and decides when what is looked at; see `liveReader`. */
export class LiveEar {
  /** The last reading that came due. */
  last: LiveReading;
  private readonly a4Hz: number;
  private readonly blocks: SteppedBlocks;
  private readonly band: RecentBand;
  private readonly track: RecentTrack;
  private readonly input: InputWatch;
  private readonly hum: HumWatch;
  private readonly table: StringTable;
  private readonly mixtures: MixtureWatch;
  private readonly stepSeconds: number;
  private steps = 0;
  /** Nothing before this may be read ... */
  private cleanFromSeconds = 0;
  /** ... and nothing before this as one string. */
  private aloneFromSeconds = 0;
  /** Until when runs of one pitch have been read. */
  private readUntilSeconds = 0;
  private isMoving = false;
  private look = NOTHING;
  /** Strings that sounded before it became unclear which do. */
  private perhaps: readonly string[] = [];

  constructor({ sampleRateHz, channelCount, targets, a4Hz }: LiveOptions) {
    this.a4Hz = a4Hz;
    this.band = new RecentBand(sampleRateHz, channelCount);
    const stepFrames = this.band.factor * Math.round(STEP_SECONDS * this.band.rateHz);
    this.stepSeconds = stepFrames / sampleRateHz;
    this.blocks = new SteppedBlocks(channelCount, stepFrames);
    this.track = new RecentTrack(this.band);
    this.input = new InputWatch(sampleRateHz, channelCount, STEPS_OF_PEAK);
    this.hum = new HumWatch(this.band);
    this.table = new StringTable(targets, a4Hz);
    this.mixtures = new MixtureWatch(this.band, targets ?? []);
    this.last = this.tell();
  }

  /** @returns the readings that came due */
  push(channels: readonly Float32Array[]): LiveReading[] {
    const readings: LiveReading[] = [];
    this.blocks.push(channels, (step) => {
      const reading = this.takeIn(step);
      if (reading === null) return;
      this.last = reading;
      readings.push(reading);
    });
    return readings;
  }

  private get seconds(): number {
    return this.steps * this.stepSeconds;
  }

  private takeIn(step: readonly Float32Array[]): LiveReading | null {
    const gaps = this.input.add(step);
    this.steps++;
    if (gaps > 0) this.cleanFromSeconds = this.seconds + REACH_SECONDS;
    this.band.push(step.map(withoutNonFinite));
    this.track.advance();
    const frames = this.track.frames();
    const now = soundNow(frames);
    const look = this.steps % STEPS_OF_READING === 0 ? this.lookAround(now, frames) : this.lookAtRun(now);
    if (look === null) return null;
    const isUnclear = look.sound === "unclear" || look.sound === "together-unclear";
    const goesOn = now.soundStartSeconds !== null && now.soundStartSeconds < this.last.seconds;
    this.perhaps =
      isUnclear && goesOn ? [...new Set([...this.perhaps, ...this.look.names])] : (look.unreadNames ?? []);
    this.look = look;
    return this.tell();
  }

  /** Between the regular readings: a pitch that is new, or moves; null where there is nothing new to tell. */
  private lookAtRun({ run, isRunNow }: SoundNow): Look | null {
    if (run === null || !isRunNow || this.mixtures.last !== null) return null;
    const isNew = run.startSeconds > this.readUntilSeconds - SAME_RUN_SECONDS;
    const isMoving = run.newest.isMoving || this.isMoving;
    if (!isNew && !(isMoving && this.steps % STEPS_WHILE_MOVING === 0)) return null;
    if (this.hum.judge(run) !== "string") return null;
    const heard = this.listenTo(run, true);
    return heard === null || heard === "several" ? null : this.keep(run, heard);
  }

  private lookAround(now: SoundNow, frames: RecentFrames): Look {
    const { run, isRunNow, soundStartSeconds } = now;
    const verdict = run === null || !isRunNow ? "string" : this.hum.judge(run);
    const isHum = verdict === "hum" && run !== null;
    if (soundStartSeconds === null || isHum) {
      // The end of a string may not have been read yet.
      const isRead = run === null || run.endSeconds <= this.readUntilSeconds || this.mixtures.last !== null;
      const ended = isHum || isRead ? null : run;
      const heard = ended === null ? null : this.listenTo(ended, false);
      if (ended !== null && heard !== null && heard !== "several") this.keep(ended, heard);
      const frameEnd = (frames.first + frames.voiced.length) * frames.hopSeconds;
      this.hum.listen(
        isHum ? run.startSeconds : (now.soundEndSeconds ?? frames.first * frames.hopSeconds),
        frameEnd,
      );
      this.mixtures.forget();
      this.isMoving = false;
      if (run !== null) this.readUntilSeconds = run.endSeconds;
      return NOTHING;
    }
    if (verdict === "too-short") return UNCLEAR;
    const heard = run !== null && isRunNow ? this.listenTo(run, true) : null;
    const alone = run === null || heard === null || heard === "several" ? null : { run, heard };
    const since = alone !== null && this.mixtures.last === null ? alone.run.startSeconds : 0;
    const mixture = this.mixtures.listen(
      Math.max(soundStartSeconds, since, this.cleanFromSeconds),
      alone !== null,
      this.hum.frequenciesHz,
    );
    if (mixture !== null) {
      this.isMoving = false;
      this.aloneFromSeconds = this.seconds - AGAIN_SECONDS / 2;
      const kept = mixture.strings.map(({ targetIndex, sound }) => this.table.keepString(targetIndex, sound));
      return {
        sound: "together",
        names: kept.flatMap(({ name, isKept }) => (isKept ? name : [])),
        unreadNames: kept.flatMap(({ name, isKept }) => (isKept ? [] : name)),
        stray: null,
      };
    }
    if (alone !== null) return this.keep(alone.run, alone.heard);
    this.isMoving = false;
    // A mixture has a weak period or none; what has one that can't be followed is a mixture as well.
    const isOld = now.isSounding && this.seconds - soundStartSeconds > LEAST_UNCLEAR_SECONDS;
    if (heard !== "several" && !isOld) return UNCLEAR;
    this.aloneFromSeconds = this.seconds - AGAIN_SECONDS;
    return { sound: "together-unclear", names: [], stray: null };
  }

  private listenTo(run: PitchRun, isNow: boolean) {
    const notBefore = Math.max(this.cleanFromSeconds, this.aloneFromSeconds);
    return listenAlone(this.band, run, isNow, notBefore, this.hum.frequenciesHz);
  }

  private keep(run: PitchRun, heard: HeardSound): Look {
    this.readUntilSeconds = run.endSeconds;
    this.isMoving = heard.isMoving;
    const name = this.table.keepRun(run, heard);
    if (name !== null) return { sound: "one", names: [name], stray: null };
    const frequencyHz = heard.frequencyHz ?? run.frequencyHz;
    const { note, targetHz } = nearestNoteTarget(frequencyHz, this.a4Hz);
    return {
      sound: "one",
      names: [],
      stray: { frequencyHz, note, deviationCents: cents(frequencyHz, targetHz) },
    };
  }

  private tell(): LiveReading {
    const { sound, names, stray } = this.look;
    const { peak } = this.input;
    const several: Finding[] =
      sound === "together-unclear" ? [{ code: "several-strings", severity: "warning", values: {} }] : [];
    return {
      seconds: this.seconds,
      sound,
      strings: this.table.strings(this.seconds, (name) =>
        names.includes(name) ? "sounding" : this.perhaps.includes(name) ? "perhaps" : "heard",
      ),
      stray,
      peakDb: peak > 0 ? amplitudeToDb(peak) : null,
      findings: [
        ...this.input.findings(sound !== "nothing" && sound !== "unclear"),
        ...this.hum.findings(this.table.loudestDb),
        ...several,
      ],
    };
  }
}
