import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Item } from '#drawing/display-list.ts';
import { openFonts } from '#record/font-set.ts';
import { laidOut } from '#record/laid-out.ts';
import type { Node } from '#record/lay.ts';
import { cases } from '../record/cases.ts';
import { contrast, MARK_CONTRAST, TEXT_CONTRAST } from './contrast.ts';

describe('the formula', () => {
  // The grey just dark enough for text and for marks on white, and the next lighter one, which is not: worked out by the formula, the
  // two thresholds being WCAG 2.2, 1.4.3 and 1.4.11.
  test.each([
    ['#000000', '#ffffff', 21],
    ['#ffffff', '#ffffff', 1],
    ['#767676', '#ffffff', 4.542],
    ['#777777', '#ffffff', 4.478],
    ['#949494', '#ffffff', 3.033],
    ['#959595', '#ffffff', 2.995],
    ['#0072b2', '#ffffff', 5.185],
    ['#d55e00', '#ffffff', 3.867],
    ['#f0e442', '#ffffff', 1.322],
  ])('%s on %s: %f', (a, b, ratio) => {
    expect(contrast(a, b)).toBeCloseTo(ratio, 3);
    expect(contrast(b, a)).toBe(contrast(a, b));
  });
});

interface Spot {
  x: number;
  y: number;
}
const flat = (items: readonly Item[]): Item[] =>
  items.flatMap((item) => (item.kind === 'clip' ? flat(item.items) : [item]));
const itemsOf = (node: Node): Item[] => [...(node.items ?? []), ...(node.children ?? []).flatMap(itemsOf)];
const holds = (item: Item, { x, y }: Spot): boolean =>
  item.kind === 'rect' &&
  item.fill !== undefined &&
  x >= item.x &&
  x <= item.x + item.width &&
  y >= item.y &&
  y <= item.y + item.height;

/** The ground that a word stands on: the last filled rectangle drawn there before it; the paper where there is none. */
function groundOf(items: readonly Item[], before: number, spot: Spot): string {
  const under = items.slice(0, before).findLast((item) => holds(item, spot));
  return under?.kind === 'rect' && under.fill !== undefined ? under.fill : '#ffffff';
}

describe.each(Object.entries(cases))('the record %s', (_, made) => {
  const input = made();
  const { pages } = laidOut(input, openFonts(input.fonts), true);
  // As they are drawn: the page's own marks first, then leaf by leaf.
  const drawn = pages.map(({ artifacts, nodes }) => flat([...artifacts, ...nodes.flatMap(itemsOf)]));

  test('every word is read on its ground', () => {
    let words = 0;
    for (const items of drawn)
      for (const [index, item] of items.entries()) {
        if (item.kind !== 'text' || item.text.trim() === '') continue;
        words++;
        // A little into the word and above its line.
        const spot = {
          x: item.anchor === 'end' ? item.x - 0.4 : item.x + (item.anchor === 'middle' ? 0 : 0.4),
          y: item.y - 0.6,
        };
        const turned = item.upwards === true;
        const ground = turned ? '#ffffff' : groundOf(items, index, spot);
        expect(contrast(item.ink, ground), `${item.text} on ${ground}`).toBeGreaterThanOrEqual(TEXT_CONTRAST);
      }
    expect(words).toBeGreaterThan(100);
  });
  test('every line that carries a meaning shows on white: only the grid is lighter', () => {
    const light = new Set<string>();
    for (const item of drawn.flat()) {
      const ink =
        item.kind === 'lines'
          ? item.stroke.ink
          : item.kind === 'area' || item.kind === 'rect'
            ? item.stroke?.ink
            : undefined;
      if (ink !== undefined && ink !== '#ffffff' && contrast(ink, '#ffffff') < MARK_CONTRAST) light.add(ink);
    }
    // The grid says nothing that the figures beside it do not.
    expect([...light].filter((ink) => ink !== '#9a9a9a')).toEqual([]);
  });
});

test('the envelope is told from the paper by its edge, from the line by its tone', () => {
  const input = cases.pass();
  const { pages } = laidOut(input, openFonts(input.fonts), true);
  const areas = pages
    .flatMap(({ nodes }) => flat(nodes.flatMap(itemsOf)))
    .filter((item) => item.kind === 'area');
  const envelope = areas.find(({ fill }) => fill === '#c2c2c2');
  expect(contrast(envelope?.stroke?.ink ?? '#ffffff', '#ffffff')).toBeGreaterThanOrEqual(MARK_CONTRAST);
  expect(contrast('#000000', envelope?.fill ?? '#000000')).toBeGreaterThanOrEqual(MARK_CONTRAST);
});

describe('the app’s papers', () => {
  const css = readFileSync('src/app/paper.css', 'utf8');
  const blocks = [...css.matchAll(/:root[^{]*\{([^}]*--paper:[^}]*)\}/gu)].map(([, body = '']) =>
    Object.fromEntries(
      [...body.matchAll(/--([\w-]+):\s*(#[\da-f]{6})/gu)].map(([, name, value]) => [name, value]),
    ),
  );
  test('day, night by the system and night by choice; the two nights are one', () => {
    expect(blocks).toHaveLength(3);
    expect(blocks[2]).toEqual(blocks[1]);
  });
  test.each(['ink', 'ink2', 'fail', 'open', 'limit', 'oil', 'pressure'])('words in %s', (name) => {
    for (const block of blocks)
      expect(contrast(block[name] ?? '', block['paper'] ?? ''), block['paper']).toBeGreaterThanOrEqual(
        TEXT_CONTRAST,
      );
  });
  test.each(['line', 'raw', 'hatch', 'focus'])('lines and marks in %s', (name) => {
    for (const block of blocks)
      expect(contrast(block[name] ?? '', block['paper'] ?? ''), block['paper']).toBeGreaterThanOrEqual(
        MARK_CONTRAST,
      );
  });
  test('words on the bench around the paper', () => {
    for (const block of blocks)
      for (const name of ['ink', 'ink2'])
        expect(contrast(block[name] ?? '', block['bench'] ?? '')).toBeGreaterThanOrEqual(TEXT_CONTRAST);
  });
});
