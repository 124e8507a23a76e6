import type { Quantities } from '#formats/assessment.ts';
import { SetAside } from '#formats/log.ts';
import type { Spec } from '#formats/spec.ts';
import { weightOfMarked } from '#signal/weighted-sums.ts';
import type { LateMovement } from './late-movement.ts';
import { kernelWeights } from './pieces.ts';
import type { Run } from './run.ts';
import { spikeFloor } from './set-aside.ts';
import type { Oil, Situation } from './situation.ts';
import { at, weight_s, weightIn_s, type Rows, type Timeline } from './timeline.ts';
import { noWarmUp, warmUpOf } from './warm-up.ts';
import { whyNoRun } from './why-not.ts';

const HOUR_s = 3600;

/** Settling duration; `late`: the pressure was still moving at the end. */
export function settlingQuantity(situation: Situation, late: LateMovement | null): Quantities['settling'] {
  const { run, settling, tolerance, unit } = situation;
  if (!run || !settling)
    return {
      time_s: null,
      tolerance,
      unit,
      finalValue: null,
      reason: whyNoRun(situation) ?? 'there is no run',
    };
  return {
    time_s: settling.time_s,
    tolerance,
    unit,
    finalValue: run.finalValue,
    stillMoving: late !== null,
    ...(late === null ? {} : { stillToGo_s: late.end?.in_s ?? null }),
    ...(settling.time_s === null
      ? { reason: 'the pressure left the tolerance in the last tenth of the run: it never settled' }
      : {}),
  };
}

/** What the warm-up is found from. */
export type WarmUpSource = Pick<Situation, 'run' | 'timeline' | 'unjudged'> & {
  oil: Pick<Oil, 'kept' | 'smoothed' | 'values' | 'flags' | 'unit' | 'operating' | 'step'> | null;
  input: { spec: Pick<Spec, 'operatingTemperature'> | null };
};

/** Warm-up of the oil. */
export function warmUpQuantity(situation: WarmUpSource): Quantities['warmUp'] {
  const { run, oil, timeline, input } = situation;
  const unit = oil?.unit ?? input.spec?.operatingTemperature?.unit ?? 'degC';
  if (!oil) return noWarmUp(unit, 'the log has no oil temperature');
  if (!run) return noWarmUp(unit, whyNoRun(situation) ?? 'there is no run');
  return warmUpOf({
    timeline,
    run,
    kept: oil.kept,
    smoothed: oil.smoothed,
    unit,
    operatingLow: oil.operating.low,
    step: oil.step,
    noise: spikeFloor(oil.values, oil.flags, null, run.pieces),
  });
}

/**
 * Run length: the run's span less its gaps and less released stretches. Where a clock step cut the log it is known only as far as
 * the judged part goes: it is given where that alone suffices.
 */
export function runLengthQuantity(situation: Situation): NonNullable<Quantities['runLength']> {
  const { run, timeline, input } = situation;
  if (!run) return { length_s: null, reason: whyNoRun(situation) ?? 'there is no run' };
  const wanted_h = input.spec?.runLength?.atLeast_h;
  if (timeline.cut && (wanted_h === undefined || run.length_s < wanted_h * HOUR_s))
    return {
      length_s: null,
      reason:
        'the clock jumped by no whole number of hours, so how long the unit ran in all is not known; the longest part was judged',
    };
  return { length_s: run.length_s };
}

/** Recorded time in the run over the run's length, gaps counted as missing. */
export function recordCoverageQuantity(situation: Situation): NonNullable<Quantities['recordCoverage']> {
  const { run, timeline, reading } = situation;
  if (!run) return { share: null, reason: whyNoRun(situation) ?? 'there is no run' };
  const whole_s = run.length_s + gapsWithin_s(timeline, run);
  if (!(whole_s > 0)) return { share: null, reason: 'the run is a single reading' };
  let recorded_s = 0;
  for (const piece of run.pieces) recorded_s += recordedTime_s(timeline, reading.flags, piece);
  // The run's last row ends it: what it stands for lies outside.
  const last = run.rows.to - 1;
  if (isRecorded(reading.flags[last])) recorded_s -= weight_s(timeline, last);
  return { share: Math.min(1, recorded_s / whole_s) };
}

const isRecorded = (flag: number | undefined): boolean => flag === SetAside.kept || flag === SetAside.spike;

/** Summed weight of rows whose pressure is valid or a spike. */
export function recordedTime_s(timeline: Timeline, flags: Uint8Array, rows: Rows): number {
  const found = kernelWeights(timeline, (weights) =>
    weightOfMarked(weights, flags, rows, [SetAside.kept, SetAside.spike]),
  );
  return found ?? recordedByScript(timeline, flags, rows);
}

/** The same to the bit. */
export function recordedByScript(timeline: Timeline, flags: Uint8Array, rows: Rows): number {
  const all = { sum_s: 0 };
  for (let row = rows.from; row < rows.to; row += SOME_ROWS)
    addRecorded(timeline, flags, all, row, Math.min(rows.to, row + SOME_ROWS));
  return all.sum_s;
}

/** Rows that are gone over in one call: a function that is called often is compiled as a whole. */
const SOME_ROWS = 512;

/** Some rows more. */
function addRecorded(
  timeline: Timeline,
  flags: Uint8Array,
  all: { sum_s: number },
  from: number,
  to: number,
): void {
  const { time_s, medianInterval_s, shared_s } = timeline;
  let { sum_s } = all;
  for (let i = from; i < to; i++)
    if (isRecorded(flags[i])) sum_s += weightIn_s(time_s, medianInterval_s, shared_s, i);
  all.sum_s = sum_s;
}

/** Gaps between the pieces of a run, left-out spans and released stretches not counted. */
function gapsWithin_s(timeline: Timeline, run: Run): number {
  let sum = 0;
  for (const { row, kind } of timeline.breaks)
    if (
      kind === 'gap' &&
      run.pieces.some((piece) => piece.to === row || piece.from === row) &&
      row > run.rows.from &&
      row < run.rows.to
    )
      sum += at(timeline.time_s, row) - at(timeline.time_s, row - 1);
  return sum;
}
