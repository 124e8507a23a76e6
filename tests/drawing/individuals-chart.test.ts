import { expect, it } from 'vitest';
import { compare } from '#comparison/compare.ts';
import { textBoxes, type Drawing, type Item } from '#drawing/display-list.ts';
import { individualsChart } from '#drawing/individuals-chart.ts';
import { openFonts } from '#record/font-set.ts';
import { fontsOnDisk } from '../record/fonts-on-disk.ts';
import { assessedAt } from '../relief/sample-assessment.ts';

const { width } = openFonts(fontsOnDisk);
const ten = [409, 411, 410, 412, 408, 410, 411, 409, 410, 410];

function chartOf(values: readonly number[], low: number | null = 400, high: number | null = 420): Drawing {
  const compared = compare(values.map((value) => ({ assessment: assessedAt(value) })));
  if (!compared.ok) throw new Error('not compared');
  return individualsChart({ comparison: compared.value, band: { low, high }, width });
}
const rings = (items: readonly Item[]): Item[] =>
  items.filter((item) => item.kind === 'dot' && item.radius > 2);

it('marks the run beyond the limits, and its jump from the run before', () => {
  expect(rings(chartOf([...ten, 418]).items)).toHaveLength(2);
  expect(rings(chartOf(ten).items)).toHaveLength(0);
});
it('puts the values where the axis says', () => {
  const { items } = chartOf([400, 420]);
  const [first, second] = items.filter((item) => item.kind === 'dot');
  const full = items.flatMap((item) =>
    item.kind === 'lines' && item.stroke.width === 0.5 ? [item.lines[0]?.[1] ?? NaN] : [],
  );
  // The runs stand at the limits of the band.
  expect(first?.y).toBeCloseTo(full[0] ?? NaN, 9);
  expect(second?.y).toBeCloseTo(full[1] ?? NaN, 9);
});
it.each([
  ['a band', [...ten, 418], 400, 420],
  ['limits of the chart next to those of the band', [406, 414, 406, 414, 400.2, 409], 400, 420],
  ['one limit', ten, 400, null],
  ['all the same', [410, 410, 410], 400, 420],
  ['sixty runs', Array.from({ length: 60 }, (_, index) => 405 + ((index * 7) % 11)), 400, 420],
] as const)('lays no text over another, and none beyond the edge: %s', (_, values, low, high) => {
  const drawing = chartOf(values, low, high);
  const boxes = textBoxes(drawing.items, width);
  for (const [index, a] of boxes.entries()) {
    expect(a.x).toBeGreaterThanOrEqual(0);
    expect(a.x + a.width).toBeLessThanOrEqual(drawing.width);
    expect(a.y + a.height).toBeLessThanOrEqual(drawing.height);
    for (const b of boxes.slice(index + 1)) {
      const apart =
        a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;
      expect(apart, `${a.text} over ${b.text}`).toBe(true);
    }
  }
});
