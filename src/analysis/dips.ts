import { median } from '#statistics/median.ts';
import type { Engagement } from './engagements.ts';
import type { Solenoid } from './solenoid.ts';
import { at, type Rows, type Timeline } from './timeline.ts';

/** A dip goes more than a tenth below the run's median, for so many readings together; shorter is a spike. */
const DIP_SHARE = 0.1;
const DIP_SAMPLES = 3;
/** Engaging is over when the pressure is back within a twentieth of where it was. */
const BACK_SHARE = 0.05;
/** A sag that lasts longer is no dip on engaging: the oil that the pistons take is made up in seconds. Common practice, no source. */
const DIP_AT_MOST_s = 60;
/** The engage instant lies at most so far before the dip is deep enough to count. */
const ONSET_s = 10;

/**
 * Engagements of a unit that stays charged: from the solenoid where it is logged, otherwise from dips of the pressure.
 * A dip counts only after the pressure first reached nine tenths of the run's median, and only if it comes back.
 * @param values judged pressure, NaN where missing, fault or out of range
 * @param charged charged stretches, in order
 */
export function engagementsOfCharged(
  timeline: Timeline,
  values: Float64Array,
  charged: readonly Engagement[],
  solenoid: Solenoid | null,
): Engagement[] {
  return charged.flatMap((stretch) =>
    solenoid
      ? bySolenoid(stretch.rows, solenoid)
      : byDips(timeline, values, stretch.rows, dipRows(timeline, values, stretch.rows)),
  );
}

function bySolenoid({ from, to }: Rows, solenoid: Solenoid): Engagement[] {
  const edges = solenoid.edges.filter((edge) => edge.row >= from && edge.row <= to);
  return edges.flatMap((edge, index): Engagement[] => {
    if (!edge.on) return [];
    const next = edges[index + 1];
    return [
      {
        rows: { from: edge.row, to: next?.row ?? to },
        pressureFrom: edge.row,
        beganBefore: false,
        endsOpen: next === undefined,
        fromSolenoid: true,
        toSolenoid: next !== undefined,
        lost: [],
      },
    ];
  });
}

function byDips(
  _timeline: Timeline,
  _values: Float64Array,
  stretch: Rows,
  dips: readonly number[],
): Engagement[] {
  return dips.map((row, index): Engagement => ({
    rows: { from: row, to: dips[index + 1] ?? stretch.to },
    pressureFrom: row,
    beganBefore: false,
    endsOpen: index === dips.length - 1,
    fromSolenoid: false,
    toSolenoid: false,
    lost: [],
  }));
}

/** Rows at which dips begin: the first reading after the last one that still stood. O(n). */
function dipRows({ time_s }: Timeline, values: Float64Array, { from, to }: Rows): number[] {
  const level = median(values.subarray(from, to));
  const low = (1 - DIP_SHARE) * level,
    back = (1 - BACK_SHARE) * level;
  const found: number[] = [];
  let row = from;
  while (row < to && !(at(values, row) >= low)) row++;
  // `onset`: first reading below nineteen twentieths since the last one above; `below`: readings under nine tenths in a row.
  let onset = -1,
    below = 0,
    deepFrom = -1,
    deep = false;
  for (; row < to; row++) {
    const value = at(values, row);
    if (Number.isNaN(value)) continue;
    if (value >= back) {
      if (deep && at(time_s, row) - at(time_s, deepFrom) <= DIP_AT_MOST_s) {
        const start = onset >= 0 && at(time_s, deepFrom) - at(time_s, onset) <= ONSET_s ? onset : deepFrom;
        found.push(start);
      }
      onset = deepFrom = -1;
      below = 0;
      deep = false;
      continue;
    }
    if (onset < 0) onset = row;
    if (value < low) {
      if (below === 0 && !deep) deepFrom = row;
      below++;
      if (below >= DIP_SAMPLES) deep = true;
    } else below = 0;
  }
  return found;
}
