import type { Remark } from '#formats/remark.ts';
import { median } from '#statistics/median.ts';
import { extentsOf } from '#statistics/extents.ts';
import type { Found } from './quantities.ts';
import type { Words } from './remark-text.ts';
import type { Situation } from './situation.ts';
import type { Band } from './time-in-band.ts';
import { at, rowFrom, weight_s, within, type Rows } from './timeline.ts';

/** Outside for so long with the oil warm, before the hold: it is said. */
const OUTSIDE_BEFORE_s = 600;
/** Without an oil temperature to go by, the oil counts as warm for that after so long. Common practice, no source. */
const WARM_AFTER_s = 1800;
/** A stretch outside the band within the hold, and another engagement, are named from this length on. */
const NAMED_FROM_s = 60;
/** The first seconds of an engagement are its rise. */
const RISE_s = 5;

type Maker = (situation: Situation, found: Found, words: Words) => Remark | null;

const sideOf = (value: number, { low, high }: Band): -1 | 0 | 1 =>
  high !== null && value > high ? 1 : low !== null && value < low ? -1 : 0;

/** A stretch on one side of the band. */
interface Stretch {
  side: -1 | 1;
  rows: Rows;
  lasted_s: number;
}

/** Stretches outside the band, each over rows without a break. */
function outside({ timeline, smoothed }: Situation, pieces: readonly Rows[], band: Band): Stretch[] {
  const found: Stretch[] = [],
    extents = extentsOf(smoothed);
  for (const piece of pieces) {
    let goesOn = false;
    extents.inBlocks(piece, (from, to, block) => {
      const least = extents.least(block),
        most = extents.most(block);
      // Inside, all of it; a block without a reading changes nothing.
      if (least > most) return;
      if (sideOf(least, band) === 0 && sideOf(most, band) === 0 && isReading(smoothed, from, to)) {
        goesOn = false;
        return;
      }
      for (let i = from; i < to; i++) {
        const value = at(smoothed, i);
        if (Number.isNaN(value)) continue;
        const side = sideOf(value, band),
          last = goesOn ? found.at(-1) : undefined;
        goesOn = side !== 0;
        if (side === 0) continue;
        if (last?.side === side) {
          last.rows.to = i + 1;
          last.lasted_s += weight_s(timeline, i);
        } else found.push({ side, rows: { from: i, to: i + 1 }, lasted_s: weight_s(timeline, i) });
      }
    });
  }
  return found;
}

/** Whether there is a reading among some rows. */
function isReading(values: Float64Array, from: number, to: number): boolean {
  for (let i = from; i < to; i++) if (!Number.isNaN(at(values, i))) return true;
  return false;
}

const sideText = (side: -1 | 1): string => (side < 0 ? 'below' : 'above');

/** What the hold leaves out although the oil was warm: a unit that is right only after hours. */
const outsideBeforeHold: Maker = (situation, _found, words) => {
  const { run, hold, band, oil, timeline } = situation;
  if (!run || !hold || !band) return null;
  const { time_s } = timeline;
  let from = rowFrom(time_s, run.start_s + WARM_AFTER_s);
  const low = oil?.operating.low ?? null;
  if (oil && low !== null) {
    from = run.rows.from;
    while (from < run.rows.to && !(at(oil.smoothed, from) >= low)) from++;
  }
  const stretches = outside(situation, within(run.pieces, { from, to: rowFrom(time_s, hold.start_s) }), band);
  const first = stretches[0],
    last = stretches.at(-1);
  const total_s = stretches.reduce((sum, { lasted_s }) => sum + lasted_s, 0);
  if (!first || !last || total_s <= OUTSIDE_BEFORE_s) return null;
  const levels = stretches.map(({ rows }) => median(situation.smoothed.subarray(rows.from, rows.to)));
  const sides = new Set(stretches.map(({ side }) => sideText(side)));
  return {
    code: 'outside-before-hold',
    text: `With the oil ${low === null ? 'likely warm (30 min after engaging)' : 'warm'} the pressure stood ${[...sides].join(' and ')} the band for ${words.duration(total_s)} before the hold, from ${words.duration(at(time_s, first.rows.from))} to ${words.duration(at(time_s, last.rows.to - 1))}${stretches.length > 1 ? ` in ${stretches.length} stretches` : ''}, at ${words.pressure(median(Float64Array.from(levels)))}. The hold starts where the pressure is steady, so that time is not judged: a unit that comes right only after so long deserves a second run, started warm.`,
  };
};

/** From when to when it was outside within the hold: the longest stretch. */
const outsideInHold: Maker = (situation, { quantities }, words) => {
  const { hold, band, timeline } = situation;
  const inside = quantities.timeInBand.inside;
  // A run that is outside for most of its hold needs no stretch named.
  if (!hold || !band || inside === null || inside < 0.5) return null;
  const stretches = outside(situation, hold.pieces, band);
  const [longest] = stretches.toSorted((a, b) => b.lasted_s - a.lasted_s);
  if (!longest || longest.lasted_s < NAMED_FROM_s) return null;
  const { rows, side, lasted_s } = longest;
  const level = median(situation.smoothed.subarray(rows.from, rows.to));
  return {
    code: 'outside-in-hold',
    text: `${stretches.length > 1 ? 'The longest time' : 'The time'} ${sideText(side)} the band within the hold: ${words.duration(lasted_s)}, from ${words.duration(at(timeline.time_s, rows.from))} to ${words.duration(at(timeline.time_s, rows.to - 1))}, at ${words.pressure(level)}.`,
  };
};

/** Engagements that are not judged and stood elsewhere: another setting, or another unit. */
const othersOutside: Maker = ({ run, band, reading, timeline }, _found, words) => {
  if (!run || !band) return null;
  const { time_s } = timeline;
  const others = reading.pressured.flatMap((engagement) => {
    const { from, to } = engagement.rows;
    if (run.engagements.includes(engagement)) return [];
    const start_s = at(time_s, from),
      end_s = at(time_s, to - 1);
    if (end_s - start_s < NAMED_FROM_s) return [];
    const level = median(reading.kept.subarray(rowFrom(time_s, start_s + RISE_s), to));
    return Number.isNaN(level) || sideOf(level, band) === 0 ? [] : [{ start_s, end_s, level }];
  });
  const [first] = others;
  return first
    ? {
        code: 'other-engagement-outside',
        text: `${others.length === 1 ? 'Another engagement' : `${others.length} other engagements`} stood outside the band and ${others.length === 1 ? 'is' : 'are'} not judged: ${others.length === 1 ? 'from' : 'the first from'} ${words.duration(first.start_s)} to ${words.duration(first.end_s)}, at ${words.pressure(first.level)}.`,
      }
    : null;
};

/**
 * Dips that the smoothing takes out of the range sit in the mean: it can lie outside of its own range. By less than a step of the
 * indication, or than the scatter of the mean lets it be known, is no such thing.
 */
const meanOutsideRange: Maker = ({ hold, reading, smoothing }, { quantities, mean }, words) => {
  const { value } = quantities.operatingPressure,
    { min, max } = quantities.holdRange;
  if (!hold || value === null || min === null || max === null) return null;
  const step = (reading.resolution ?? 0) * Math.abs(reading.line.slope);
  const tell = Math.max(step, 2 * (mean?.scatter ?? 0));
  if (value >= min - tell && value <= max + tell) return null;
  const hold_s = hold.end_s - hold.start_s;
  return {
    code: 'mean-outside-range',
    text:
      smoothing.method !== 'none' && hold_s < smoothing.window_s
        ? `The hold lasts ${words.duration(hold_s)}, less than the smoothing over ${words.duration(smoothing.window_s)}: its lowest and highest smoothed pressure, ${words.pressure(min)} and ${words.pressure(max)}, do not show how the pressure moved in it, and its mean, ${words.pressure(value)}, lies outside of them.`
        : `The mean of the hold, ${words.pressure(value)}, lies ${value < min ? 'below' : 'above'} its lowest and highest smoothed pressure, ${words.pressure(min)} and ${words.pressure(max)}: short ${value < min ? 'dips' : 'peaks'}, which the smoothing takes out of those two, are in the mean.`,
  };
};

/** Remarks on where the pressure stood against the band, in and beside what is judged. */
export const bandRemarks: readonly Maker[] = [
  outsideBeforeHold,
  outsideInHold,
  othersOutside,
  meanOutsideRange,
];
