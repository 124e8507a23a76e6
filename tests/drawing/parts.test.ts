import { describe, expect, test } from 'vitest';
import { clockAt, logClock } from '#drawing/clock.ts';
import { envelope, reducedLine } from '#drawing/columns.ts';
import { moved, textBoxes, text, type Item } from '#drawing/display-list.ts';
import { drawingToSvg } from '#drawing/drawing-to-svg.ts';
import { foundStrip, STRIP_WIDTH } from '#drawing/found-strip.ts';
import { spread } from '#drawing/gap-column.ts';
import { hatch } from '#drawing/hatch.ts';
import type { Criterion } from '#formats/assessment.ts';

describe('hatch', () => {
  const box = { x: 3.3, y: 7.7, width: 20, height: 9 };
  test.each([
    ['rising', true],
    ['falling', false],
  ])('%s: single lines at 45°, evenly apart, cut at the box', (_, rising) => {
    const [item] = hatch(box, rising, 1.5, 0.11);
    if (item?.kind !== 'lines') throw new Error('no lines');
    const places: number[] = [];
    for (const [x1 = NaN, y1 = NaN, x2 = NaN, y2 = NaN] of item.lines) {
      expect(x2).toBeGreaterThan(x1);
      expect(y2 - y1).toBeCloseTo(rising ? x1 - x2 : x2 - x1, 9);
      for (const x of [x1, x2]) expect(x >= box.x - 1e-9 && x <= box.x + box.width + 1e-9).toBe(true);
      for (const y of [y1, y2]) expect(y >= box.y - 1e-9 && y <= box.y + box.height + 1e-9).toBe(true);
      places.push((rising ? x1 + y1 : x1 - y1) / Math.SQRT2);
    }
    places.sort((a, b) => a - b);
    for (let i = 1; i < places.length; i++)
      expect((places[i] ?? 0) - (places[i - 1] ?? 0)).toBeCloseTo(1.5, 9);
    expect(places.length).toBeGreaterThan(10);
  });
  test('neighbouring boxes share their raster', () => {
    const whole = hatch({ x: 0, y: 0, width: 20, height: 5 }, true, 1.5, 0.1);
    const halves = [0, 10].flatMap((x) => hatch({ x, y: 0, width: 10, height: 5 }, true, 1.5, 0.1));
    const offsets = (items: Item[]): Set<string> =>
      new Set(
        items.flatMap((item) =>
          item.kind === 'lines' ? item.lines.map(([x = 0, y = 0]) => (x + y).toFixed(6)) : [],
        ),
      );
    for (const offset of offsets(halves)) expect(offsets(whole)).toContain(offset);
  });
  test('an empty box has none', () => {
    expect(hatch({ x: 0, y: 0, width: 0, height: 5 }, true, 1, 0.1)).toEqual([]);
  });
});

describe('clock of the log', () => {
  test('date and time of day, with or without zone', () => {
    expect(logClock('2026-03-04T08:15:00')).toEqual({ date: '2026-03-04', startSecondOfDay: 29700 });
    expect(logClock('2026-03-04T08:15:30.5+01:00')?.startSecondOfDay).toBe(29730.5);
    expect(logClock('08:15:00')).toEqual({ date: null, startSecondOfDay: 29700 });
    expect(logClock(null)).toBeNull();
  });
  test('runs on over midnight, seconds cut off', () => {
    const clock = logClock('2026-03-04T23:59:30');
    if (!clock) throw new Error('no clock');
    expect(clockAt(clock, 0)).toBe('23:59');
    expect(clockAt(clock, 30)).toBe('00:00');
    expect(clockAt(clock, 3600 * 14 + 29.9)).toBe('13:59');
  });
});

describe('reduction to columns of paper', () => {
  const time_s = Float64Array.from({ length: 5000 }, (_, i) => i);
  const values = time_s.map((t) => Math.sin(t / 37) * 5 + (t % 11));
  const x = (t: number): number => 15 + t / 200;
  test('lowest and highest of each column are those of all its kept readings', () => {
    const flags = Uint8Array.from(time_s, (t) => (t % 97 === 0 ? 5 : 0));
    const [stretch = []] = envelope(time_s, values, flags, x, [], 1);
    const byHand = new Map<number, { lowest: number; highest: number }>();
    time_s.forEach((t, i) => {
      if (flags[i] !== 0) return;
      const index = Math.floor(x(t) / 0.25);
      const old = byHand.get(index) ?? { lowest: Infinity, highest: -Infinity };
      byHand.set(index, {
        lowest: Math.min(old.lowest, values[i] ?? NaN),
        highest: Math.max(old.highest, values[i] ?? NaN),
      });
    });
    expect(stretch.map(({ lowest, highest }) => ({ lowest, highest }))).toEqual([...byHand.values()]);
  });
  test('a gap breaks envelope and line; a slow log does not', () => {
    const gap = { start_s: 1999, end_s: 3000 };
    const rows = [...time_s.keys()].filter((i) => i <= 1999 || i >= 3000);
    const t = Float64Array.from(rows),
      v = Float64Array.from(rows, (i) => values[i] ?? NaN);
    expect(envelope(t, v, new Uint8Array(t.length), x, [gap], 1)).toHaveLength(2);
    expect(reducedLine(t, v, x, [gap])).toHaveLength(2);
    const slow = Float64Array.from({ length: 20 }, (_, i) => i * 250);
    expect(envelope(slow, slow, new Uint8Array(20), x, [], 250)).toHaveLength(1);
  });
  test('the line keeps the extremes and has at most four points a column', () => {
    const [line = []] = reducedLine(time_s, values, x, []);
    const seen = line.filter((_, index) => index % 2 === 1);
    expect(Math.max(...seen)).toBe(Math.max(...values));
    expect(Math.min(...seen)).toBe(Math.min(...values));
    expect(line.length / 2).toBeLessThanOrEqual(4 * Math.ceil(25 / 0.25 + 1));
  });
});

describe('labels pushed apart', () => {
  test('none over another, in order, inside, and at their place where there is room', () => {
    const blocks = [
      { wanted: 10, height: 3 },
      { wanted: 10.5, height: 6 },
      { wanted: 11, height: 3 },
      { wanted: 40, height: 3 },
    ];
    const places = spread(blocks, 0, 50);
    for (let i = 1; i < blocks.length; i++)
      expect(places[i] ?? 0).toBeGreaterThanOrEqual(
        (places[i - 1] ?? 0) + (blocks[i - 1]?.height ?? 0) - 1e-9,
      );
    expect(places[3]).toBe(40);
    expect(places[0]).toBeGreaterThan(4);
  });
  test('at the edges they stay inside', () => {
    expect(
      spread(
        [
          { wanted: -5, height: 3 },
          { wanted: -4, height: 3 },
        ],
        0,
        50,
      ),
    ).toEqual([0, 3]);
    expect(
      spread(
        [
          { wanted: 49, height: 3 },
          { wanted: 49, height: 3 },
        ],
        0,
        50,
      ),
    ).toEqual([44, 47]);
  });
});

describe('found against allowed', () => {
  const criterion = (changes: Partial<Criterion>): Criterion => ({
    id: 'operating-pressure',
    value: 411,
    unit: 'psi',
    expandedUncertainty: 2,
    limits: { low: 400, high: 420 },
    decisionRule: 'guarded',
    probabilityOfConformity: null,
    verdict: 'pass',
    reason: '',
    ...changes,
  });
  const walls = (changes: Partial<Criterion>): number[] =>
    (foundStrip(criterion(changes))?.items ?? []).flatMap((item) =>
      item.kind === 'lines' && item.stroke.width === 0.45 ? item.lines.map(([x = NaN]) => x) : [],
    );
  const dot = (changes: Partial<Criterion>): number =>
    (foundStrip(criterion(changes))?.items ?? []).flatMap((item) =>
      item.kind === 'dot' && item.fill === '#000000' ? [item.x] : [],
    )[0] ?? NaN;
  test('two limits stand at one and two thirds', () => {
    const [low = 0, high = 0] = walls({});
    expect(low).toBeCloseTo(STRIP_WIDTH / 3, 9);
    expect(high).toBeCloseTo((STRIP_WIDTH * 2) / 3, 9);
    expect(dot({})).toBeCloseTo(STRIP_WIDTH / 3 + (11 / 20) * (STRIP_WIDTH / 3), 9);
  });
  test('at most: from zero, the wall at 1/1.45; at least: at 6/11', () => {
    expect(walls({ limits: { low: null, high: 30 }, value: 18 })[0]).toBeCloseTo(STRIP_WIDTH / 1.45, 9);
    expect(walls({ limits: { low: 6, high: null }, value: 6.03, expandedUncertainty: null })[0]).toBeCloseTo(
      (STRIP_WIDTH * 6) / 11,
      9,
    );
  });
  test('a value on the wrong side of a wall is drawn there, however far out', () => {
    for (const value of [148, 399.9, 420.1, 425, 900]) {
      const [low = 0, high = 0] = walls({ value });
      const at = dot({ value });
      expect(value < 400 ? at < low : at > high).toBe(true);
      expect(at >= 0 && at <= STRIP_WIDTH).toBe(true);
    }
  });
  test('a change of either sign is shown by its size', () => {
    const drift = { id: 'drift' as const, limits: { low: -5, high: 5 }, expandedUncertainty: null };
    expect(dot({ ...drift, value: -2.1 })).toBe(dot({ ...drift, value: 2.1 }));
  });
  test('nothing without a value', () => {
    expect(foundStrip(criterion({ value: null }))).toBeNull();
  });
});

describe('display list', () => {
  test('moving moves everything', () => {
    const items: Item[] = [
      {
        kind: 'clip',
        box: { x: 0, y: 0, width: 1, height: 1 },
        items: [{ kind: 'dot', x: 1, y: 2, radius: 1, fill: '#000000' }],
      },
      { kind: 'lines', lines: [[1, 2, 3, 4]], stroke: { width: 1, ink: '#000000' } },
    ];
    expect(moved(items, 10, 100)).toMatchObject([
      { box: { x: 10, y: 100 }, items: [{ x: 11, y: 102 }] },
      { lines: [[11, 102, 13, 104]] },
    ]);
  });
  test('text boxes follow the anchor', () => {
    const width = (): number => 10;
    const [start, middle, end] = ['start', 'middle', 'end'].map(
      (anchor) => textBoxes([text(20, 5, 'x', { anchor: anchor as 'start' })], width)[0]?.x,
    );
    expect([start, middle, end]).toEqual([20, 15, 10]);
  });
  test('SVG escapes what a name may hold and rounds to a micrometre', () => {
    const svg = drawingToSvg(
      { width: 10, height: 5, items: [text(1.23456789, 2, 'O’Hara & <Söhne> "AG"')] },
      { title: 'a<b', description: 'c&d', language: 'en', fontFamily: 'x' },
    );
    expect(svg).toContain('O’Hara &amp; &lt;Söhne&gt; &quot;AG&quot;');
    expect(svg).toContain('x="1.235"');
    expect(svg).toContain('<title id="title">a&lt;b</title>');
  });
});
