import type { BudgetLine, OperatingPressure } from '#formats/assessment.ts';
import { weightedLine, type LineChoice, type LineFound } from '#signal/weighted-line.ts';
import { lagOneCorrelation } from '#statistics/lag-one-correlation.ts';
import { studentTQuantile } from '#statistics/student-t.ts';
import { welchSatterthwaite } from '#statistics/welch-satterthwaite.ts';
import type { PressureUnit } from '#units/pressure.ts';
import type { Hold } from './hold.ts';
import { firstReading, kernelWeights } from './pieces.ts';
import { at, weight_s, weightIn_s, type Rows, type Timeline } from './timeline.ts';
import type { TypeBPart } from './type-b.ts';

/** Batches that the hold is cut into; so many must be at least half recorded for an uncertainty (definitions, "Quantities"). */
const BATCHES = 10;
const BATCHES_NEEDED = 8;
const READINGS_NEEDED = 20;
/** Coverage probability of U, and the quantile that belongs to it (JCGM 100:2008, G.3.2, table G.2). */
export const COVERAGE_PROBABILITY = 0.9545;
const COVERAGE_QUANTILE = 0.97725;
/** A lag-one correlation of the batch means above this: the hold is too short for its noise. */
const BATCH_CORRELATION = 0.3;

/** Mean of the hold and the scatter part of its uncertainty. */
export interface HoldMean {
  value: number;
  readings: number;
  /** The time that they stand for. */
  recorded_s: number;
  /** Batches at least half recorded. */
  batches: number;
  /** s/√n; null where there are too few batches or readings. */
  scatter: number | null;
  degreesOfFreedom: number | null;
  /** The batch means are too alike for their neighbours: the scatter part is too small. */
  correlated: boolean;
}

/**
 * Mean by weight of the valid readings of the hold; Type A uncertainty by 10 batches of equal time of what a straight line leaves.
 * s is the scatter of the batch means about that line (n − 2 in the denominator), u = s/√n. (Non-overlapping batch means; the line
 * costs the second degree of freedom.)
 * @param kept judged pressure, NaN where set aside
 * @returns null without a valid reading
 */
export function holdMean(timeline: Timeline, hold: Hold, kept: Float64Array): HoldMean | null {
  const middle_s = 0.5 * (hold.start_s + hold.end_s);
  const reference = firstReading(kept, hold.pieces);
  // Batches are cut from the time within the hold's pieces, pauses and gaps left out; a piece's last row stands for a time too.
  const lengths_s = hold.pieces.map((piece) => pieceTime_s(timeline, piece)),
    held_s = lengths_s.reduce((sum, length_s) => sum + length_s, 0);
  const choice = { middle_s, reference, batches: BATCHES, lengths_s };
  const found =
    kernelWeights(timeline, (weights) =>
      weightedLine({ ...weights, values: kept, rows: hold.pieces }, choice),
    ) ?? lineByScript(timeline, hold.pieces, kept, choice);
  const { readings, weight: recorded_s, mean, sums, weights } = found;
  if (readings === 0 || !(recorded_s > 0)) return null;
  const means: number[] = [];
  for (let k = 0; k < BATCHES; k++)
    if (at(weights, k) >= (0.5 * held_s) / BATCHES) means.push(at(sums, k) / at(weights, k));
  const batches = means.length;
  if (batches < BATCHES_NEEDED || readings < READINGS_NEEDED)
    return {
      value: mean,
      readings,
      recorded_s,
      batches,
      scatter: null,
      degreesOfFreedom: null,
      correlated: false,
    };
  const centre = means.reduce((sum, value) => sum + value, 0) / batches;
  const squares = means.reduce((sum, value) => sum + (value - centre) * (value - centre), 0);
  return {
    value: mean,
    readings,
    recorded_s,
    batches,
    scatter: Math.sqrt(squares / (batches - 2) / batches),
    degreesOfFreedom: batches - 2,
    correlated: lagOneCorrelation(means) > BATCH_CORRELATION,
  };
}

/** {@link weightedLine} to the bit, for any log. */
export function lineByScript(
  timeline: Timeline,
  pieces: readonly Rows[],
  kept: Float64Array,
  { middle_s, reference, lengths_s }: LineChoice,
): LineFound {
  const { time_s } = timeline;
  const all: Sums = { weight: 0, readings: 0, sumT: 0, sumP: 0 };
  for (const { from, to } of pieces)
    for (let row = from; row < to; row += SOME_ROWS)
      addSums(timeline, kept, middle_s, reference, all, row, Math.min(to, row + SOME_ROWS));
  const { weight, readings, sumT, sumP } = all;
  const meanT = sumT / weight,
    mean = reference + sumP / weight;
  const about: About = { middle_s, meanT, mean, slope: 0, tt: 0, tp: 0 };
  for (const { from, to } of pieces)
    for (let row = from; row < to; row += SOME_ROWS)
      addAbout(timeline, kept, about, row, Math.min(to, row + SOME_ROWS));
  about.slope = about.tt > 0 ? about.tp / about.tt : 0;
  const held_s = lengths_s.reduce((sum, length_s) => sum + length_s, 0);
  const sums = new Float64Array(BATCHES),
    weights = new Float64Array(BATCHES),
    batched: Batched = { sums, weights, held_s, earlier_s: 0, start_s: 0 };
  pieces.forEach((piece, i) => {
    batched.start_s = time_s[piece.from] ?? NaN;
    for (let row = piece.from; row < piece.to; row += SOME_ROWS)
      addToBatches(timeline, kept, about, batched, row, Math.min(piece.to, row + SOME_ROWS));
    batched.earlier_s += lengths_s[i] ?? NaN;
  });
  return { readings, weight, mean, sums, weights };
}

/** Rows that are gone over in one call: a function that is called often is compiled as a whole. */
const SOME_ROWS = 512;

interface Sums {
  weight: number;
  readings: number;
  sumT: number;
  sumP: number;
}

/** Some rows more: times from the middle of the hold, pressures from one reading. */
function addSums(
  timeline: Timeline,
  kept: Float64Array,
  middle_s: number,
  reference: number,
  all: Sums,
  from: number,
  to: number,
): void {
  const { time_s, medianInterval_s, shared_s } = timeline;
  let { weight, readings, sumT, sumP } = all;
  for (let i = from; i < to; i++) {
    const value = kept[i] ?? NaN;
    if (value !== value) continue;
    const w = weightIn_s(time_s, medianInterval_s, shared_s, i);
    readings++;
    weight += w;
    sumT += w * ((time_s[i] ?? NaN) - middle_s);
    sumP += w * (value - reference);
  }
  all.weight = weight;
  all.readings = readings;
  all.sumT = sumT;
  all.sumP = sumP;
}

/** Sums of squares and products about the means; the line through them. */
interface About {
  readonly middle_s: number;
  readonly meanT: number;
  readonly mean: number;
  slope: number;
  tt: number;
  tp: number;
}

/** Some rows more. */
function addAbout(timeline: Timeline, kept: Float64Array, about: About, from: number, to: number): void {
  const { time_s, medianInterval_s, shared_s } = timeline,
    { middle_s, meanT, mean } = about;
  let { tt, tp } = about;
  for (let i = from; i < to; i++) {
    const value = kept[i] ?? NaN;
    if (value !== value) continue;
    const w = weightIn_s(time_s, medianInterval_s, shared_s, i),
      t = (time_s[i] ?? NaN) - middle_s - meanT;
    tt += w * t * t;
    tp += w * t * (value - mean);
  }
  about.tt = tt;
  about.tp = tp;
}

/** What the line leaves, by batch; time of the pieces before, and where this piece starts. */
interface Batched {
  readonly sums: Float64Array;
  readonly weights: Float64Array;
  readonly held_s: number;
  earlier_s: number;
  start_s: number;
}

/** Some rows more. */
function addToBatches(
  timeline: Timeline,
  kept: Float64Array,
  { middle_s, meanT, mean, slope }: About,
  { sums, weights, held_s, earlier_s, start_s }: Batched,
  from: number,
  to: number,
): void {
  const { time_s, medianInterval_s, shared_s } = timeline;
  for (let i = from; i < to; i++) {
    const value = kept[i] ?? NaN;
    if (value !== value) continue;
    const w = weightIn_s(time_s, medianInterval_s, shared_s, i),
      t = time_s[i] ?? NaN;
    const batch = Math.min(BATCHES - 1, Math.floor((BATCHES * (earlier_s + t - start_s)) / held_s));
    sums[batch] = (sums[batch] ?? NaN) + w * (value - mean - slope * (t - middle_s - meanT));
    weights[batch] = (weights[batch] ?? NaN) + w;
  }
}

/** From a piece's first row to the end of what its last row stands for. */
function pieceTime_s(timeline: Timeline, { from, to }: Rows): number {
  return at(timeline.time_s, to - 1) + weight_s(timeline, to - 1) - at(timeline.time_s, from);
}

/**
 * Operating pressure with its uncertainty budget: scatter and Type B parts combined by Welch–Satterthwaite, k as Student's t
 * quantile (JCGM 100:2008, G.4.1, G.3.2).
 * @param parts Type B contributions in `unit`
 */
export function operatingPressureOf(
  hold: Hold,
  mean: HoldMean,
  parts: readonly TypeBPart[],
  unit: PressureUnit,
): OperatingPressure {
  const base = { value: mean.value, unit, start_s: hold.start_s, end_s: hold.end_s };
  if (mean.scatter === null || mean.degreesOfFreedom === null)
    return {
      ...base,
      standardUncertainty: null,
      expandedUncertainty: null,
      coverageFactor: null,
      effectiveDegreesOfFreedom: null,
      budget: budgetOf(parts, null),
      reason:
        mean.readings < READINGS_NEEDED
          ? `the hold has only ${mean.readings} valid ${mean.readings === 1 ? 'reading' : 'readings'}; an uncertainty needs ${READINGS_NEEDED}`
          : `only ${mean.batches} of ${BATCHES} equal parts of the hold are at least half recorded; an uncertainty needs ${BATCHES_NEEDED}`,
    };
  const { combined, effectiveDegreesOfFreedom } = welchSatterthwaite([
    { standardUncertainty: mean.scatter, degreesOfFreedom: mean.degreesOfFreedom },
    ...parts.map((part) => ({
      standardUncertainty: part.standardUncertainty,
      degreesOfFreedom: part.degreesOfFreedom ?? Infinity,
    })),
  ]);
  const coverageFactor = studentTQuantile(COVERAGE_QUANTILE, effectiveDegreesOfFreedom);
  return {
    ...base,
    standardUncertainty: combined,
    expandedUncertainty: coverageFactor * combined,
    coverageFactor,
    effectiveDegreesOfFreedom: Number.isFinite(effectiveDegreesOfFreedom) ? effectiveDegreesOfFreedom : null,
    budget: budgetOf(parts, { standardUncertainty: mean.scatter, degreesOfFreedom: mean.degreesOfFreedom }),
  };
}

/** Budget lines, each with its share of the combined variance; scatter first. */
function budgetOf(
  parts: readonly TypeBPart[],
  scatter: { standardUncertainty: number; degreesOfFreedom: number } | null,
): BudgetLine[] {
  const lines: BudgetLine[] = [
    ...(scatter
      ? [{ source: 'scatter', type: 'A' as const, size: null, distribution: 't', ...scatter, share: 0 }]
      : []),
    ...parts.map((part) => ({ ...part, type: 'B' as const, share: 0 })),
  ];
  const variance = lines.reduce((sum, line) => sum + line.standardUncertainty * line.standardUncertainty, 0);
  return lines.map((line) => ({
    ...line,
    share: variance > 0 ? (line.standardUncertainty * line.standardUncertainty) / variance : 0,
  }));
}
