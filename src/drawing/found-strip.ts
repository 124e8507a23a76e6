import type { Criterion } from '#formats/assessment.ts';
import { BLACK, line, WHITE, type Drawing, type Item } from './display-list.ts';
import { hatch } from './hatch.ts';

export const STRIP_WIDTH = 48;
export const STRIP_HEIGHT = 5.6;
const BASE = 5.1;
const HATCH_TALL = 3.8;
const MIDDLE = BASE - HATCH_TALL / 2;
const PITCH = 1.1;
const DOT_RADIUS = 1.15;
/** A value never touches the strip's end. */
const SPARE = 0.06;

/**
 * The same picture small, in a table row: what is allowed as the clear part between walls, what was found as a dot with its ± U.
 * Two limits stand at one and two thirds; a single one leaves room on both sides; where the value lies further out the scale grows and
 * the walls move. Nothing without a value or a limit.
 * @param interval in place of ± U, where what was found has one of its own (drift)
 */
export function foundStrip(
  criterion: Criterion,
  interval: { low: number; high: number } | null = null,
): Drawing | null {
  const { limits, unit } = criterion;
  if (criterion.value === null) return null;
  // A limit on the size of a change: the size is shown, the words give its direction.
  const isSize = criterion.id === 'drift' && limits.high !== null;
  const value = isSize ? Math.abs(criterion.value) : criterion.value;
  const low = isSize ? null : limits.low,
    { high } = limits;
  const U = criterion.expandedUncertainty ?? 0;
  const ends =
    interval === null ? { low: value - U, high: value + U } : isSize ? sizesOf(interval) : interval;
  const scale = scaleOf(low, high, unit === '1' || unit === 'percent', value, ends);
  if (!scale) return null;
  const x = (level: number): number => ((level - scale.from) / (scale.to - scale.from)) * STRIP_WIDTH;
  const top = BASE - HATCH_TALL;
  const items: Item[] = [];
  if (low !== null)
    items.push(...hatch({ x: 0, y: top, width: x(low), height: HATCH_TALL }, true, PITCH, 0.11));
  if (high !== null)
    items.push(
      ...hatch({ x: x(high), y: top, width: STRIP_WIDTH - x(high), height: HATCH_TALL }, true, PITCH, 0.11),
    );
  items.push(line(0, BASE, STRIP_WIDTH, BASE, 0.18));
  for (const limit of [low, high])
    if (limit !== null) items.push(line(x(limit), BASE - 5 + 0.3, x(limit), BASE + 0.3, 0.45));
  items.push(...mark(x(value), x(ends.low), x(ends.high), ends.high > ends.low));
  return { width: STRIP_WIDTH, height: STRIP_HEIGHT, items };
}

/** An interval of a change with its sign, as sizes: one that holds zero starts there. */
function sizesOf({ low, high }: { low: number; high: number }): { low: number; high: number } {
  const a = Math.abs(low),
    b = Math.abs(high);
  return { low: low <= 0 && high >= 0 ? 0 : Math.min(a, b), high: Math.max(a, b) };
}

function mark(at: number, from: number, to: number, withBar: boolean): Item[] {
  const items: Item[] = [{ kind: 'dot', x: at, y: MIDDLE, radius: DOT_RADIUS + 0.35, fill: WHITE }];
  const left = Math.max(0, from),
    right = Math.min(STRIP_WIDTH, to);
  if (withBar && right - left > 0.1) {
    const bar = [
      [left, MIDDLE, right, MIDDLE],
      ...(from >= 0 ? [[left, MIDDLE - 0.9, left, MIDDLE + 0.9]] : []),
      ...(to <= STRIP_WIDTH ? [[right, MIDDLE - 0.9, right, MIDDLE + 0.9]] : []),
    ];
    items.push(
      { kind: 'lines', lines: bar, stroke: { width: 1.1, ink: WHITE } },
      { kind: 'lines', lines: bar, stroke: { width: 0.4, ink: BLACK } },
    );
  }
  return [...items, { kind: 'dot', x: at, y: MIDDLE, radius: DOT_RADIUS, fill: BLACK }];
}

function scaleOf(
  low: number | null,
  high: number | null,
  isShare: boolean,
  value: number,
  ends: { low: number; high: number },
): { from: number; to: number } | null {
  const lowest = Math.min(value, ends.low),
    highest = Math.max(value, ends.high);
  if (isShare && (low === null || high === null)) return { from: 0, to: 1 };
  if (low !== null && high !== null) {
    const width = high - low;
    const from = low - width,
      to = high + width;
    return {
      from: lowest < from + SPARE * width ? lowest - 0.2 * width : from,
      to: highest > to - SPARE * width ? highest + 0.2 * width : to,
    };
  }
  const limit = low ?? high;
  if (limit === null) return null;
  // Zero is where such a quantity starts; a limit at or below zero has no such start.
  const size = Math.abs(limit) || Math.abs(value) || 1;
  const usual = limit <= 0 ? limit + size : high !== null ? 1.45 * limit : (11 / 6) * limit;
  const to = Math.max(usual, highest + SPARE * size);
  return { from: Math.min(limit <= 0 ? limit - size : 0, lowest < 0 ? lowest - SPARE * size : 0), to };
}
