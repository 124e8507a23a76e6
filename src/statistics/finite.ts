/**
 * The readings that are there: a plain array of the finite values, in order.
 * The package's median and quantile give a plausible wrong number when a NaN is among the values, its mean gives NaN.
 * @param values any length, NaN for no reading
 */
export function finite(values: ArrayLike<number>): number[] {
  let count = 0;
  for (let i = 0; i < values.length; i++) if (Number.isFinite(values[i] ?? NaN)) count++;
  // Filled with a fraction first: the engine then keeps plain doubles, which a list that grows does not get in one go.
  const kept: number[] = [];
  kept.length = count;
  kept.fill(0.5);
  let next = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? NaN;
    if (Number.isFinite(value)) kept[next++] = value;
  }
  return kept;
}
