import { mean } from './mean.ts';

/**
 * How much a value resembles the one before it: Σ (yᵢ − ȳ)(yᵢ₋₁ − ȳ) / Σ (yᵢ − ȳ)² (the definition of NIST StRD, univariate).
 * @param values in order of time; a pair with a NaN in it counts for nothing
 * @returns −1 to 1; NaN under two readings or where all are equal
 * @example lagOneCorrelation([1, 2, 3]) // 0
 */
export function lagOneCorrelation(values: ArrayLike<number>): number {
  return likeness(values, mean(values));
}

/** A loop of its own, so that an engine compiles no more than that. */
function likeness(values: ArrayLike<number>, centre: number): number {
  let products = 0;
  let squares = 0;
  let before = NaN;
  for (let i = 0; i < values.length; i++) {
    const deviation = (values[i] ?? NaN) - centre;
    if (!Number.isNaN(deviation)) {
      squares += deviation * deviation;
      if (!Number.isNaN(before)) products += deviation * before;
    }
    before = deviation;
  }
  return squares > 0 ? products / squares : NaN;
}

/**
 * Factor by which a standard error of what was taken for independent grows when neighbours are correlated: √((1 + r)/(1 − r)),
 * the factor of a first-order autoregressive series.
 * @param r lag-one correlation; held to 0 … `atMost`, NaN counts as 0
 * @returns 1 or more
 * @example serialWidening(0.6) // 2
 */
export function serialWidening(r: number, atMost = 0.95): number {
  const held = r > 0 ? Math.min(r, atMost) : 0;
  return Math.sqrt((1 + held) / (1 - held));
}
