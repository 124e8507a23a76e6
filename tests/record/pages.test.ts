import { describe, expect, test } from 'vitest';
import { textBoxes, type Box, type Item } from '#drawing/display-list.ts';
import { openFonts } from '#record/font-set.ts';
import { laidOut } from '#record/laid-out.ts';
import { LEFT, sheets, type Page } from '#record/lay-pages.ts';
import type { Node } from '#record/lay.ts';
import type { RecordInput } from '#record/record-input.ts';
import { cases } from './cases.ts';
import { fullUnitRecord } from './unit-records.ts';

const itemsOf = (node: Node): Item[] => [...(node.items ?? []), ...(node.children ?? []).flatMap(itemsOf)];
const pageItems = (page: Page): Item[] => [...page.artifacts, ...page.nodes.flatMap(itemsOf)];
const textOf = (node: Node): string =>
  itemsOf(node)
    .flatMap((item) => (item.kind === 'text' ? [item.text] : []))
    .join('');
const tags = (nodes: readonly Node[]): string[] =>
  nodes.flatMap((node) => [node.tag, ...tags(node.children ?? [])]);

/** Pages that each kind takes on its paper; more or fewer means that something moved. */
const pageCounts: Partial<Record<keyof typeof cases, number>> = {
  pass: 2,
  'fail-with-concession': 2,
  undecided: 2,
  'not-assessed': 2,
  're-test': 2,
};

/** A letter that stands further from its like than it is wide alone. */
const endless = 'A'.repeat(150);
/** Words without a blank to break at, in every place that the shop fills. */
const everyCase: Record<string, () => RecordInput> = {
  ...cases,
  'endless-words': () => ({
    ...cases['fail-with-concession'](),
    unitRecord: {
      ...fullUnitRecord,
      recordNumber: endless,
      customer: endless,
      unit: { serial: endless, type: endless, condition: endless, complaint: endless },
      shop: { name: endless, address: endless, contact: endless },
      builtBy: endless,
      releasedBy: endless,
      shaftSpeed: endless,
      ambient: endless,
      oil: { grade: endless, leftIn: true },
      workDone: [endless],
      partsRenewed: [endless],
      notes: endless,
      concession: { reason: endless, agreedBy: endless, on: '2026-03-05' },
      instruments: [{ name: endless, identification: endless, certificate: endless }],
    },
  }),
  'endless-record-number': () => ({
    ...cases.pass(),
    unitRecord: { ...fullUnitRecord, recordNumber: endless },
  }),
};

describe.each(Object.entries(everyCase))('%s', (name, made) => {
  const input = made();
  const fonts = openFonts(input.fonts);
  const { pages, content } = laidOut(input, fonts, true);
  const sheet = sheets[input.paper];
  const width = fonts.width;

  test('has its number of pages', () => {
    const wanted = pageCounts[name as keyof typeof cases];
    if (wanted !== undefined) expect(pages).toHaveLength(wanted);
    expect(pages.length).toBeLessThan(8);
  });
  test('no words under 8 pt, none beyond the text, none below the footer', () => {
    for (const page of pages)
      for (const box of textBoxes(pageItems(page), (text, size, weight) =>
        width(text.trimEnd(), size, weight),
      )) {
        expect(box.size_pt, box.text).toBeGreaterThanOrEqual(8);
        expect(box.x, box.text).toBeGreaterThanOrEqual(LEFT - 0.01);
        expect(box.x + box.width, box.text).toBeLessThanOrEqual(LEFT + 175.02);
        expect(box.y, box.text).toBeGreaterThanOrEqual(sheet.top);
        expect(box.y + box.height, box.text).toBeLessThanOrEqual(sheet.height - sheet.footer + 0.5);
      }
  });
  test('content ends above the footer', () => {
    for (const page of pages)
      for (const box of textBoxes(page.nodes.flatMap(itemsOf), width))
        expect(box.y + box.height, box.text).toBeLessThanOrEqual(sheet.height - sheet.footer - 4.4);
  });
  test('no words lie over others', () => {
    const over = (a: Box, b: Box): boolean =>
      a.x + 0.05 < b.x + b.width &&
      b.x + 0.05 < a.x + a.width &&
      a.y + 0.1 < b.y + b.height &&
      b.y + 0.1 < a.y + a.height;
    for (const page of pages) {
      const boxes = textBoxes(pageItems(page), (text, size, weight) => width(text.trimEnd(), size, weight));
      const found = boxes.flatMap((a, index) =>
        boxes.slice(index + 1).flatMap((b) => (over(a, b) ? [`${a.text} | ${b.text}`] : [])),
      );
      expect(found).toEqual([]);
    }
  });
  test('every page has its number, the record its end, once', () => {
    const words = pages.map((page) =>
      pageItems(page).flatMap((item) => (item.kind === 'text' ? [item.text] : [])),
    );
    words.forEach((texts, index) => {
      expect(texts).toContain(content.page(index + 1, pages.length));
      expect(texts.join('')).toContain(content.footer);
    });
    const ends = words.map((texts) => texts.filter((text) => text === content.endOfRecord).length);
    expect(ends.reduce((sum, count) => sum + count, 0)).toBe(1);
    expect(ends.at(-1)).toBe(1);
  });
  test('one first heading, then second ones; the signatures with the hash on the page of the end', () => {
    const all = pages.flatMap((page) => tags(page.nodes));
    expect(all.filter((tag) => tag === 'H1')).toHaveLength(1);
    expect(all.indexOf('H1')).toBe(0);
    const last = pages.at(-1)?.nodes.map(textOf).join('\n') ?? '';
    expect(last).toContain('SHA-256');
  });
  test('the sections are numbered through', () => {
    const numbers = content.sections.map(({ number }) => number);
    expect(numbers).toEqual(numbers.map((_, index) => index + 1));
  });
});

test('the chart is never shrunk: its plot starts 15 mm from the text edge on every paper', () => {
  for (const name of ['pass', 'letter-with-concession', 'nothing-met'] as const) {
    const input = cases[name]();
    const { pages } = laidOut(input, openFonts(input.fonts), true);
    const figures = pages.flatMap(({ nodes }) => nodes.filter(({ tag }) => tag === 'Figure'));
    expect(figures[0]?.box).toMatchObject({ x: LEFT, width: 175 });
  }
});

test('where more than six limits are not met every one of them stands on sheet 1', () => {
  const input = cases['nothing-met']();
  const { pages } = laidOut(input, openFonts(input.fonts), true);
  const first = pages[0]?.nodes.find(({ tag }) => tag === 'Table');
  const rows = (first?.children ?? []).length - 1;
  expect(rows).toBe(input.assessment.criteria.filter(({ verdict }) => verdict !== 'pass').length);
  expect(rows).toBeGreaterThan(6);
});

test('pages are named where they are', () => {
  for (const name of ['nothing-met', 'fail-with-concession', 'pass'] as const) {
    const input = cases[name]();
    const { pages, content } = laidOut(input, openFonts(input.fonts), true);
    const titled = (title: string): number =>
      1 +
      pages.findIndex(({ nodes }) => nodes.some((node) => node.tag === 'H2' && textOf(node).includes(title)));
    expect(content.oilNotice.keep).toContain(`Page ${titled('Later readings')} has room`);
    const under = content.underTable(6);
    if (under !== null) expect(under).toContain(`page ${titled('Criteria')}.`);
    const body = content.body.map(({ text }) => text).join('');
    if (body.includes('concession, page'))
      expect(body).toContain(`concession, page ${titled('Concession')})`);
  }
});

test('what is not known leaves no empty label', () => {
  const input = cases['nothing-known']();
  const { pages, content } = laidOut(input, openFonts(input.fonts), true);
  const text = pages.flatMap(({ nodes }) => nodes.map(textOf)).join('\n');
  for (const label of [
    'Serial number',
    'Customer',
    'Rebuilt by',
    'Came in',
    'issued',
    'NO OIL',
    'Concession',
  ])
    expect(text).not.toContain(label);
  expect(text).not.toMatch(/undefined|null|NaN/);
  expect(content.facts.flat().every(({ value }) => value !== '')).toBe(true);
});

test('the ends of the lines of a note are blanks, no letters that a face lacks', () => {
  const fonts = openFonts(cases.pass().fonts);
  const { pages } = laidOut(
    {
      ...cases.pass(),
      unitRecord: { ...fullUnitRecord, customer: 'A.\tSample', notes: 'one\r\ntwo\nthree' },
    },
    fonts,
    true,
  );
  const words = pages.flatMap(({ nodes }) => nodes.map(textOf)).join(' ');
  expect(words).toContain('one two three');
  expect(words).toContain('A. Sample');
  expect([...fonts.missing]).toEqual([]);
});
test('what the oil needs stands on sheet 1 of a run that was never warm, and nothing that softens it', () => {
  const input = cases['not-assessed']();
  const { content } = laidOut(
    {
      ...input,
      assessment: {
        ...input.assessment,
        remarks: [{ code: 'never-warm', text: 'The oil never reached 50 °C. Run on until the oil is warm.' }],
      },
    },
    openFonts(input.fonts),
    true,
  );
  const body = content.body.map(({ text }) => text).join('');
  expect(input.assessment.criteria.some(({ verdict }) => verdict === 'pass')).toBe(true);
  expect(body).toContain('Run on until the oil is warm.');
  expect(body).not.toContain('met');
});
test('a shop without a name leaves the builder named', () => {
  const { content } = laidOut(
    { ...cases.pass(), unitRecord: { ...fullUnitRecord, shop: { name: ' ' }, builtBy: 'E. Example' } },
    openFonts(cases.pass().fonts),
    true,
  );
  expect(content.facts.flat().map(({ value }) => value)).toContain('E. Example');
});
test('letters that no face holds are named, not dropped in silence', () => {
  const input = cases['names-of-all-kinds']();
  const { pages } = laidOut(input, openFonts(input.fonts), true);
  const text = pages.flatMap(({ nodes }) => nodes.map(textOf)).join('\n');
  expect(text).toContain('U+65E5');
  expect(text).toContain('Łukasz Źrebięć, Αθήνα, Žižkov; ');
});
