import { exp, log, log1p } from './elementary.ts';
import { normalCdf, normalQuantile } from './normal.ts';

/** Rest of Stirling's series: ln Γ(x) − [(x − ½) ln x − x + ½ ln 2π], for x ≥ 15. */
function stirlingRest(x: number): number {
  const z = 1 / (x * x);
  return (1 / 12 - z * (1 / 360 - z * (1 / 1260 - z * (1 / 1680 - z * (1 / 1188))))) / x;
}

/** ln [Γ(a + ½) / Γ(a)] without the cancellation of two large ln Γ. */
function logGammaRatio(a: number): number {
  let lifted = a;
  let factor = 1;
  // Γ(a + ½)/Γ(a) = [a/(a + ½)] · Γ(a + 1½)/Γ(a + 1), until Stirling's series is good to the last digit.
  while (lifted < 15) {
    factor *= lifted / (lifted + 0.5);
    lifted += 1;
  }
  return (
    lifted * log1p(0.5 / lifted) +
    0.5 * log(lifted) -
    0.5 +
    stirlingRest(lifted + 0.5) -
    stirlingRest(lifted) +
    log(factor)
  );
}

/** Continued fraction of the incomplete beta function, Lentz's way (DLMF 8.17.22, from memory). */
function betaFraction(a: number, b: number, x: number): number {
  const tiny = 1e-300;
  let c = 1;
  let d = 1 - ((a + b) * x) / (a + 1);
  d = 1 / (Math.abs(d) < tiny ? tiny : d);
  let value = d;
  for (let m = 1; m < 10_000; m++) {
    let term = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 + term * d;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    c = 1 + term / c;
    if (Math.abs(c) < tiny) c = tiny;
    value *= d * c;
    term = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 + term * d;
    d = 1 / (Math.abs(d) < tiny ? tiny : d);
    c = 1 + term / c;
    if (Math.abs(c) < tiny) c = tiny;
    const change = d * c;
    value *= change;
    if (Math.abs(change - 1) < 1e-15) break;
  }
  return value;
}

/** Above so many degrees of freedom t and normal agree to all digits that are used. */
const AS_GOOD_AS_NORMAL = 1e10;

/** Upper tail P(T > t) for t ≥ 0. */
function upperTail(t: number, nu: number): number {
  if (nu >= AS_GOOD_AS_NORMAL) return normalCdf(-t);
  if (t === 0) return 0.5;
  const a = 0.5 * nu;
  const ratio = (t * t) / nu;
  // x = ν/(ν + t²) and 1 − x, both without cancellation; ln x = −ln(1 + t²/ν).
  const x = 1 / (1 + ratio);
  const y = ratio / (1 + ratio);
  // 1/B(a, ½) = Γ(a + ½) / (Γ(a) √π).
  const front = (exp(logGammaRatio(a) - a * log1p(ratio)) * Math.sqrt(y)) / Math.sqrt(Math.PI);
  if (x < (a + 1) / (a + 2.5)) return (0.5 * front * betaFraction(a, 0.5, x)) / a;
  return 0.5 - (0.5 * front * betaFraction(0.5, a, y)) / 0.5;
}

function density(t: number, nu: number): number {
  const a = 0.5 * nu;
  return exp(logGammaRatio(a) - (a + 0.5) * log1p((t * t) / nu)) / Math.sqrt(Math.PI * nu);
}

/**
 * Share of Student's t distribution at or below t.
 * @param t any number
 * @param nu degrees of freedom, above 0, not necessarily whole; Infinity gives the normal distribution
 * @returns 0 to 1; NaN where an argument makes no sense
 * @example studentTCdf(2.228138851986273, 10) // 0.975
 */
export function studentTCdf(t: number, nu: number): number {
  if (Number.isNaN(t) || !(nu > 0)) return NaN;
  if (!Number.isFinite(t)) return t > 0 ? 1 : 0;
  return t < 0 ? upperTail(-t, nu) : 1 - upperTail(t, nu);
}

/**
 * The t at or below which a share p of Student's t distribution lies: the coverage factor of JCGM 100:2008, G.3.2, is the
 * quantile at 0.977 25 for a coverage probability of 95.45 %.
 * @param p 0 to 1
 * @param nu degrees of freedom, above 0, not necessarily whole; Infinity gives the normal distribution
 * @returns ±Infinity at 1 and 0, NaN where an argument makes no sense
 * @example studentTQuantile(0.975, 10) // 2.228138851986273
 */
export function studentTQuantile(p: number, nu: number): number {
  if (!(p >= 0 && p <= 1) || !(nu > 0)) return NaN;
  if (p === 0) return -Infinity;
  if (p === 1) return Infinity;
  if (p === 0.5) return 0;
  if (nu >= AS_GOOD_AS_NORMAL) return normalQuantile(p);
  const q = p < 0.5 ? p : 1 - p;
  // A bracket, then Newton's steps kept inside it; the tail falls monotonically, so this always ends.
  let low = 0;
  let high = 2;
  while (upperTail(high, nu) > q && high < 1e300) {
    low = high;
    high *= 4;
  }
  let t = Math.min(Math.max(-normalQuantile(q), low), high);
  for (let step = 0; step < 200; step++) {
    const excess = upperTail(t, nu) - q;
    if (excess > 0) low = t;
    else high = t;
    let next = t + excess / density(t, nu);
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (Math.abs(next - t) <= 1e-15 * next) {
      t = next;
      break;
    }
    t = next;
  }
  return p < 0.5 ? -t : t;
}
