import type { Assessment, Quantities } from '#formats/assessment.ts';
import { rounded } from '#formats/number.ts';
import type { Spec } from '#formats/spec.ts';

/** A feature of the trace that is known from a kind of fault. It suggests, it never proves. */
export type Sign = Assessment['signs'][number];

/** What only the readings tell and no quantity holds; each left out where it was not looked for. */
export interface SignFacts {
  /** The pressure column is in doubt (a grave finding): signs that are read from it are left out. */
  pressureInDoubt?: boolean;
  /** How often the solenoid was commanded on without drawing current. */
  commandsWithoutCurrent?: number | null;
  /** Share of the hold's readings at the upper end of the gauge's range. */
  clippedShare?: number | null;
  /** Saw-tooth within each shaft turn: time falling over time rising, 1 for a sine; null where the sampling is too slow. */
  fallOverRise?: number | null;
  /** Noise without a period, as standard deviation of the readings about the smoothed line, in the unit of the operating pressure. */
  noise?: number | null;
  /** Settling without the gaps in the record; null where the hold paused before it (the oil had cooled): no sign then. */
  settlingRecorded_s?: number | null;
  /** Step of the pressure in the very sample in which the solenoid switches, in the unit of the operating pressure. */
  stepWithSolenoid?: number | null;
}

/**
 * From where on a feature is called a sign. Suggestions of this program with no source unless one is named; none of them is a limit, and
 * none decides a verdict.
 */
export const signThresholds = {
  /** Pressure lost from cold to hot, as a share of the operating pressure; every unit loses some, so it counts only with one of the next two. */
  sagShare: 0.02,
  /** Pressure still lost over the hold, as a share of the operating pressure. */
  sagInHoldShare: 0.0075,
  /** Pressure that came into tolerance only after so much of the run. */
  sagSettlingShare: 0.25,
  /** Fall at level heat over the hold, as a share of the operating pressure. */
  fallShare: 0.005,
  /** Settling, as a share of the run. */
  lateSettlingShare: 1 / 3,
  /** A quarter is normal for an accumulator (one rebuilder's bench: 400, 300, 400). */
  deepDip: 0.4,
  slowRecovery_s: 2,
  /** "Within two seconds" is what owners call right. */
  slowRise_s: 2,
  /** Last engagements against the first. */
  slowerBy: 1.5,
  slowFall_s: 10,
  /** Released pressure as a share of the operating pressure, where the spec sets no limit. */
  releasedShare: 0.1,
  /** A manual calls readings more than a twentieth apart a sticking valve (50 psi at 1000). */
  spreadShare: 0.05,
  quickLeakDown_s: 10,
  quickFall_s: 0.3,
  /** Ripple once a turn is the pump's stroke and normal; beyond this share of the operating pressure it is called a sign. */
  rippleShare: 0.03,
  zeroShare: 0.01,
  noCurrent_A: 0.05,
  /** Shaft order taken as once a turn. */
  onceATurn: [0.95, 1.05],
  fallOverRise: 2,
  noiseShare: 0.02,
  stepShare: 0.01,
  clippedShare: 0.001,
} as const;

/** What a look at a run has before it. */
export interface Seen {
  q: Quantities;
  spec: Spec | null;
  facts: SignFacts;
  /** Operating pressure, null without. */
  pressure: number | null;
}
/** Looks for one sign. */
export type Look = (seen: Seen) => Sign | null;

/** Puts a sign together. */
export const sign = (
  id: string,
  value: number,
  unit: string,
  mayPointTo: string[],
  alsoShownBy: string,
): Sign => ({
  id,
  feature: { value: rounded(value), unit },
  mayPointTo,
  alsoShownBy,
});
