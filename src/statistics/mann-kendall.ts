import { normalCdf } from './normal.ts';

/** Result of the Mann–Kendall test. */
export interface MannKendall {
  /** Pairs that rise less pairs that fall. */
  s: number;
  /** Variance of s without trend, ties allowed for, before widening. */
  variance: number;
  /** s brought one nearer to zero, over its (widened) standard deviation. */
  z: number;
  /** Two-sided: chance of so large a |z| where there is no trend. */
  probability: number;
  /** s over the number of pairs. */
  tau: number;
}

/** Variance of Kendall's S without trend: [n(n−1)(2n+5) − Σ t(t−1)(2t+5)]/18 over groups of t equal values. */
export function kendallVariance(values: Float64Array): number {
  const n = values.length;
  const sorted = values.slice().sort();
  let ties = 0;
  let start = 0;
  for (let i = 1; i <= n; i++)
    if (i === n || sorted[i] !== sorted[start]) {
      const t = i - start;
      ties += t * (t - 1) * (2 * t + 5);
      start = i;
    }
  return (n * (n - 1) * (2 * n + 5) - ties) / 18;
}

/**
 * Mann–Kendall test: do later values tend to be higher, or lower, than earlier ones?
 * Source: USEPA, Unified Guidance (EPA 530/R-09-007, 2009), 17.3.2. Presumes independent values: give it block medians, and the
 * widening that their remaining correlation asks for.
 * @param values in order of time, NaN left out
 * @param options.widen factor on the standard deviation of s, 1 or more ({@link serialWidening})
 * @returns null below three values
 * Cost: all pairs, so at most a few thousand values.
 * @example mannKendall([1, 2, 3, 4])?.s // 6
 */
export function mannKendall(values: ArrayLike<number>, options: { widen?: number } = {}): MannKendall | null {
  const y = Float64Array.from(values).filter((value) => Number.isFinite(value));
  const n = y.length;
  if (n < 3) return null;
  let s = 0;
  for (let i = 1; i < n; i++) {
    const later = y[i] ?? NaN;
    for (let j = 0; j < i; j++) {
      const earlier = y[j] ?? NaN;
      if (later > earlier) s++;
      else if (later < earlier) s--;
    }
  }
  const variance = kendallVariance(y);
  const z = s === 0 || variance === 0 ? 0 : (s - Math.sign(s)) / (Math.sqrt(variance) * (options.widen ?? 1));
  return { s, variance, z, probability: 2 * normalCdf(-Math.abs(z)), tau: s / ((n * (n - 1)) / 2) };
}
