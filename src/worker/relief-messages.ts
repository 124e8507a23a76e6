import type { Advice, AdviceOption } from '#formats/advice.ts';
import type { BookAdjustment, BookRun, BookShop, BookUnit } from '#formats/book.ts';
import type { Comparison } from '#formats/comparison.ts';
import type { GaugeBandCheck, GaugeReadingsCheck } from '#formats/gauge-check.ts';
import type { Adjustments, Relief, TrailedAdjustment } from '#formats/relief.ts';
import type { BookProblem } from '#book/store.ts';
import type { PressureUnit } from '#units/pressure.ts';
import type { Judging, LogFile, Reading } from './messages.ts';
import type { Outline } from './outline.ts';

/** What the relief card and the gauge check ask. */
export type ReliefRequest =
  | {
      kind: 'advise';
      file: LogFile;
      reading: Reading;
      judging: Judging;
      relief: Relief;
      history: Adjustments | null;
      /** A change that is not among the options: what it should give. */
      change_mm: number | null;
    }
  /** What the book knows of the unit of a run and of its type; a re-test that came in since is linked first. */
  | { kind: 'trail'; run: string; at: string }
  | { kind: 'lay-over'; runs: string[] }
  | {
      kind: 'check-gauge';
      /** The points as a table, "reference (psi),reading (psi),direction". */
      text: string;
      /** What dial or data sheet state, in the unit of the readings. */
      stated: { range: { low: number; high: number }; percentOfSpan: number } | null;
      calibratedOn: string | null;
      dueOn: string | null;
      /** What is to be judged with it; null where no limits are known. */
      band: { low: number | null; high: number | null; unit: PressureUnit } | null;
    };

/** One change of the unit, as far as it is known what it did. */
export interface TrailStep {
  adjustment: BookAdjustment;
  /** null: no re-test yet, or one of the two runs has no operating pressure. */
  change: TrailedAdjustment | null;
}

export interface Trail {
  unit: BookUnit | null;
  run: BookRun;
  /** Of the unit, oldest first. */
  runs: BookRun[];
  /** Of the unit, oldest first. */
  steps: TrailStep[];
  /** Changes of the unit that were taken out of the trail and can be put back, newest first. */
  takenOut: BookAdjustment[];
  shop: BookShop | null;
  /** To learn from: this unit's changes, and those of its type. */
  history: Adjustments | null;
  /** The relief that was kept last for another unit of the type: its figures are offered for this one. */
  alike: { serial: string; relief: Relief } | null;
}

/** A run to be laid over another, thinned for drawing. */
export interface LaidRun {
  id: string;
  name: string;
  /** Seconds from the engagement that is judged to the ends of the log. */
  from_s: number;
  to_s: number;
  hold: { start_s: number; end_s: number } | null;
  /** Smoothed pressure in the unit of the comparison. */
  outline: Outline;
}

export interface LaidOver {
  unit: PressureUnit;
  limits: { low: number | null; high: number | null };
  runs: LaidRun[];
  comparison: Comparison | null;
}

export interface ReliefAnswers {
  advise: { advice: Advice; predicted: AdviceOption['predicted'] | null };
  trail: Trail | { problem: BookProblem };
  'lay-over': LaidOver | { problem: BookProblem };
  'check-gauge': {
    check: GaugeReadingsCheck;
    /** What is left of the band for a pass, readings corrected as found, and as the stated class has it. */
    corrected: GaugeBandCheck | null;
    asStated: GaugeBandCheck | null;
  };
}
