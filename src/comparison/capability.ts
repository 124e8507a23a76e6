/** How the spread of a process lies in its limits. */
export interface Capability {
  /** (H − L)/6s; null for one-sided limits. */
  cp: number | null;
  /** Distance of the mean from the nearer limit over 3s. */
  cpk: number;
}

/**
 * Capability indices. Source: NIST/SEMATECH e-Handbook, 6.1.6 (read second-hand): C_p = (USL − LSL)/6s, C_pk the smaller of
 * (USL − x̄)/3s and (x̄ − LSL)/3s.
 * @param standardDeviation sample standard deviation, above 0
 * @param limits at least one of them
 */
export function capability(
  mean: number,
  standardDeviation: number,
  limits: { low: number | null; high: number | null },
): Capability {
  const { low, high } = limits;
  const up = high === null ? Infinity : (high - mean) / (3 * standardDeviation);
  const down = low === null ? Infinity : (mean - low) / (3 * standardDeviation);
  return {
    cp: low === null || high === null ? null : (high - low) / (6 * standardDeviation),
    cpk: Math.min(up, down),
  };
}
