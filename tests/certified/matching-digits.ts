/**
 * How many leading digits of a result agree with the certified value: −log10 of the relative error, at most 15 (what NIST's StRD pages
 * call LRE); for a certified zero of the absolute error.
 */
export function matchingDigits(result: number, certified: number): number {
  if (result === certified) return 15;
  if (!Number.isFinite(result)) return 0;
  const error = Math.abs(result - certified) / (certified === 0 ? 1 : Math.abs(certified));
  return Math.max(0, Math.min(15, -Math.log10(error)));
}
