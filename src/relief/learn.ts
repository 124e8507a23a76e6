/** One change of the setting that was made: how far, what the pressure did, and how well that is known. */
export interface Change {
  date: string | undefined;
  /** Of another unit of the type; undefined: of the unit that is to be set. */
  serial?: string | undefined;
  /** After less before, mm; not 0. */
  change_mm: number;
  /** After less before, in one pressure unit. */
  difference: number;
  /** Of the difference: both readings and one refitting; 0 where nothing is stated. */
  standardUncertainty: number;
  /** The readings themselves, in the unit of the difference: the re-test of one change is the test before the next. */
  readings?: { before: Reading; after: Reading };
}
interface Reading {
  value: number;
  standardUncertainty: number;
}

/** Pressure per millimetre as earlier changes show it. */
export interface Learned {
  value: number;
  standardUncertainty: number;
  /** Infinity where the stated uncertainties explain the scatter. */
  degreesOfFreedom: number;
  used: Change[];
  /** Named and left out of the estimate. */
  outliers: { change: Change; expected: number; standardUncertainty: number }[];
  /** The changes scatter more than the stated uncertainties allow; the estimate's uncertainty is widened by so much. */
  widened: number;
}

/** How far, in standard uncertainties, a change must lie from what the others say to be called an outlier. Our choice; 1 in 2000 by chance. */
export const OUTLIER = 3.5;
/** Fewer changes cannot tell which of them is odd. */
export const ENOUGH_TO_TELL = 4;

interface Fit {
  value: number;
  standardUncertainty: number;
  chiSquared: number;
}

/** Weighted least squares through the origin, y = s·x: weights 1/u², standard uncertainty 1/√Σ(x/u)². */
function throughOrigin(changes: readonly Change[]): Fit {
  let xx = 0,
    xy = 0;
  for (const { change_mm: x, difference: y, standardUncertainty: u } of changes) {
    xx += (x / u) * (x / u);
    xy += ((x / u) * y) / u;
  }
  const value = xy / xx;
  let chiSquared = 0;
  for (const { change_mm: x, difference: y, standardUncertainty: u } of changes) {
    const residual = (y - value * x) / u;
    chiSquared += residual * residual;
  }
  return { value, standardUncertainty: 1 / Math.sqrt(xx), chiSquared };
}

/** One change ends with the very reading that the other begins with: same unit, same value, same uncertainty. */
function shareReading(ended: Change, begun: Change): number {
  const after = ended.readings?.after,
    before = begun.readings?.before;
  return ended !== begun &&
    ended.serial === begun.serial &&
    after !== undefined &&
    before !== undefined &&
    after.value === before.value &&
    after.standardUncertainty === before.standardUncertainty
    ? after.standardUncertainty * after.standardUncertainty
    : 0;
}

/**
 * By how much the uncertainty of the slope grows where changes share readings: the variance of the weighted estimate Σ(x/u²)y ÷ Σ(x/u)²
 * with the covariances of the differences, −u² of a shared reading, in it (the law of propagation with covariances, JCGM 100:2008, 5.2.2, Eq. 13, from memory). Steps up and back share them
 * with the same sign and make it larger, √1.5 for one there and one back. Where it would come out smaller it is left as it is.
 */
function forSharedReadings(changes: readonly Change[]): number {
  let xx = 0;
  for (const { change_mm: x, standardUncertainty: u } of changes) xx += (x / u) * (x / u);
  let covariance = 0;
  for (const ended of changes)
    for (const begun of changes) {
      const shared = shareReading(ended, begun);
      if (shared === 0) continue;
      const weight = (change: Change): number =>
        change.change_mm / (change.standardUncertainty * change.standardUncertainty);
      covariance -= 2 * weight(ended) * weight(begun) * shared;
    }
  return Math.sqrt(1 + Math.max(0, covariance / xx));
}

/**
 * Whether a sum of squared standard residuals is beyond what chance gives in 19 of 20 cases (upper 5 % point of χ² by Wilson and
 * Hilferty's cube, from memory; within 3 % of the exact point).
 */
export function tooScattered(chiSquared: number, degreesOfFreedom: number): boolean {
  const spread = 2 / (9 * degreesOfFreedom);
  const root = 1 - spread + 1.6448536269514722 * Math.sqrt(spread);
  return chiSquared / degreesOfFreedom > root * root * root;
}

/** Changes without any stated uncertainty take the largest that is stated; without one all weigh alike. */
function withUncertainty(changes: readonly Change[]): { changes: Change[]; stated: boolean } {
  const largest = Math.max(0, ...changes.map(({ standardUncertainty }) => standardUncertainty));
  const replacement = largest > 0 ? largest : 1;
  return {
    stated: largest > 0,
    changes: changes.map((change) =>
      change.standardUncertainty > 0 ? change : { ...change, standardUncertainty: replacement },
    ),
  };
}

/** What the others say of each change, and how far it lies from that, in standard uncertainties of the difference. */
function heldAgainstOthers(
  changes: readonly Change[],
): { change: Change; expected: number; u: number; distance: number }[] {
  let xx = 0,
    xy = 0;
  for (const { change_mm: x, difference: y, standardUncertainty: u } of changes) {
    xx += (x / u) * (x / u);
    xy += ((x / u) * y) / u;
  }
  return changes.map((change) => {
    const { change_mm: x, difference: y, standardUncertainty: own } = change;
    const others = xx - (x / own) * (x / own);
    const expected = ((xy - ((x / own) * y) / own) / others) * x;
    const u = Math.sqrt(own * own + (x * x) / others);
    return { change, expected, u, distance: Math.abs(y - expected) / u };
  });
}

/**
 * Pressure per millimetre from earlier changes: least squares through the origin (no change, no difference) with the errors of the
 * readings as weights. Errors of different readings are taken as independent; an error of the gauge that both readings of a change share
 * would cancel, so there the result is rather too careful. A reading that ends one change and begins the next is counted as the one that it
 * is where that makes the uncertainty larger. Where the changes scatter more than stated, the uncertainty is widened by √(χ²/ν) with
 * ν = n − 1; where nothing is stated, the scatter alone gives it. An outlier is named and left out, one at a time, farthest first.
 * @param changes in any order; those without a change of the stack are of no use here
 * @returns null without a change; standard uncertainty 0 from a single change of which nothing is stated
 */
export function learn(changes: readonly Change[]): Learned | null {
  const useful = changes.filter(({ change_mm }) => change_mm !== 0);
  if (useful.length === 0) return null;
  const { changes: weighted, stated } = withUncertainty(useful);
  let used = weighted;
  const outliers: Learned['outliers'] = [];
  for (let round = stated ? useful.length : 0; round > 0 && used.length >= ENOUGH_TO_TELL; round--) {
    const farthest = heldAgainstOthers(used).reduce((a, b) => (b.distance > a.distance ? b : a));
    if (farthest.distance <= OUTLIER) break;
    outliers.push({ change: farthest.change, expected: farthest.expected, standardUncertainty: farthest.u });
    used = used.filter((change) => change !== farthest.change);
  }
  const fit = throughOrigin(used);
  const nu = used.length - 1;
  if (!stated)
    return {
      value: fit.value,
      standardUncertainty: nu === 0 ? 0 : fit.standardUncertainty * Math.sqrt(fit.chiSquared / nu),
      degreesOfFreedom: nu === 0 ? Infinity : nu,
      used,
      outliers,
      widened: 1,
    };
  const widened = nu > 0 && tooScattered(fit.chiSquared, nu) ? Math.sqrt(fit.chiSquared / nu) : 1;
  return {
    value: fit.value,
    standardUncertainty: fit.standardUncertainty * widened * forSharedReadings(used),
    degreesOfFreedom: widened > 1 ? nu : Infinity,
    used,
    outliers,
    widened,
  };
}
