import type { Channel } from '#formats/log.ts';
import type { Rig, RigChannel } from '#formats/rig.ts';
import type { Spec } from '#formats/spec.ts';
import { levelsOf } from '#signal/levels.ts';
import { commonStep } from '#signal/common-step.ts';
import { smallestStep } from '#signal/smallest-step.ts';
import { isPressureUnit } from '#units/unit.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';
import { emptyLike } from '#statistics/like.ts';

/** What the rig file says of a column; null where it says nothing. */
export function rigChannelOf(rig: Rig | null, column: string): RigChannel | null {
  return rig?.channels?.find((channel) => channel.column === column) ?? null;
}

/** The unit in which a run is judged: that of the spec's band, else that of the log. */
export function judgedUnit(channel: Channel, spec: Spec | null): PressureUnit | null {
  return spec?.pressureBand.unit ?? (isPressureUnit(channel.unit) ? channel.unit : null);
}

/** true = slope · reading + offset, in another unit; the two numbers of that line. */
export interface ReadingLine {
  slope: number;
  offset: number;
}

/**
 * The line that takes a reading in the column's unit to a judged pressure: the rig's correction, then the unit. Gauge pressure
 * stays gauge pressure.
 * @param zero reading at rest to be taken off first, in the column's unit, 0 unless the rig asks for it
 */
export function pressureLine(
  channel: Channel,
  rigChannel: RigChannel | null,
  unit: PressureUnit,
  zero = 0,
): ReadingLine {
  const factor = isPressureUnit(channel.unit) ? pressureFactor(channel.unit, unit) : 1;
  const { slope, offset } = rigChannel?.correction ?? { slope: 1, offset: 0 };
  return { slope: slope * factor, offset: (offset - slope * zero) * factor };
}

/** The line of any other channel: its correction, its unit unchanged. */
export function correctionLine(rigChannel: RigChannel | null): ReadingLine {
  return rigChannel?.correction ?? { slope: 1, offset: 0 };
}

/**
 * Readings as judged. The log's own array where the line changes nothing.
 * @param values any length, NaN for no reading
 */
export function applyLine(values: Float64Array, line: ReadingLine): Float64Array {
  if (line.slope === 1 && line.offset === 0) return values;
  const result = emptyLike(values);
  for (let i = 0; i < values.length; i++) result[i] = (values[i] ?? NaN) * line.slope + line.offset;
  return result;
}

/** Readings that a computation made differ in their last bits; such a difference is no step of the logger. */
const ROUNDING_SHARE = 1e-9;

/**
 * Resolution of a channel in its own unit: the rig's, else the smallest step seen; null where neither is there. Readings that all lie
 * on a coarser grid than the rig states count by that grid: a drift hides in its steps, whatever the data sheet says.
 */
export function resolutionOf(channel: Channel, rigChannel: RigChannel | null): number | null {
  const stated = rigChannel?.resolution;
  if (stated !== undefined) return Math.max(stated, commonStep(channel.values) ?? 0);
  const step = smallestStep(channel.values);
  if (step === null) return null;
  const largest = largestSize(channel.values);
  return step > ROUNDING_SHARE * largest ? step : null;
}

/** The reading furthest from zero. */
function largestSize(values: Float64Array): number {
  const levels = levelsOf(values);
  if (levels !== null)
    return Math.max(Math.abs(levels.valueOf(0)), Math.abs(levels.valueOf(levels.count - 1)));
  let largest = 0;
  for (let i = 0; i < values.length; i++) {
    const size = Math.abs(values[i] ?? NaN);
    if (size > largest) largest = size;
  }
  return largest;
}

/** Range of a channel in its own unit: stated, else that of its sensor's signal. */
export function rangeOf(rigChannel: RigChannel | null): { low: number; high: number } | null {
  if (rigChannel?.range) return rigChannel.range;
  return rigChannel?.signal ? { low: rigChannel.signal.low, high: rigChannel.signal.high } : null;
}
