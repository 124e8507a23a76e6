import type { CriterionId } from '#formats/assessment.ts';

/** What the rig says of one channel's trueness. */
export interface ChannelFacts {
  /** Whether the rig file states an uncertainty for this channel (a resolution alone does not count). */
  stated: boolean;
  /**
   * UB: twice the combined Type B standard uncertainty at the level that is judged (accuracy, resolution, calibration), in the unit
   * of the quantity; 0 or more, null where nothing at all is known.
   */
  typeBExpanded: number | null;
}

/** A group of criteria that one sensor carries; a grave finding about the sensor stops them all. */
export type FindingReach = 'pressure' | 'oil-temperature' | 'solenoid-current' | CriterionId;

/**
 * What a decision needs beyond the quantities (definitions, "Decisions"): facts that only the analysis knows, since it has the
 * readings and the rig. Plain data; filled once a run.
 */
export interface DecisionFacts {
  /** The pressure gauge, UB at the operating pressure (at the band's middle where there is none), in the unit of the spec's band. */
  pressure: ChannelFacts;
  /** UB at the level of the peak and of the released pressure, where it differs there (an accuracy in per cent of reading). */
  typeBAtPeak?: number | null;
  typeBAtReleased?: number | null;
  /** In the unit of `quantities.holdTemperature`. */
  oilTemperature: ChannelFacts;
  /** In the unit of `quantities.solenoidCurrent`. */
  solenoidCurrent: ChannelFacts;
  /**
   * Share of the hold's recorded time with the smoothed pressure in [L + g·UB, H − g·UB] and in [L − g·UB, H + g·UB], g being
   * `spec.guardFactor ?? 1`; a missing limit stays missing. 0 where the narrowed band is empty; null without a hold or without UB.
   */
  shareInNarrowedBand: number | null;
  shareInWidenedBand: number | null;
  /** From the run's start to its end, gaps included; null without a run. The settling limit is held against it. */
  runSpan_s: number | null;
  /** Valid readings of the hold, and the time that they stand for; undefined where nobody counted. */
  holdReadings?: number;
  holdRecorded_s?: number;
  /** The whole log is in (false while following one that still grows). */
  complete: boolean;
  /** Grave findings before any verdict (wrong unit, clipped or frozen for more than half of the hold): criteria not assessed, with the reason. */
  grave: { reach: FindingReach; reason: string }[];
  /** Range of the pressure gauge in the unit of the spec's band, for "what gauge would do"; null where the rig does not say. */
  gaugeRange: { low: number; high: number } | null;
  /** Why the operating pressure may not pass, whatever its mean: the pressure was lost with no release logged. */
  pressureLost?: string | null;
}

/** Facts of a run whose rig says nothing: nothing stated, nothing found. For callers that judge numbers by hand, and for tests. */
export function factsWithoutRig(): DecisionFacts {
  const unknown: ChannelFacts = { stated: false, typeBExpanded: null };
  return {
    pressure: unknown,
    oilTemperature: unknown,
    solenoidCurrent: unknown,
    shareInNarrowedBand: null,
    shareInWidenedBand: null,
    runSpan_s: null,
    complete: true,
    grave: [],
    gaugeRange: null,
  };
}
