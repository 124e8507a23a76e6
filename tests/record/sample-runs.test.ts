import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { assess } from '#assessment/assess.ts';
import { textBoxes, type Box, type Item } from '#drawing/display-list.ts';
import { readRig, readSpec, readUnitRecord } from '#formats/check.ts';
import type { Result } from '#formats/problem.ts';
import { readLog } from '#log/read-log.ts';
import { openFonts } from '#record/font-set.ts';
import { laidOut } from '#record/laid-out.ts';
import { LEFT, sheets } from '#record/lay-pages.ts';
import type { Node } from '#record/lay.ts';
import { phrasesOf } from '#record/phrases.ts';
import type { RecordInput } from '#record/record-input.ts';
import { fontsOnDisk } from './fonts-on-disk.ts';

const here = new URL('../../sample-runs/', import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, here), 'utf8');
function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}
interface Expected {
  log: string;
  spec: string;
  rig: string | null;
  verdict: string;
}
const { runs } = JSON.parse(read('expected.json')) as { runs: Expected[] };
/** Runs whose records ask for something else than the plain one. SAMPLE_RECORDS=all lays out every one. */
const odd = [
  'clean-pass.csv',
  'five-over-the-band.csv',
  'far-too-low-all-day.csv',
  'gauge-noisier-than-the-band.csv',
  'spikes-and-dropouts.csv',
  'decimal-comma-in-bar.csv',
  'two-engagements.csv',
  'fast-hundred-a-second.csv',
  'solenoid-cycled-all-day.csv',
  'pressure-and-oil-swapped.csv',
];
const seen = new Set<string>();
const chosen = runs.filter(({ log, rig }) => {
  if (process.env['SAMPLE_RECORDS'] === 'all') return true;
  const first = odd.includes(log) && rig !== null && !seen.has(log);
  seen.add(log);
  return first;
});

/** The record of a sample run, from the bytes of its log on. */
function sampleRecord({ log: name, spec: specName, rig: rigName }: Expected): RecordInput {
  const bytes = new Uint8Array(readFileSync(new URL(`logs/${name}`, here)));
  const rig = rigName === null ? null : value(readRig(read(`rigs/${rigName}`), rigName));
  const spec = value(readSpec(read(`specs/${specName}`), specName));
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const log = value(readLog(bytes, { fileName: name, rig, sha256 }));
  const { assessment, series } = value(assess({ log, rig, spec, judge: null, programVersion: '0.1.0' }));
  return {
    assessment,
    series,
    logs: [{ fileName: name, bytes }],
    unitRecord: value(readUnitRecord(read('units/b-0411.json'), 'b-0411.json')),
    date: '2026-03-06',
    paper: 'a4',
    language: 'en',
    fonts: fontsOnDisk,
  };
}
const itemsOf = (node: Node): Item[] => [...(node.items ?? []), ...(node.children ?? []).flatMap(itemsOf)];
const over = (a: Box, b: Box): boolean =>
  a.x + 0.05 < b.x + b.width &&
  b.x + 0.05 < a.x + a.width &&
  a.y + 0.1 < b.y + b.height &&
  b.y + 0.1 < a.y + a.height;

const german = phrasesOf('de').phrases;
const sentence = (text: string): string => german.sentence(text);

describe.each(chosen.map((run) => [`${run.log} by ${run.spec}`, run] as const))('%s', (_, run) => {
  const made = sampleRecord(run);
  // In German and in other units too: the words are longer, the numbers wider.
  test.each<[string, Partial<RecordInput>]>([
    ['as it is judged', {}],
    ['in German and bar', { language: 'de', units: { pressure: 'bar', temperature: 'degF' } }],
  ])('its record says its verdict, keeps its words apart and inside the text: %s', (_look, look) => {
    const input = { ...made, ...look };
    const fonts = openFonts(input.fonts);
    const { content, pages } = laidOut(input, fonts, true);
    expect(content.verdict).toBe(run.verdict);
    expect(pages.length).toBeLessThanOrEqual(3);
    for (const { criteria, remarks } of [input.assessment])
      for (const text of [...criteria.map(({ reason }) => reason), ...remarks.map((each) => each.text)])
        expect(sentence(text), 'a sentence that the German phrases lack').not.toMatch(/\b(?:the|of|is)\b/u);
    const width = (text: string, size: number, weight: 400 | 600): number =>
      fonts.width(text.trimEnd(), size, weight);
    for (const { artifacts, nodes } of pages) {
      const boxes = textBoxes([...artifacts, ...nodes.flatMap(itemsOf)], width);
      for (const box of boxes) {
        expect(box.size_pt, box.text).toBeGreaterThanOrEqual(8);
        expect(box.x, box.text).toBeGreaterThanOrEqual(LEFT - 0.01);
        expect(box.x + box.width, box.text).toBeLessThanOrEqual(LEFT + 175.02);
        expect(box.y + box.height, box.text).toBeLessThanOrEqual(sheets.a4.height - sheets.a4.footer + 0.5);
        expect(box.text).not.toMatch(/NaN|undefined|Infinity/);
      }
      const touching = boxes.flatMap((a, index) =>
        boxes.slice(index + 1).flatMap((b) => (over(a, b) ? [`${a.text} | ${b.text}`] : [])),
      );
      expect(touching).toEqual([]);
    }
  });
});
