import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { chart } from '#drawing/chart.ts';
import { textBoxes, type Box, type Drawing, type Item } from '#drawing/display-list.ts';
import { drawingToSvg } from '#drawing/drawing-to-svg.ts';
import { openFonts } from '#record/font-set.ts';
import { phrasesOf, type Language } from '#record/phrases.ts';
import type { Adjustment } from '#formats/unit-record.ts';
import { fontsOnDisk } from '../record/fonts-on-disk.ts';
import { madeRun, type MadeRun } from '../record/made-run.ts';

const { width } = openFonts(fontsOnDisk);
/** A reading a minute keeps the files small; the geometry is the same. */
const minute = { interval_s: 60 } as const;
const spikes = [
  { at_s: 9180, value: 426 },
  { at_s: 17040, value: 380 },
];
const step: Adjustment = {
  before_mm: [0.75],
  after_mm: [0.75, 0.75],
  pressureBefore: { value: 394, unit: 'psi' },
  pressureAfter: { value: 411, unit: 'psi' },
};
interface Case {
  run: Partial<MadeRun>;
  earlier?: Partial<MadeRun>;
  language?: Language;
  stripHeight?: 20 | 10;
}
const cases: Record<string, Case> = {
  pass: { run: { gap: { start_s: 11160, end_s: 11520 }, spikes } },
  'fail-above-the-band': { run: { level: 425.1 } },
  'undecided-gauge-too-coarse': { run: { expanded: 12 } },
  'test-and-re-test': { run: {}, earlier: { hours: 1.5, level: 393, start: '2026-03-04T05:15:00' } },
  'one-sided-band': { run: { band: { low: 400, high: null } } },
  'no-band': { run: { band: null } },
  'twenty-four-hours': { run: { hours: 24, interval_s: 240 } },
  'thirty-minutes': { run: { hours: 0.5, warmAt_s: 600, interval_s: 6 } },
  'gap-at-the-holds-edge': { run: { warmAt_s: 2160, gap: { start_s: 2220, end_s: 2940 } } },
  'average-beyond-the-pane': { run: { level: 148 } },
  'uncertainty-wider-than-the-band': { run: { expanded: 31 } },
  'nothing-judged-no-oil-no-clock': { run: { hold: false, oil: false, start: null } },
  'twelve-engagements': { run: { engagements: 12 } },
  'in-bar-in-german': { run: { unit: 'bar' }, language: 'de' },
  // The widest figures beside the axis, and a unit that is written with a raised 2.
  'in-kilopascals-in-german': { run: { unit: 'kPa' }, language: 'de' },
  'in-kgf-per-square-centimetre': { run: { unit: 'kgf/cm2' } },
  'gauge-not-stated': { run: { expanded: null, rule: 'simple' }, stripHeight: 10 },
};

function drawn({ run, earlier, language = 'en', stripHeight = 20 }: Case): Drawing {
  const { phrases, numbers } = phrasesOf(language);
  const last = madeRun({ ...minute, ...run });
  return chart({
    runs: earlier ? [madeRun({ ...minute, ...earlier }), last] : [last],
    adjustment: earlier ? step : null,
    words: phrases.chart,
    numbers,
    width,
    stripHeight,
  });
}
const flat = (items: readonly Item[]): Item[] =>
  items.flatMap((item) => (item.kind === 'clip' ? [item, ...flat(item.items)] : [item]));
const overlap = (a: Box, b: Box): boolean =>
  a.x + 0.05 < b.x + b.width &&
  b.x + 0.05 < a.x + a.width &&
  a.y + 0.05 < b.y + b.height &&
  b.y + 0.05 < a.y + a.height;

describe.each(Object.entries(cases))('%s', (name, made) => {
  const drawing = drawn(made);
  test('is drawn as before, line by line', () => {
    const svg = drawingToSvg(drawing, {
      title: name,
      description: name,
      language: made.language ?? 'en',
      fontFamily: 'IBM Plex Sans Condensed',
      ground: '#ffffff',
    });
    const file = new URL(`../drawings/${name}.svg`, import.meta.url);
    // Written anew only when asked: UPDATE_DRAWINGS=1, then looked at.
    if (process.env['UPDATE_DRAWINGS'] === '1') writeFileSync(file, svg);
    expect(existsSync(file), `tests/drawings/${name}.svg is missing`).toBe(true);
    expect(svg.split('\n')).toEqual(readFileSync(file, 'utf8').split('\n'));
  });
  const boxes = textBoxes(drawing.items, width);
  test('no words lie over others', () => {
    const over = boxes.flatMap((a, index) =>
      boxes.slice(index + 1).flatMap((b) => (overlap(a, b) ? [`${a.text} | ${b.text}`] : [])),
    );
    expect(over).toEqual([]);
  });
  test('all words are 8 pt and inside the drawing', () => {
    for (const box of boxes) {
      expect(box.size_pt, box.text).toBeGreaterThanOrEqual(8);
      expect(box.x, box.text).toBeGreaterThanOrEqual(-0.01);
      expect(box.x + box.width, box.text).toBeLessThanOrEqual(175.01);
      expect(box.y, box.text).toBeGreaterThanOrEqual(0);
      expect(box.y + box.height, box.text).toBeLessThanOrEqual(drawing.height);
    }
  });
  test('every number of it is one', () => {
    const numbers = flat(drawing.items).flatMap((item) => {
      if (item.kind === 'lines') return item.lines.flat();
      if (item.kind === 'area') return item.rings.flat();
      if (item.kind === 'clip') return Object.values(item.box);
      return [item.x, item.y];
    });
    expect(numbers.filter((value) => !Number.isFinite(value))).toEqual([]);
  });
});

/** Thick limits over the hold, by their level on the paper. */
const limitsOf = (drawing: Drawing): number[] =>
  flat(drawing.items).flatMap((item) =>
    item.kind === 'lines' && item.stroke.width === 0.5 ? item.lines.map(([, y = NaN]) => y) : [],
  );

test('two records of one spec have their limits at the same millimetre', () => {
  expect(limitsOf(drawn({ run: { level: 425 } }))).toEqual(
    limitsOf(drawn({ run: { level: 409, hours: 6 } })),
  );
  const [low = 0, high = 0] = [...new Set(limitsOf(drawn({ run: {} })))];
  expect(Math.abs(high - low)).toBeCloseTo(20, 9);
});

test('hatch only over the hold, and never where nothing was judged', () => {
  const hatches = (drawing: Drawing): number[] =>
    flat(drawing.items).flatMap((item) =>
      item.kind === 'lines' && item.stroke.width === 0.11 ? item.lines.map(([x = 0]) => x) : [],
    );
  const held = drawn({ run: { band: { low: 400, high: 420 } } });
  const holdStart = 15 + ((60 + 2160) / 3600) * 20;
  for (const x of hatches(held)) expect(x).toBeGreaterThanOrEqual(holdStart - 1e-9);
  // What remains hatched is the column at the right.
  const plotRight = 15 + ((6 * 3600 + 120) / 3600) * 20;
  for (const x of hatches(drawn({ run: { hold: false } }))) expect(x).toBeGreaterThan(plotRight);
});

test('the guard zone stands only in the column, and fills it when nothing can pass', () => {
  const guard = (run: Partial<MadeRun>): number[] =>
    flat(drawn({ run }).items).flatMap((item) =>
      item.kind === 'lines' && item.stroke.width === 0.09
        ? item.lines.flatMap(([x = 0, y = 0]) => [x, y])
        : [],
    );
  const plotRight = 15 + ((6 * 3600 + 120) / 3600) * 20;
  const zone = guard({});
  expect(zone.length).toBeGreaterThan(0);
  for (let i = 0; i < zone.length; i += 2) expect(zone[i]).toBeGreaterThan(plotRight);
  expect(guard({ rule: 'simple' })).toEqual([]);
  const levels = (points: number[]): number[] => points.filter((_, index) => index % 2 === 1);
  // The middle of the band lies in the middle of the pane, 57.2 mm down: free with a good gauge, covered with a coarse one.
  expect(levels(zone).some((y) => Math.abs(y - 57.2) < 5)).toBe(false);
  expect(levels(guard({ expanded: 12 })).some((y) => Math.abs(y - 57.2) < 5)).toBe(true);
});

test('a gap is never bridged', () => {
  const drawing = drawn({ run: { gap: { start_s: 11160, end_s: 11520 } } });
  const x = (t: number): number => 15 + (t / 3600) * 20;
  const middle = x(11340);
  const across = flat(drawing.items).filter(
    (item) =>
      item.kind === 'lines' &&
      [0.34, 0.75, 0.28].includes(item.stroke.width) &&
      item.lines.some((points) => {
        const xs = points.filter((_, index) => index % 2 === 0);
        return xs.some((value) => value < middle) && xs.some((value) => value > middle);
      }),
  );
  // The frames and limits may; the traces of strip, pane and oil may not.
  expect(across).toEqual([]);
});

test('that the pane does not start at zero is said in words, by slashes and by the bracket', () => {
  const words = textBoxes(drawn({ run: {} }).items, width).map(({ text }) => text);
  expect(words).toEqual(expect.arrayContaining(['starts at', '385, not 0', 'below: 385 to 435']));
  const fromZero = textBoxes(drawn({ run: { level: 148 } }).items, width).map(({ text }) => text);
  expect(fromZero).not.toContain('starts at');
});

test('the average is not named where it was not judged', () => {
  const words = textBoxes(drawn({ run: { hold: false } }).items, width).map(({ text }) => text);
  expect(words).toContain('no average:');
  expect(words.some((text) => text.startsWith('average'))).toBe(false);
});

test.each([
  ['without a pressure column', { pressure: null }],
  ['of one row', { time_s: new Float64Array(1), pressure: null, oil: null }],
  ['of no row', { time_s: new Float64Array(0), pressure: null, oil: null }],
])('a log %s still has a chart, and every number of it is one', (_, change) => {
  const { phrases, numbers } = phrasesOf('en');
  const run = madeRun({ ...minute, hold: false });
  const drawing = chart({
    runs: [{ ...run, series: { ...run.series, ...change } }],
    words: phrases.chart,
    numbers,
    width,
  });
  const svg = drawingToSvg(drawing, { title: 'x', description: 'x', language: 'en', fontFamily: 'x' });
  expect(svg).not.toMatch(/NaN|Infinity/);
  expect(svg).toContain('no average:');
});
