import { exp, expm1 } from './elementary.ts';
import { lagOneCorrelation } from './lag-one-correlation.ts';
import { leastSquares, type LeastSquares } from './least-squares.ts';

/** Why there is no fit: what the data do not say. */
export type NoFitReason =
  /** Fewer readings than it takes. */
  | 'too-few'
  /** All readings the same. */
  | 'constant'
  /** No bend: a straight line, or one that bends the other way, fits as well as any approach. */
  | 'no-bend'
  /** Over before the second reading. */
  | 'too-fast'
  /** The time constant's standard error is larger than the share of it that was asked for. */
  | 'uncertain';

/** A fitted exponential approach, its standard errors and what the residuals say. */
export interface ExponentialApproach {
  ok: true;
  /** Value at t = 0 and for t → ∞. */
  start: number;
  final: number;
  timeConstant: number;
  /** 0 where the start was given. */
  startStandardError: number;
  finalStandardError: number;
  timeConstantStandardError: number;
  /** 1/timeConstant with its standard error, the form in which some references state it. */
  rate: number;
  rateStandardError: number;
  residualSumOfSquares: number;
  residualStandardDeviation: number;
  degreesOfFreedom: number;
  /** Lag-one correlation of the residuals: standard errors presume 0, widen them by it. */
  residualLagOne: number;
  /** Last time over the time constant: how much of the approach was seen. */
  spanInTimeConstants: number;
}
export type ExponentialFit = ExponentialApproach | { ok: false; reason: NoFitReason };

/** What is known before the fit, and how sure it must be. */
export interface ExponentialOptions {
  /** Value at t = 0 where it is known; then only the end and the time constant are fitted. */
  start?: number;
  /** Largest standard error of the time constant as a share of it, default 0.5. */
  relativeErrorAtMost?: number;
}

/** Neighbouring rates of the scan differ by this factor: narrow against the width of any minimum of the sum of squares. */
const SCAN_FACTOR = 1.25;
/** Slowest rate tried, in 1/(last time): 0.02 bends a line by a quarter of a per cent of its rise. */
const SLOWEST = 0.02;
/** Fastest rate tried, in 1/(smallest interval): 98 % of the approach within one interval. */
const FASTEST = 4;
const GOLDEN_STEPS = 48;
const NEWTON_STEPS = 12;
const GOLDEN = 0.6180339887498949;

/**
 * Fits final − (final − start) · e^(−t/τ), the way a body at constant heating goes to its end temperature.
 * The sum of squares is linear in start and final, so only the rate is searched: scan over a logarithmic grid, golden section
 * about its best, Gauss–Newton steps to the last digits. Numbers of steps are fixed, no start value is needed, and the answer
 * is either the least-squares one or a reason why there is none. Proved on NIST StRD Misra1a and BoxBOD (start = 0).
 * Standard errors from the Jacobian at the solution; they presume independent residuals.
 * @param t_s rising, counted from where the approach began; 0 or more
 * @param y same length, NaN for no reading
 * Cost: about 80 passes over the data.
 * @example fitExponentialApproach(t, t.map((s) => 90 - 70 * exp(-s / 1200))) // start 20, final 90, timeConstant 1200
 */
export function fitExponentialApproach(
  t_s: ArrayLike<number>,
  y: ArrayLike<number>,
  options: ExponentialOptions = {},
): ExponentialFit {
  const keptT: number[] = [];
  const keptY: number[] = [];
  let smallest = Infinity;
  let spread = 0;
  for (let i = 0; i < y.length; i++) {
    const ti = t_s[i] ?? NaN;
    const yi = y[i] ?? NaN;
    if (!Number.isFinite(ti) || !Number.isFinite(yi) || ti < 0) continue;
    const interval = ti - (keptT.at(-1) ?? ti);
    if (interval > 0) smallest = Math.min(smallest, interval);
    spread = Math.max(spread, Math.abs(yi - (keptY[0] ?? yi)));
    keptT.push(ti);
    keptY.push(yi);
  }
  const t = Float64Array.from(keptT);
  const values = Float64Array.from(keptY);
  const last = t.at(-1) ?? 0;
  const parameters = options.start === undefined ? 3 : 2;
  if (t.length < parameters + 1 || !(last > 0) || !Number.isFinite(smallest))
    return { ok: false, reason: 'too-few' };
  if (spread === 0) return { ok: false, reason: 'constant' };

  const sumOfSquares = (rate: number): number => linearPart(t, values, rate, options.start).sumOfSquares;
  const slowest = SLOWEST / last;
  const rates = [slowest];
  while ((rates.at(-1) ?? Infinity) < FASTEST / smallest) rates.push((rates.at(-1) ?? slowest) * SCAN_FACTOR);
  let best = 0;
  let least = Infinity;
  rates.forEach((rate, index) => {
    const sum = sumOfSquares(rate);
    if (sum < least) {
      least = sum;
      best = index;
    }
  });
  if (best === 0) return { ok: false, reason: 'no-bend' };
  if (best === rates.length - 1) return { ok: false, reason: 'too-fast' };
  const searched = goldenSection(sumOfSquares, rates[best - 1] ?? slowest, rates[best + 1] ?? slowest);
  return polished(t, values, searched, options);
}

/** Best start and final for a given rate: regression of y on 1 − e^(−kt), centred unless the start is given. */
function linearPart(
  t: Float64Array,
  y: Float64Array,
  rate: number,
  start: number | undefined,
): { start: number; final: number; sumOfSquares: number } {
  const risen = t.map((ti) => -expm1(-rate * ti));
  return endsOf(risen, y, start);
}

/** The same of how far each has risen. */
function endsOf(
  risen: Float64Array,
  y: Float64Array,
  start: number | undefined,
): { start: number; final: number; sumOfSquares: number } {
  const n = y.length;
  let meanU = 0;
  let meanY = start ?? 0;
  if (start === undefined) {
    for (let i = 0; i < n; i++) {
      meanU += risen[i] ?? NaN;
      meanY += y[i] ?? NaN;
    }
    meanU /= n;
    meanY /= n;
  }
  let uu = 0;
  let uy = 0;
  for (let i = 0; i < n; i++) {
    const u = (risen[i] ?? NaN) - meanU;
    uu += u * u;
    uy += u * ((y[i] ?? NaN) - meanY);
  }
  const change = uu > 0 ? uy / uu : 0;
  let sumOfSquares = 0;
  for (let i = 0; i < n; i++) {
    const residual = (y[i] ?? NaN) - meanY - change * ((risen[i] ?? NaN) - meanU);
    sumOfSquares += residual * residual;
  }
  const from = meanY - change * meanU;
  return { start: from, final: from + change, sumOfSquares };
}

function goldenSection(f: (rate: number) => number, from: number, to: number): number {
  let low = from;
  let high = to;
  let a = high - GOLDEN * (high - low);
  let b = low + GOLDEN * (high - low);
  let fa = f(a);
  let fb = f(b);
  for (let step = 0; step < GOLDEN_STEPS; step++) {
    if (fa <= fb) {
      high = b;
      b = a;
      fb = fa;
      a = high - GOLDEN * (high - low);
      fa = f(a);
    } else {
      low = a;
      a = b;
      fa = fb;
      b = low + GOLDEN * (high - low);
      fb = f(b);
    }
  }
  return 0.5 * (low + high);
}

/** Golden section stops where the sum of squares is flat to its last bits, half of the digits; these steps give the other half. */
function polished(
  t: Float64Array,
  y: Float64Array,
  searched: number,
  options: ExponentialOptions,
): ExponentialFit {
  const given = options.start;
  let rate = searched;
  let step: LeastSquares | null = null;
  let ends = linearPart(t, y, rate, given);
  for (let count = 0; count <= NEWTON_STEPS; count++) {
    ends = linearPart(t, y, rate, given);
    const decay = t.map((ti) => exp(-rate * ti));
    const risen = t.map((ti) => -expm1(-rate * ti));
    const change = ends.final - ends.start;
    // The model by its parameters: final, rate and, where it is fitted, start.
    const jacobian = [risen, t.map((ti, i) => change * ti * (decay[i] ?? NaN))];
    if (given === undefined) jacobian.push(decay);
    const residuals = y.map((yi, i) => yi - ends.start - change * (risen[i] ?? NaN));
    step = leastSquares(jacobian, residuals);
    if (!step || count === NEWTON_STEPS) break;
    const next = rate + (step.coefficients[1] ?? NaN);
    // Beyond the neighbours of the scan a step is no polish any more: the sum of squares is too flat there.
    if (!(next > searched / SCAN_FACTOR && next < searched * SCAN_FACTOR)) break;
    // There: every further step would be this one again.
    if (next === rate) break;
    rate = next;
  }
  const limit = options.relativeErrorAtMost ?? 0.5;
  const rateStandardError = step?.standardErrors[1] ?? NaN;
  if (!step || !(rateStandardError / rate <= limit)) return { ok: false, reason: 'uncertain' };
  const timeConstant = 1 / rate;
  const degreesOfFreedom = t.length - (given === undefined ? 3 : 2);
  return {
    ok: true,
    start: ends.start,
    final: ends.final,
    timeConstant,
    startStandardError: given === undefined ? (step.standardErrors[2] ?? NaN) : 0,
    finalStandardError: step.standardErrors[0] ?? NaN,
    timeConstantStandardError: rateStandardError * timeConstant * timeConstant,
    rate,
    rateStandardError,
    residualSumOfSquares: ends.sumOfSquares,
    residualStandardDeviation: Math.sqrt(ends.sumOfSquares / degreesOfFreedom),
    degreesOfFreedom,
    residualLagOne: lagOneCorrelation(step.residuals),
    spanInTimeConstants: (t.at(-1) ?? NaN) * rate,
  };
}
