/** A stack of shims that can be made. */
export interface Stack {
  total_mm: number;
  /** Thickest first. */
  shims_mm: number[];
}
/** Shims of one thickness. */
export interface ShimKind {
  thickness_mm: number;
  /** How many are there at all, the fitted ones included; null: enough of them. */
  count: number | null;
  /** How many of them are fitted now. */
  fitted: number;
}

/** Thicknesses are told apart to a ten-thousandth of a millimetre (a tenth of a micrometre; imperial shims need it). */
const GRAIN_PER_MM = 10_000;
/** No more steps than this are counted: 10 m of 0.1 mm shims, 10 mm of thicknesses that share no more than a ten-thousandth. */
const STEPS_AT_MOST = 100_000;

const greatestCommonDivisor = (a: number, b: number): number =>
  b === 0 ? a : greatestCommonDivisor(b, a % b);

/** What is fitted and what lies in stock, as one list of kinds. */
export function shimKinds(
  fitted_mm: readonly number[],
  stock: readonly { thickness_mm: number; count: number | null }[],
): ShimKind[] {
  const kinds = new Map<number, ShimKind>();
  const kind = (thickness: number): ShimKind => {
    const key = Math.round(thickness * GRAIN_PER_MM);
    const known = kinds.get(key) ?? { thickness_mm: key / GRAIN_PER_MM, count: 0, fitted: 0 };
    kinds.set(key, known);
    return known;
  };
  for (const { thickness_mm, count } of stock) {
    const one = kind(thickness_mm);
    one.count = count === null || one.count === null ? null : one.count + count;
  }
  for (const thickness of fitted_mm) {
    const one = kind(thickness);
    one.fitted += 1;
    if (one.count !== null) one.count += 1;
  }
  return [...kinds.values()]
    .filter(({ thickness_mm, count }) => thickness_mm > 0 && count !== 0)
    .toSorted((a, b) => b.thickness_mm - a.thickness_mm);
}

/** How high stacks are looked for: `atMost_mm`, or less where the thicknesses share nothing but the finest grain. */
export function searchedHeight_mm(kinds: readonly ShimKind[], atMost_mm: number): number {
  const divisor = kinds
    .map(({ thickness_mm }) => Math.round(thickness_mm * GRAIN_PER_MM))
    .reduce(greatestCommonDivisor, 0);
  return Math.min(atMost_mm, (STEPS_AT_MOST * divisor) / GRAIN_PER_MM);
}

/**
 * Every height that can be made, each with the stack of fewest shims and, among those, of most that are fitted already.
 * By counting up heights kind by kind (a bounded knapsack); O(kinds × heights × count).
 * @param kinds thickest first
 * @param atMost_mm height that no stack may exceed
 * @returns by rising height, the empty stack first
 */
export function reachableStacks(kinds: readonly ShimKind[], atMost_mm: number): Stack[] {
  const thicknesses = kinds.map(({ thickness_mm }) => Math.round(thickness_mm * GRAIN_PER_MM));
  const divisor = thicknesses.reduce(greatestCommonDivisor, 0);
  if (divisor === 0) return [{ total_mm: 0, shims_mm: [] }];
  const most = Math.floor(Math.round(atMost_mm * GRAIN_PER_MM) / divisor);
  const steps = Math.min(most, STEPS_AT_MOST);
  // Cost of a height: 1000 a shim, 1 more for each that is not fitted now.
  let cost = new Float64Array(steps + 1).fill(Infinity);
  cost[0] = 0;
  const chosen: Uint16Array[] = [];
  kinds.forEach(({ count, fitted }, at) => {
    const size = (thicknesses[at] ?? 0) / divisor;
    const next = cost.slice();
    const taken = new Uint16Array(steps + 1);
    const available = Math.min(count ?? Infinity, Math.floor(steps / size));
    for (let number = 1; number <= available; number++) {
      const price = 1000 * number + Math.max(0, number - fitted);
      for (let height = number * size; height <= steps; height++) {
        const sum = (cost[height - number * size] ?? Infinity) + price;
        if (sum < (next[height] ?? Infinity)) {
          next[height] = sum;
          taken[height] = number;
        }
      }
    }
    cost = next;
    chosen.push(taken);
  });
  const stacks: Stack[] = [];
  for (let height = 0; height <= steps; height++) {
    if (cost[height] === Infinity) continue;
    const shims_mm: number[] = [];
    let rest = height;
    for (let at = kinds.length - 1; at >= 0; at--) {
      const number = chosen[at]?.[rest] ?? 0;
      for (let i = 0; i < number; i++) shims_mm.unshift(kinds[at]?.thickness_mm ?? 0);
      rest -= number * ((thicknesses[at] ?? 0) / divisor);
    }
    stacks.push({
      total_mm: (height * divisor) / GRAIN_PER_MM,
      shims_mm: shims_mm.toSorted((a, b) => b - a),
    });
  }
  return stacks;
}
