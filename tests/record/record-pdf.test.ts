import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, test } from 'vitest';
import { writeJson } from '#formats/number.ts';
import { recordPdf } from '#record/record-pdf.ts';
import type { RecordInput } from '#record/record-input.ts';
import { cases, logFile } from './cases.ts';

/** A record as a reader of PDF sees it. */
async function opened(input: RecordInput): Promise<{
  bytes: Uint8Array;
  text: string;
  pages: string[];
  attachments: Map<string, { content: Uint8Array; description: string }>;
  info: Record<string, unknown>;
  marked: boolean;
  roles: string[];
  alts: string[];
  images: number;
  sizes: { width: number; height: number }[];
}> {
  const bytes = await recordPdf(input);
  const doc = await getDocument({ data: bytes.slice(), useSystemFonts: false, verbosity: 0 }).promise;
  const pages: string[] = [],
    roles: string[] = [],
    alts: string[] = [],
    sizes: { width: number; height: number }[] = [];
  let images = 0;
  for (let number = 1; number <= doc.numPages; number++) {
    const page = await doc.getPage(number);
    const content = await page.getTextContent({ disableNormalization: true });
    pages.push(
      content.items.map((item) => ('str' in item ? `${item.str}${item.hasEOL ? '\n' : ''}` : '')).join(''),
    );
    const walk = (node: unknown): void => {
      if (typeof node !== 'object' || node === null) return;
      if ('role' in node && typeof node.role === 'string') roles.push(node.role);
      if ('alt' in node && typeof node.alt === 'string') alts.push(node.alt);
      if ('children' in node && Array.isArray(node.children)) node.children.forEach(walk);
    };
    walk(await page.getStructTree());
    const { fnArray } = await page.getOperatorList();
    // paintImageXObject and its kin: 83 to 91 in pdfjs's table of operators.
    images += fnArray.filter((op) => op >= 83 && op <= 90).length;
    const [, , width = 0, height = 0] = page.view;
    sizes.push({ width, height });
  }
  const attached: unknown = await doc.getAttachments();
  const attachments = new Map<string, { content: Uint8Array; description: string }>();
  for (const [name, entry] of Object.entries(attached ?? {})) {
    const { content, description } = entry as { content: Uint8Array; description: string };
    attachments.set(name, { content, description });
  }
  const { info } = (await doc.getMetadata()) as unknown as { info: Record<string, unknown> };
  const mark: unknown = await doc.getMarkInfo();
  const marked = typeof mark === 'object' && mark !== null && 'Marked' in mark && mark.Marked === true;
  return { bytes, text: pages.join('\n'), pages, attachments, info, marked, roles, alts, images, sizes };
}

/** The plain case, opened once. */
let passOpened: ReturnType<typeof opened> | null = null;
const pass = (): ReturnType<typeof opened> => (passOpened ??= opened(cases.pass()));

/** Words that a record never says (the shop's own texts apart). */
const forbidden = /\b(certified|approved|guaranteed|warranted|OK|safe)\b/i;

const seen = ['fail-with-concession', 're-test', 'nothing-met', 'nothing-known'] as const;
describe.each(seen)('%s', (name) => {
  const made = cases[name];
  test('opens, is tagged, says nothing that it must not, holds no picture of pixels', async () => {
    const input = made();
    const record = await opened(input);
    expect(record.marked).toBe(true);
    expect(record.images).toBe(0);
    expect(record.text).not.toMatch(/undefined|NaN|Infinity/);
    if (input.language === 'en') expect(record.text).not.toMatch(forbidden);
    expect(record.roles.filter((role) => role === 'H1')).toHaveLength(1);
    expect(record.roles).toEqual(
      expect.arrayContaining(['Document', 'Table', 'TR', 'TH', 'TD', 'Figure', 'P', 'H2']),
    );
    expect(record.alts[0]?.length).toBeGreaterThan(40);
  });
});

test('the words of sheet 1 come in reading order', async () => {
  const { pages } = await pass();
  const first = pages[0] ?? '';
  const order = [
    'Delivery record',
    'Serial number',
    'pass',
    'The unit met every limit',
    'What was tested',
    'Pressure when warm',
    'Whole run from zero',
    'How to read it',
    'NO OIL IN THIS UNIT.',
    'Keep this record with the unit.',
  ];
  const places = order.map((words) => first.indexOf(words));
  expect(places.every((place) => place >= 0)).toBe(true);
  // Ornaments (rule, footer) are drawn first and are no part of the order.
  expect(places).toEqual([...places].sort((a, b) => a - b));
});

test('log, assessment, spec and rig are in it, byte for byte', async () => {
  const input = cases.pass();
  const { attachments } = await pass();
  const text = (name: string): string => new TextDecoder().decode(attachments.get(name)?.content);
  expect([...attachments.keys()].sort()).toEqual([
    'assessment.json',
    'record.json',
    'rig.json',
    'run-2026-03-04.csv',
    'spec.json',
  ]);
  expect([...(attachments.get(logFile.fileName)?.content ?? [])]).toEqual([...logFile.bytes]);
  expect(text('assessment.json')).toBe(writeJson(input.assessment));
  expect(text('spec.json')).toBe(writeJson(input.assessment.spec));
  expect(text('rig.json')).toBe(writeJson(input.assessment.rig));
});

test('parts of a run of one name are all kept', async () => {
  const input = { ...cases.pass(), logs: [logFile, { ...logFile, bytes: new Uint8Array([1, 2, 3]) }] };
  const { attachments } = await opened(input);
  expect([...(attachments.get('run-2026-03-04-2.csv')?.content ?? [])]).toEqual([1, 2, 3]);
});

test('the same input gives the same bytes; another date others', async () => {
  const input = cases['fail-with-concession']();
  const one = await recordPdf(input);
  const two = await recordPdf({ ...input, fonts: { ...input.fonts } });
  expect(Buffer.from(one).equals(Buffer.from(two))).toBe(true);
  expect(Buffer.from(one).equals(Buffer.from(await recordPdf({ ...input, date: '2026-03-07' })))).toBe(false);
});

test('language, title and day are in the metadata, and no clock was asked', async () => {
  const { info, bytes } = await pass();
  expect(info['Title']).toBe('Delivery record 2026-0417');
  expect(info['Language']).toBe('en');
  expect(info['CreationDate']).toBe('D:20260306000000Z');
  expect(Buffer.from(bytes).includes(String(new Date().getUTCFullYear() + 100))).toBe(false);
});

test('a title with signs of XML leaves the metadata readable', async () => {
  const input = cases.pass();
  const { info } = await opened({
    ...input,
    unitRecord: {
      ...input.unitRecord,
      format: 'overdrive-bench/unit-record',
      version: 1,
      recordNumber: 'A&B<1>',
    },
  });
  expect(info['Title']).toBe('Delivery record A+B+1+');
});

test('A4 and Letter, under 300 kB without attachments', async () => {
  const a4 = await opened({ ...cases.pass(), logs: [] });
  expect(a4.sizes[0]?.width).toBeCloseTo(595.276, 2);
  expect(a4.bytes.length).toBeLessThan(300_000);
  const letter = await opened(cases['letter-with-concession']());
  expect(letter.sizes[0]).toEqual({ width: 612, height: 792 });
});

test('names keep their letters', async () => {
  const { text } = await opened(cases['names-of-all-kinds']());
  for (const name of [
    'Łukasz Źrebięć',
    'Αθήνα',
    'Žižkov',
    'O’Hara-Σοφία & Sons',
    'Мастерская Пример',
    '½ Sample Street',
  ])
    expect(text.replace(/\n/g, '')).toContain(name);
});

test('the verdict of a failed unit stays beside its concession', async () => {
  const { pages } = await opened(cases['fail-with-concession']());
  expect(pages[0]).toContain('does not turn the result into a pass');
  expect(pages[1]).toMatch(/Concession\. The verdict stays:\s*fail/);
  expect(pages[1]).toContain('Reason:');
});

test('strips say in words what they show', async () => {
  const { alts } = await pass();
  expect(alts).toContainEqual(
    expect.stringMatching(
      /^Pressure when warm: 41\d\.\d\u00a0psi\u00a0±\u00a02\.2\u00a0psi, allowed 400 to 420\u00a0psi: pass$/,
    ),
  );
});
