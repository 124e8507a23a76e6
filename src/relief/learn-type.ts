import { ENOUGH_TO_TELL, learn, OUTLIER, type Change, type Learned } from './learn.ts';

/** What other units of a type tell of one that is not among them. */
export interface LearnedType extends Learned {
  units: number;
  /** Standard deviation of the pressure per millimetre from unit to unit; null where one unit cannot tell. */
  betweenUnits: number | null;
}

interface Mean {
  value: number;
  /** Of the mean of the type. */
  standardUncertainty: number;
  betweenUnits: number;
  units: number;
}

/** What one unit's changes add up to: enough for its slope, and for its slope without one of them. */
interface Sums {
  xx: number;
  xy: number;
  count: number;
}

const added = (
  sums: Sums | undefined,
  { change_mm, difference, standardUncertainty: u }: Change,
  times: 1 | -1,
): Sums => ({
  xx: (sums?.xx ?? 0) + times * (change_mm / u) * (change_mm / u),
  xy: (sums?.xy ?? 0) + (times * ((change_mm / u) * difference)) / u,
  count: (sums?.count ?? 0) + times,
});

function sumsOf(changes: readonly Change[]): Map<string, Sums> {
  const units = new Map<string, Sums>();
  for (const change of changes) {
    const serial = change.serial ?? '';
    units.set(serial, added(units.get(serial), change, 1));
  }
  return units;
}

/**
 * Mean of the units' slopes and their spread from unit to unit: moments of the weighted sum of squares (DerSimonian and Laird, 1986, from
 * memory), weights 1/(u² + τ²).
 */
function meanOfUnits(units: Iterable<Sums>): Mean {
  const slopes: { value: number; variance: number }[] = [];
  for (const { xx, xy, count } of units)
    // Least squares through the origin: slope Σxy/u² ÷ Σx²/u², its variance 1 ÷ Σx²/u².
    if (count > 0) slopes.push({ value: xy / xx, variance: 1 / xx });
  const weigh = (spread: number): { value: number; sum: number } => {
    let sum = 0,
      weighted = 0;
    for (const { value, variance } of slopes) {
      const weight = 1 / (variance + spread);
      sum += weight;
      weighted += weight * value;
    }
    return { value: weighted / sum, sum };
  };
  const plain = weigh(0);
  let q = 0,
    squares = 0;
  for (const { value, variance } of slopes) {
    q += ((value - plain.value) * (value - plain.value)) / variance;
    squares += 1 / (variance * variance);
  }
  const room = plain.sum - squares / plain.sum;
  const spread = slopes.length > 1 ? Math.max(0, (q - (slopes.length - 1)) / room) : 0;
  const { value, sum } = weigh(spread);
  return {
    value,
    standardUncertainty: 1 / Math.sqrt(sum),
    betweenUnits: Math.sqrt(spread),
    units: slopes.length,
  };
}

/** The same without one of the changes. */
function meanWithout(units: ReadonlyMap<string, Sums>, change: Change): Mean {
  const own = change.serial ?? '';
  return meanOfUnits([...units].map(([serial, sums]) => (serial === own ? added(sums, change, -1) : sums)));
}

/** Of a unit that is not among those that the mean is of. */
const forAnother = ({ standardUncertainty: u, betweenUnits: t }: Mean): number => Math.sqrt(u * u + t * t);

/** Largest stated uncertainty for those that state none; null where none does. */
function stated(changes: readonly Change[]): Change[] | null {
  const largest = Math.max(0, ...changes.map(({ standardUncertainty }) => standardUncertainty));
  return largest === 0
    ? null
    : changes.map((change) =>
        change.standardUncertainty > 0 ? change : { ...change, standardUncertainty: largest },
      );
}

/**
 * Pressure per millimetre of a type, for a unit of which nothing is known: a slope through the origin for each unit, their mean, and their
 * spread from unit to unit, which a new unit has too. So a unit's own changes outweigh the type's the sooner, the more units differ.
 * Outliers are named and left out as in `learn`, the spread from unit to unit allowed for. Where nothing is stated, all changes are one pool.
 * @param changes each with the serial of its unit
 * @returns null without a change of a stack. Cost O(n · units) a round of the search of outliers
 */
export function learnType(changes: readonly Change[]): LearnedType | null {
  const useful = changes.filter(({ change_mm }) => change_mm !== 0);
  const weighted = stated(useful);
  const units = new Set(useful.map(({ serial }) => serial)).size;
  if (weighted === null) {
    const pooled = learn(useful);
    return pooled === null ? null : { ...pooled, units, betweenUnits: null };
  }
  let used = weighted;
  const outliers: Learned['outliers'] = [];
  while (used.length >= ENOUGH_TO_TELL) {
    const sums = sumsOf(used);
    const held = used.map((change) => {
      const others = meanWithout(sums, change);
      const expected = others.value * change.change_mm;
      const slope = forAnother(others) * change.change_mm;
      const u = Math.sqrt(change.standardUncertainty * change.standardUncertainty + slope * slope);
      return {
        change,
        expected,
        standardUncertainty: u,
        distance: Math.abs(change.difference - expected) / u,
      };
    });
    const { distance, ...farthest } = held.reduce((a, b) => (b.distance > a.distance ? b : a));
    if (distance <= OUTLIER) break;
    outliers.push(farthest);
    used = used.filter((change) => change !== farthest.change);
  }
  const mean = meanOfUnits(sumsOf(used).values());
  return {
    value: mean.value,
    standardUncertainty: forAnother(mean),
    degreesOfFreedom: mean.betweenUnits > 0 ? mean.units - 1 : Infinity,
    used,
    outliers,
    widened: 1,
    units: mean.units,
    betweenUnits: mean.units > 1 ? mean.betweenUnits : null,
  };
}
