import type { Criterion } from '#formats/assessment.ts';

/** Room at either end of the rule. */
const MARGIN = 10;
/** Short ticks nearer than this run together. */
const SHORTEST_TICK = 5;
/** "passes" with a little air. */
const WORD_WIDTH = 64;

export interface RuleScale {
  width: number;
  limits: { x: number; value: number }[];
  /** What passes, and the middle of its word; null where there is no room for it. */
  passes: { from: number; to: number; word: number | null };
  /** Around each limit, as wide as the uncertainty; none under the simple rule. */
  near: { from: number; to: number }[];
  /** Half width of {@link near}, in the criterion's unit. */
  guard: number;
  ticks: { x: number; rank: 'short' | 'middle' | 'long' }[];
  reading: { x: number; from: number | null; to: number | null } | null;
}

/**
 * Lays a criterion out on a rule.
 * @param width in px
 * @returns null where the criterion has no limit
 */
export function ruleScale(criterion: Criterion, guardFactor: number, width: number): RuleScale | null {
  const { low, high } = criterion.limits;
  const limits = [low, high].filter((limit): limit is number => limit !== null);
  if (limits.length === 0) return null;
  const { value, expandedUncertainty } = criterion;
  const reach = expandedUncertainty ?? 0;
  const guard = criterion.decisionRule === 'guarded' ? guardFactor * reach : 0;
  const band = low !== null && high !== null ? high - low : Math.abs(limits[0] ?? 0) * 0.1 || 1;
  const ends = [...limits.flatMap((limit) => [limit - guard, limit + guard]), ...limits];
  if (value !== null) ends.push(value - reach, value + reach);
  const pad = Math.max(band / 2, (Math.max(...ends) - Math.min(...ends)) * 0.08);
  // Durations, shares and one-sided sizes have no room below nothing.
  const never = low === null && (value ?? 0) >= 0 && (high ?? 0) >= 0;
  const from = never ? Math.max(0, Math.min(...ends) - pad) : Math.min(...ends) - pad;
  const share = criterion.unit === '1';
  const to = share ? Math.max(1, ...ends) : Math.max(...ends) + pad;
  const perPx = (to - from) / (width - 2 * MARGIN);
  const x = (at: number): number => Math.round((MARGIN + (at - from) / perPx) * 10) / 10;
  const passes = { from: low === null ? MARGIN : x(low), to: high === null ? width - MARGIN : x(high) };
  const clear = {
    from: passes.from + (low === null ? 0 : guard / perPx),
    to: passes.to - (high === null ? 0 : guard / perPx),
  };
  const middle = (clear.from + clear.to) / 2;
  const covered =
    value !== null && Math.abs(x(value) - middle) < WORD_WIDTH / 2 + Math.max(12, reach / perPx);
  return {
    width,
    limits: limits.map((limit) => ({ x: Math.round(x(limit)), value: limit })),
    passes: { ...passes, word: clear.to - clear.from >= WORD_WIDTH && !covered ? middle : null },
    near: guard > 0 ? limits.map((limit) => ({ from: x(limit - guard), to: x(limit + guard) })) : [],
    guard,
    ticks: ticks(from, to, perPx, x),
    reading:
      value === null
        ? null
        : {
            x: x(value),
            from: reach > 0 ? x(value - reach) : null,
            to: reach > 0 ? x(value + reach) : null,
          },
  };
}

/** As on a steel rule: a longer tick at every fifth, the longest at every tenth. */
function ticks(from: number, to: number, perPx: number, x: (at: number) => number): RuleScale['ticks'] {
  let step = 10 ** Math.ceil(Math.log10(perPx * SHORTEST_TICK));
  for (const part of [0.2, 0.5]) if (step * part >= perPx * SHORTEST_TICK) step *= part;
  const result: RuleScale['ticks'] = [];
  for (let k = Math.ceil(from / step - 1e-9); k * step <= to + step * 1e-9; k++)
    result.push({ x: x(k * step), rank: k % 10 === 0 ? 'long' : k % 5 === 0 ? 'middle' : 'short' });
  return result;
}
