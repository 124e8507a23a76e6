import type { Engagement as EngagementFigures } from '#formats/assessment.ts';
import { median } from '#statistics/median.ts';
import type { PressureUnit } from '#units/pressure.ts';
import type { Engagement } from './engagements.ts';
import { gridMedian } from './grid-median.ts';
import { peakOf } from './peak.ts';
import { windowOf } from './set-aside.ts';
import { at, rowAfter, rowFrom, type Rows, type Timeline } from './timeline.ts';

/** Rise and fall between these shares of the step (IEC 60469 / IEEE 181: 10 % and 90 % reference levels). */
const LOW = 0.1;
const HIGH = 0.9;
/** Fewer samples within a transition give only a bound (definitions, "Quantities"). */
const SAMPLES_NEEDED = 10;
/** The plateau begins so long after engaging and needs an engagement of at least that long. */
const PLATEAU_FROM_s = 5;
const PLATEAU_NEEDS_s = 10;
/** A pressure that moves by less than this share of the plateau from one sixth of a stretch to the next has come to rest. */
const AT_REST_SHARE = 0.01;
/** Overshoot is told within the first seconds, against the level of the next ones: later peaks are cold oil, not overshoot. */
const OVERSHOOT_WITHIN_s = 5;
const LEVEL_AFTER_s = 15;
/** Level before a dip: median of so many seconds, or samples, before the engage instant. */
const BEFORE_s = 5;
const BEFORE_SAMPLES = 5;
/** Back within so much of the level before. */
const BACK_SHARE = 0.05;
/** A dip is looked for within so long after the engage instant. */
const DIP_WITHIN_s = 60;
/** A dip that fewer readings show, on a logger slower than this, may be deeper than it looks. */
const DIP_READINGS = 2;
const FAST_INTERVAL_s = 0.2;

/** What figures of engagements are worked out from. */
export interface FiguresInput {
  timeline: Timeline;
  /** Judged pressure before spikes are set aside, NaN for no usable reading. */
  values: Float64Array;
  /** The values are the log's own column. */
  asRead: boolean;
  unit: PressureUnit;
  held: boolean;
  engagements: readonly Engagement[];
  /** The pressure goes with the shaft speed: there is no plateau to measure a rise or a fall against. */
  withSpeed: boolean;
}

/** Figures of every engagement, in order. */
export function engagementFigures(input: FiguresInput): EngagementFigures[] {
  return input.engagements.map((engagement, index) => {
    const shared = common(input, engagement);
    const figures = input.held
      ? heldFigures(input, engagement, index)
      : raisedFigures(input, engagement, index, shared.plateau.value);
    return { ...shared, ...figures };
  });
}

type Common = Pick<EngagementFigures, 'start_s' | 'end_s' | 'plateau' | 'peak'>;
type Rest = Omit<EngagementFigures, keyof Common>;

/** Row after the last one that belongs to an engagement, the row of the release itself excluded. */
function common(input: FiguresInput, { rows }: Engagement): Common {
  const { timeline, values, unit } = input;
  const { time_s } = timeline;
  return {
    start_s: at(time_s, rows.from),
    end_s: at(time_s, Math.min(rows.to, timeline.part.to - 1)),
    plateau: { value: plateauOf(input, rows), unit },
    peak: { value: peakOf(timeline, values, [rows])?.value ?? null, unit },
  };
}

function plateauOf(
  { timeline: { time_s }, values, asRead }: FiguresInput,
  { from, to }: Rows,
): number | null {
  if (at(time_s, to - 1) - at(time_s, from) < PLATEAU_NEEDS_s) return null;
  const rows = { from: rowFrom(time_s, at(time_s, from) + PLATEAU_FROM_s), to };
  const value = asRead ? gridMedian(values, rows, true) : median(values.subarray(rows.from, to));
  return Number.isNaN(value) ? null : value;
}

function raisedFigures(
  input: FiguresInput,
  engagement: Engagement,
  index: number,
  plateau: number | null,
): Rest {
  const before = idleLevel(input, index);
  const none = { dip: null, recovery_s: null };
  if (plateau === null || input.withSpeed)
    return {
      rise_s: null,
      riseAtMost_s: null,
      overshoot: null,
      fall_s: null,
      fallAtMost_s: null,
      ...none,
      reason:
        plateau === null
          ? 'engaged for less than 10 s: no plateau to measure against'
          : 'the pressure goes with the shaft speed: there is no plateau to measure against',
    };
  const reasons: string[] = [];
  const rise = riseOf(input, engagement, index, before ?? 0, plateau);
  if (rise.reason !== null) reasons.push(rise.reason);
  const fall = fallOf(input, engagement, index, before ?? 0, plateau);
  if (fall.reason !== null) reasons.push(fall.reason);
  const overshoot = rise.exact_s === null ? null : overshootOf(input, engagement, before ?? 0);
  return {
    rise_s: rise.exact_s,
    riseAtMost_s: rise.atMost_s,
    overshoot,
    fall_s: fall.exact_s,
    fallAtMost_s: fall.atMost_s,
    ...(fall.atLeast_s === undefined ? {} : { fallAtLeast_s: fall.atLeast_s }),
    ...none,
    ...(reasons.length > 0 ? { reason: reasons.join('; ') } : {}),
  };
}

/** Median of the idle stretch before an engagement, the first 5 s after a release left out where more is left; null without one. */
function idleLevel({ timeline, values, engagements }: FiguresInput, index: number): number | null {
  const { time_s, part } = timeline;
  const to = engagements[index]?.rows.from ?? part.from,
    released = engagements[index - 1]?.rows.to ?? null;
  let from = released ?? part.from;
  if (released !== null) {
    const settled = rowFrom(time_s, at(time_s, released) + PLATEAU_FROM_s);
    if (settled < to) from = settled;
  }
  const value = median(values.subarray(from, to));
  return Number.isNaN(value) ? null : value;
}

/** A transition's duration, or only what it lasted at most, or why neither is known. */
interface Transition {
  exact_s: number | null;
  atMost_s: number | null;
  /** It was watched for so long without coming to its end. */
  atLeast_s?: number;
  reason: string | null;
}

function riseOf(
  input: FiguresInput,
  engagement: Engagement,
  index: number,
  idle: number,
  plateau: number,
): Transition {
  const { timeline, values, engagements } = input;
  if (engagement.beganBefore)
    return { exact_s: null, atMost_s: null, reason: 'the log begins engaged: no rise to measure' };
  if (!(plateau > idle))
    return {
      exact_s: null,
      atMost_s: null,
      reason: 'the pressure stood no higher engaged than before: there is no rise',
    };
  const low = idle + LOW * (plateau - idle),
    high = idle + HIGH * (plateau - idle);
  const earliest = engagements[index - 1]?.rows.to ?? timeline.part.from;
  let from = engagement.pressureFrom;
  while (from > earliest && !(at(values, from) <= low)) from--;
  if (!(at(values, from) <= low))
    return {
      exact_s: null,
      atMost_s: null,
      reason: 'the pressure was never at its idle level before the rise',
    };
  // From the last reading at the lower level on: the median that tells engaging may come a reading later than the rise.
  let to = from + 1;
  while (to < engagement.rows.to && !(at(values, to) >= high)) to++;
  if (to >= engagement.rows.to)
    return { exact_s: null, atMost_s: null, reason: 'the pressure did not reach nine tenths of its plateau' };
  // Readings may still stand at the lower level where the search began: what is crossed has to lie between its two readings.
  let last = to - 1;
  while (!(at(values, last) <= low)) last--;
  from = last;
  return transition(timeline, values, from, to, low, high, 'rise');
}

function fallOf(
  input: FiguresInput,
  engagement: Engagement,
  index: number,
  idle: number,
  plateau: number,
): Transition {
  const { timeline, engagements } = input;
  if (engagement.endsOpen)
    return { exact_s: null, atMost_s: null, reason: 'the log ends engaged: no fall to measure' };
  const latest = engagements[index + 1]?.rows.from ?? timeline.part.to;
  const found = fallTo(input, engagement, idle, plateau, latest);
  if (found !== null) return found;
  // It did not get down to where it came from. Where it came to rest higher up (the shaft turns now, or it hangs) that is the lower level.
  const rest = restLevel(input, { from: engagement.rows.to, to: latest }, plateau);
  // A rest level that is within a tenth of the step of the plateau is no fall at all.
  const fell = rest !== null && rest < idle + HIGH * (plateau - idle);
  const toRest = fell ? fallTo(input, engagement, rest, plateau, latest) : null;
  return (
    toRest ?? {
      exact_s: null,
      atMost_s: null,
      atLeast_s: Math.max(0, at(timeline.time_s, latest - 1) - at(timeline.time_s, engagement.rows.to)),
      reason: 'the pressure did not fall to a tenth of its step after release',
    }
  );
}

/** The fall to a lower level; null where that is not lower, or the pressure does not come within a tenth of the step of it. */
function fallTo(
  { timeline, values }: FiguresInput,
  engagement: Engagement,
  idle: number,
  plateau: number,
  latest: number,
): Transition | null {
  if (!(plateau > idle)) return null;
  const low = idle + LOW * (plateau - idle),
    high = idle + HIGH * (plateau - idle);
  let to = engagement.rows.to;
  while (to < latest && !(at(values, to) <= low)) to++;
  if (to >= latest) return null;
  let from = to;
  while (from > engagement.rows.from && !(at(values, from) >= high)) from--;
  if (!(at(values, from) >= high)) return null;
  to = from + 1;
  while (!(at(values, to) <= low)) to++;
  return transition(timeline, values, from, to, high, low, 'fall');
}

/** Level of the last third of an idle stretch, where the pressure has come to rest in it; null while it still moves. */
function restLevel({ timeline, values }: FiguresInput, { from, to }: Rows, plateau: number): number | null {
  const { time_s } = timeline;
  const start_s = at(time_s, from),
    end_s = at(time_s, to - 1);
  const early = median(
      values.subarray(
        rowFrom(time_s, start_s + (end_s - start_s) * (2 / 3)),
        rowFrom(time_s, start_s + (end_s - start_s) * (5 / 6)),
      ),
    ),
    late = median(values.subarray(rowFrom(time_s, start_s + (end_s - start_s) * (5 / 6)), to));
  return Math.abs(early - late) <= AT_REST_SHARE * plateau ? 0.5 * (early + late) : null;
}

/** "no reading", "only 1 reading", "only 4 readings". */
const readingsText = (count: number): string =>
  count === 0 ? 'no reading' : `only ${count} ${count === 1 ? 'reading' : 'readings'}`;

/** From the last row at or beyond the first level to the first row at or beyond the second one. */
function transition(
  { time_s }: Timeline,
  values: Float64Array,
  from: number,
  to: number,
  first: number,
  second: number,
  name: string,
): Transition {
  let within = 0,
    next = -1,
    before = from;
  for (let i = from + 1; i < to; i++) {
    if (Number.isNaN(at(values, i))) continue;
    within++;
    if (next < 0) next = i;
    before = i;
  }
  const atMost_s = at(time_s, to) - at(time_s, from);
  if (within < SAMPLES_NEEDED)
    return {
      exact_s: null,
      atMost_s,
      reason: `${readingsText(within)} within the ${name}: it is known only as at most ${Number(atMost_s.toPrecision(3))} s`,
    };
  const crossing = (a: number, b: number, level: number): number => {
    const low = at(values, a),
      share = (level - low) / (at(values, b) - low);
    return at(time_s, a) + share * (at(time_s, b) - at(time_s, a));
  };
  return {
    exact_s: crossing(before, to, second) - crossing(from, next, first),
    atMost_s: null,
    reason: null,
  };
}

/** Peak of the first 5 s over the level of the next 10 s, as a share of the step; 0 where it stays below. */
function overshootOf({ timeline, values }: FiguresInput, { rows }: Engagement, idle: number): number | null {
  const { time_s } = timeline;
  const start_s = at(time_s, rows.from);
  const early = Math.min(rows.to, rowAfter(time_s, start_s + OVERSHOOT_WITHIN_s)),
    late = Math.min(rows.to, rowAfter(time_s, start_s + LEVEL_AFTER_s));
  const peak = peakOf(timeline, values, [{ from: rows.from, to: early }]),
    level = median(values.subarray(early, late));
  if (peak === null || Number.isNaN(level) || !(level > idle)) return null;
  return Math.max(0, (peak.value - level) / (level - idle));
}

function heldFigures(input: FiguresInput, engagement: Engagement, index: number): Rest {
  const { timeline, values, engagements } = input;
  const { time_s, medianInterval_s } = timeline;
  const none = { rise_s: null, overshoot: null, fall_s: null };
  const start = engagement.rows.from,
    start_s = at(time_s, start);
  const before = median(
    values.subarray(
      Math.max(timeline.part.from, rowFrom(time_s, start_s - windowOf(timeline, BEFORE_s, BEFORE_SAMPLES))),
      start,
    ),
  );
  if (!(before > 0))
    return { ...none, dip: null, recovery_s: null, reason: 'no pressure was logged before engaging' };
  const limit = Math.min(
    rowAfter(time_s, start_s + DIP_WITHIN_s),
    engagements[index + 1]?.rows.from ?? timeline.part.to,
    timeline.part.to,
  );
  const back = (1 - BACK_SHARE) * before;
  let lowest = Infinity,
    lowestRow = start,
    below = 0;
  for (let i = start; i < limit; i++) {
    const value = at(values, i);
    if (value < lowest) {
      lowest = value;
      lowestRow = i;
    }
    if (value < back) below++;
    // Back after a dip: what comes later is no part of it.
    else if (below > 0 && value >= back) break;
  }
  if (!Number.isFinite(lowest))
    return { ...none, dip: null, recovery_s: null, reason: 'no pressure was logged after engaging' };
  if (below < DIP_READINGS && medianInterval_s > FAST_INTERVAL_s)
    return {
      ...none,
      dip: null,
      recovery_s: null,
      reason: `${readingsText(below)} within the dip: at one reading each ${Number(medianInterval_s.toPrecision(3))} s it may be deeper than it looks`,
    };
  const dip = Math.max(0, (before - lowest) / before);
  if (below === 0) return { ...none, dip, recovery_s: 0 };
  let row = lowestRow;
  while (row < limit && !(at(values, row) >= back)) row++;
  if (row >= limit)
    return {
      ...none,
      dip,
      recovery_s: null,
      recoveryAtLeast_s: Math.max(0, at(time_s, limit - 1) - start_s),
      reason:
        "the pressure was not back within 5 % before the next engagement, within 60 s or to the log's end",
    };
  return { ...none, dip, recovery_s: at(time_s, row) - start_s };
}
