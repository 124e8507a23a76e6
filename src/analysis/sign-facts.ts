import type { Quantities } from '#formats/assessment.ts';
import { SetAside } from '#formats/log.ts';
import { MAD_SCALE } from '#signal/hampel.ts';
import { median, medianDistance } from '#statistics/median.ts';
import { convert } from '#units/unit.ts';
import type { Found } from './quantities.ts';
import type { Situation } from './situation.ts';
import { valuesOf } from './pieces.ts';
import { solenoidOf } from './solenoid.ts';
import { at } from './timeline.ts';

/** What only the readings tell and no quantity holds, for the signs of the trace. */
export interface TraceFacts {
  /** How often the solenoid was commanded on without drawing current; null unless both are logged. */
  commandsWithoutCurrent: number | null;
  /** Share of the hold's rows (without a hold the run's) at the upper end of the gauge's range; null without a range. */
  clippedShare: number | null;
  /** Time falling over time rising within the shaft's turns; null where the sampling is too slow or nothing ripples. */
  fallOverRise: number | null;
  /** Scatter (as a standard deviation) of the readings about the smoothed line where no frequency stands out, in the judged unit. */
  noise: number | null;
  /** Settling without the gaps in the record; null where there is none, or the hold paused before it. */
  settlingRecorded_s: number | null;
  /** Step of the pressure in the very reading in which the solenoid switches while the unit stays engaged, in the judged unit. */
  stepWithSolenoid: number | null;
}

/** Current under this is none. */
const NO_CURRENT_A = 0.05;
/** A turn of the shaft needs so many samples to show its shape. */
const SAMPLES_A_TURN = 5;
/** Readings on either side of a switching. */
const EDGE_SAMPLES = 5;

/** Works them out. */
export function traceFacts(situation: Situation, { quantities }: Found): TraceFacts {
  return {
    commandsWithoutCurrent: commandsWithoutCurrent(situation),
    clippedShare: clippedShare(situation),
    fallOverRise: fallOverRise(situation, quantities.ripple),
    noise: quantities.ripple.frequency_Hz === null ? noiseAboutLine(situation) : null,
    settlingRecorded_s: settlingRecorded_s(situation),
    stepWithSolenoid: stepWithSolenoid(situation),
  };
}

function commandsWithoutCurrent({ readings, current, timeline }: Situation): number | null {
  const command = readings.find(({ channel }) => channel.role === 'solenoid-command');
  const unit = current?.channel.unit;
  if (!command || !current || (unit !== 'A' && unit !== 'mA')) return null;
  const edges = solenoidOf(timeline, command.kept)?.edges ?? [];
  let count = 0;
  edges.forEach((edge, index) => {
    if (!edge.on) return;
    const drawn = median(current.kept.subarray(edge.row, edges[index + 1]?.row ?? timeline.part.to));
    if (convert(drawn, unit, 'A') < NO_CURRENT_A) count++;
  });
  return count;
}

/** A sensor at its end all day leaves no hold: then the run's rows count, without a run the log's. */
function clippedShare({ hold, run, timeline, reading }: Situation): number | null {
  if (!reading.range) return null;
  let rows = 0,
    clipped = 0;
  const middle = 0.5 * (reading.range.low + reading.range.high);
  for (const { from, to } of hold?.pieces ?? run?.pieces ?? [timeline.part])
    for (let i = from; i < to; i++) {
      rows++;
      if (reading.flags[i] === SetAside.outOfRange && at(reading.channel.values, i) > middle) clipped++;
    }
  return rows > 0 ? clipped / rows : null;
}

function fallOverRise(
  { hold, reading, timeline }: Situation,
  { order, frequency_Hz }: Quantities['ripple'],
): number | null {
  if (!hold || order === null || frequency_Hz === null) return null;
  const turns_Hz = frequency_Hz / order;
  if (!(1 / timeline.medianInterval_s >= SAMPLES_A_TURN * turns_Hz)) return null;
  let falls = 0,
    rises = 0;
  for (const { from, to } of hold.pieces)
    for (let i = from + 1; i < to; i++) {
      const step = at(reading.kept, i) - at(reading.kept, i - 1);
      if (step < 0) falls++;
      else if (step > 0) rises++;
    }
  return rises > 0 ? falls / rises : null;
}

/** By the median of the distances: dips and edges are no noise. */
function noiseAboutLine({ hold, reading, smoothed }: Situation): number | null {
  if (!hold) return null;
  const typical =
    MAD_SCALE * medianDistance(valuesOf(reading.kept, hold.pieces), valuesOf(smoothed, hold.pieces));
  return Number.isNaN(typical) ? null : typical;
}

function settlingRecorded_s({ run, settling, hold, timeline }: Situation): number | null {
  if (!run || settling?.time_s == null) return null;
  const settled_s = run.start_s + settling.time_s;
  const missing_s = timeline.gaps
    .filter(({ start_s, end_s }) => start_s >= run.start_s && end_s <= settled_s)
    .reduce((sum, { start_s, end_s }) => sum + end_s - start_s, 0);
  return missing_s > 0 && (hold?.pauses ?? 0) > 0 ? null : settling.time_s - missing_s;
}

function stepWithSolenoid({ held, solenoid, reading }: Situation): number | null {
  if (held || !solenoid) return null;
  const steps = solenoid.edges.flatMap(({ row, on }) => {
    const inside = reading.pressured.some(
      ({ pressureFrom, rows }) => row - EDGE_SAMPLES >= pressureFrom && row + EDGE_SAMPLES <= rows.to,
    );
    if (!inside) return [];
    const before = median(reading.kept.subarray(row - EDGE_SAMPLES, row)),
      after = median(reading.kept.subarray(row, row + EDGE_SAMPLES));
    // Nothing was read on one side of the edge: no step is known there.
    return Number.isNaN(after - before) ? [] : [(on ? 1 : -1) * (after - before)];
  });
  return steps.length > 0 ? median(steps) : null;
}
