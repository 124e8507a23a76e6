import { SetAside, type Channel } from '#formats/log.ts';
import type { RigChannel } from '#formats/rig.ts';
import type { RowRange } from '#signal/hampel.ts';
import { median } from '#statistics/median.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { copyOf } from '#statistics/like.ts';
import { engagementsOfCharged } from './dips.ts';
import { driveOf } from './drive.ts';
import {
  countedOver,
  countedPressure,
  engagedLevel,
  sustainedLevel,
  type CountedOver,
  type EngagedLevel,
} from './engaged-level.ts';
import { engagementsByPressure, type Engagement } from './engagements.ts';
import { flagSpikes, type PutBack } from './flag-spikes.ts';
import { applyLine, pressureLine, rangeOf, resolutionOf, type ReadingLine } from './judged-pressure.ts';
import {
  flagOutOfRange,
  flagStuck,
  keptValues,
  spikeFloor,
  windowOf,
  withRangeEnd,
  type Clipped,
  type Stuck,
} from './set-aside.ts';
import type { Shaft } from './shaft.ts';
import type { Solenoid } from './solenoid.ts';
import { at, rowAfter, splitAtBreaks, type Timeline } from './timeline.ts';

/** Around an engage or release instant the pressure really jumps: no reading there is a spike (definitions, "Readings set aside"). */
const PROTECTED_BEFORE_SAMPLES = 2;
const PROTECTED_AFTER_s = 5;
const PROTECTED_AFTER_SAMPLES = 5;
/** Fewer readings at rest than this tell no zero. */
const REST_READINGS = 5;

/** The pressure column with everything that is set aside and every engagement found. */
export interface PressureReading {
  channel: Channel;
  rigChannel: RigChannel | null;
  unit: PressureUnit;
  range: { low: number; high: number } | null;
  /** Step of the indication in the column's unit; null where none is known. */
  resolution: number | null;
  line: ReadingLine;
  /** A {@link SetAside} byte a sample. */
  flags: Uint8Array;
  /** In the column's unit, NaN where set aside. */
  keptReading: Float64Array;
  /** Judged pressure of every reading, set aside or not; NaN where missing. */
  judged: Float64Array;
  /** Judged pressure, NaN where set aside. */
  kept: Float64Array;
  /** Judged pressure as it counts for engaging. */
  countedOver: CountedOver;
  level: EngagedLevel;
  /** Stretches with pressure: engagements of the one kind of unit, charged stretches of the other. */
  pressured: Engagement[];
  /** Engagements proper. */
  engagements: Engagement[];
  clipped: Clipped;
  stuck: Stuck;
  /** What looked like spikes and counts. */
  putBack: PutBack;
  /** Median before the first rise with the shaft at rest, in the column's unit; null where there was no rest. */
  restReading: number | null;
  restReadings: number;
  /** Sample standard deviation of those readings. */
  restScatter: number | null;
  /** A list as long as the log that nobody reads any more: whoever makes such a list may take it, once, and write into it. */
  spare: Float64Array | null;
}

/** What a pressure column is read with. */
export interface PressureInput {
  timeline: Timeline;
  channel: Channel;
  rigChannel: RigChannel | null;
  unit: PressureUnit;
  /** The band's low limit in `unit`. */
  low: number | null;
  held: boolean;
  /** Asked for only once the pressure itself was gone through: they may still be being read. */
  others: () => { solenoid: Solenoid | null; shaft: Shaft | null };
}

/**
 * Reads the pressure column: range, engagements, stuck, spikes, in that order, so that dips and edges are found before anything
 * is taken for a spike.
 */
export function readPressure(input: PressureInput): PressureReading {
  const { timeline, channel, rigChannel } = input;
  const range = rangeOf(rigChannel),
    resolution = resolutionOf(channel, rigChannel);
  const flags = copyOf(channel.flags);
  let clipped: Clipped = { upper: 0, lower: 0 };
  if (range) clipped = flagOutOfRange(channel, flags, range, null);
  let found = findEngagements(input, flags, 0);
  let rest = restOf(input, flags, found.pressured);
  if (range && rest.value !== null) {
    const again = flagOutOfRange(channel, flags, range, rest.value);
    clipped = { upper: Math.max(clipped.upper, again.upper), lower: again.lower };
    if (again.lower > 0) {
      found = findEngagements(input, flags, 0);
      rest = restOf(input, flags, found.pressured);
    }
  }
  if (rigChannel?.subtractZeroAtRest === true && rest.value !== null)
    found = findEngagements(input, flags, rest.value);
  const stuck = flagStuck(
    timeline,
    channel,
    flags,
    found.pressured.flatMap(({ rows }) => splitAtBreaks(timeline, rows)),
  );
  const pieces = found.pressured.map(({ rows }) => rows);
  const putBack = flagSpikes(
    {
      timeline,
      values: channel.values,
      floor: spikeFloor(channel.values, flags, resolution, pieces),
      protect: protectedRows(timeline, [...found.pressured, ...found.engagements]),
      pieces,
    },
    flags,
  );
  const keptReading = keptValues(channel.values, flags);
  return {
    ...found,
    channel,
    rigChannel,
    unit: input.unit,
    range,
    resolution,
    flags,
    keptReading,
    judged: applyLine(channel.values, found.line),
    kept: applyLine(keptReading, found.line),
    clipped,
    stuck,
    putBack,
    restReading: rest.value,
    restReadings: rest.readings,
    restScatter: rest.scatter,
  };
}

interface Found {
  line: ReadingLine;
  countedOver: CountedOver;
  level: EngagedLevel;
  pressured: Engagement[];
  engagements: Engagement[];
  spare: Float64Array | null;
}

function findEngagements(input: PressureInput, flags: Uint8Array, zero: number): Found {
  const { timeline, channel, rigChannel, unit, held } = input;
  const line = pressureLine(channel, rigChannel, unit, zero);
  const kept = keptValues(channel.values, flags),
    range = rangeOf(rigChannel);
  // Readings at the range's end tell that there is pressure: cold oil that drives a sensor there is no idle unit. What lies beyond the
  // end is no reading.
  const usable = range === null ? kept : withRangeEnd({ channel, flags }, range, kept, range.high, 0);
  const counted = applyLine(countedPressure(timeline, usable), line);
  const level = engagedLevel(sustainedLevel(timeline, counted, timeline.part), input.low);
  const again = countedOver(timeline, usable, line);
  // A view of its own: what is known of one list must not be taken for true of the next.
  const spare = new Float64Array(counted.buffer);
  if (level.level === null) return { line, countedOver: again, level, pressured: [], engagements: [], spare };
  const { solenoid, shaft } = input.others();
  const pressured = engagementsByPressure(
    timeline,
    counted,
    level.level,
    held ? null : solenoid,
    driveOf(held, solenoid, shaft),
  );
  const engagements = held
    ? engagementsOfCharged(timeline, applyLine(usable, line), pressured, solenoid)
    : pressured;
  return { line, countedOver: again, level, pressured, engagements, spare };
}

/** Median of the readings before the first rise while the shaft stands still (or is not logged). */
function restOf(
  { timeline, channel, others }: PressureInput,
  flags: Uint8Array,
  pressured: readonly Engagement[],
): { value: number | null; readings: number; scatter: number | null } {
  const first = pressured[0],
    none = { value: null, readings: 0, scatter: null };
  if (!first || first.beganBefore) return none;
  const { shaft } = others();
  const readings: number[] = [];
  // The rise itself may begin a few samples before it counts as engaged.
  const to = Math.min(first.rows.from, first.pressureFrom - PROTECTED_BEFORE_SAMPLES);
  for (let i = timeline.part.from; i < to; i++)
    if (flags[i] === SetAside.kept && shaft?.turning[i] !== 1) readings.push(at(channel.values, i));
  if (readings.length < REST_READINGS) return none;
  const value = median(readings);
  const squares = readings.reduce((sum, reading) => sum + (reading - value) * (reading - value), 0);
  return { value, readings: readings.length, scatter: Math.sqrt(squares / (readings.length - 1)) };
}

/** Rows about every engage and release instant where no reading is a spike. */
function protectedRows(timeline: Timeline, engagements: readonly Engagement[]): RowRange[] {
  const after_s = windowOf(timeline, PROTECTED_AFTER_s, PROTECTED_AFTER_SAMPLES);
  const about = (row: number): RowRange => ({
    from: row - PROTECTED_BEFORE_SAMPLES,
    to: rowAfter(timeline.time_s, at(timeline.time_s, Math.min(row, timeline.time_s.length - 1)) + after_s),
  });
  return engagements.flatMap(({ rows, pressureFrom, endsOpen }) => [
    about(rows.from),
    ...(pressureFrom === rows.from ? [] : [about(pressureFrom)]),
    ...(endsOpen ? [] : [about(rows.to)]),
  ]);
}
