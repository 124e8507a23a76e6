import type { Criterion } from '#formats/assessment.ts';

/** Which engagement a criterion was judged on, when there are several. */
export interface WorstEngagement {
  /** From 1. */
  number: number;
  of: number;
  /** Log position of its start. */
  start_s: number;
  /** How many engagements could not be measured. */
  unmeasured: number;
}

/** Why a criterion came out as it did, as facts; `reason.ts` makes the sentence. */
export type Because =
  /** A value against limits, by the rule of the criterion; `guard` is g·U under the guarded rule. */
  | { kind: 'compared'; guard: number | null; guardFactor: number; engagement?: WorstEngagement }
  /** Drift: the change over the hold and the two ends of its interval, null where none is known. */
  | { kind: 'interval'; low: number | null; high: number | null; confidence: number }
  /** Time in band under the guarded rule: the shares with the limits drawn in and pushed out by the guard; of the resolution alone where the gauge is not stated. */
  | {
      kind: 'shares';
      narrowed: number;
      widened: number;
      guard: number | null;
      gaugeStated: boolean;
      pressureUnit: string;
    }
  /** The log gives only a bound: at most so long. */
  | { kind: 'bound'; atMost: number; engagement: WorstEngagement }
  /** It had not happened when the record, or the time that was watched, ended: at least so long. */
  | { kind: 'not-by-then'; atLeast: number; engagement: WorstEngagement | null }
  /** The pressure stood at the end of the gauge's range: it was at least so high. */
  | { kind: 'beyond-the-gauge'; atLeast: number }
  /** The pressure never stayed within the tolerance; the run outlasted the limit or not. */
  | {
      kind: 'never-settled';
      runSpan_s: number | null;
      tolerance: number | null;
      pressureUnit: string;
      complete: boolean;
    }
  | { kind: 'settled'; tolerance: number | null; pressureUnit: string }
  /** The log is still growing, and what is there does not tell yet. */
  | { kind: 'not-yet' }
  /** The log is still growing: how the criterion stands, which time can change. */
  | { kind: 'so-far'; stands: Because; verdict: Criterion['verdict'] }
  | { kind: 'not-assessed'; reason: string };

/** A criterion without its sentence. */
export type Draft = Omit<Criterion, 'reason'> & {
  because: Because;
  /** Half or more of the uncertainty's variance is the gauge's, so that a better gauge would help. */
  gaugeLeads: boolean;
};
