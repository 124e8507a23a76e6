import { describe, expect, it } from 'vitest';
import { readAdjustments, readJudge, readRelief, readRig, readSpec, readUnitRecord } from '#formats/check.ts';
import { problemSentence, type Result } from '#formats/problem.ts';
import { formatSamples } from './format-samples.ts';

const readers: Record<string, (text: string, file: string | null) => Result<unknown>> = {
  spec: readSpec,
  rig: readRig,
  judge: readJudge,
  relief: readRelief,
  adjustments: readAdjustments,
  'unit-record': readUnitRecord,
};
const read = (name: string, data: unknown): Result<unknown> => {
  const reader = readers[name];
  if (!reader) throw new Error(name);
  return reader(typeof data === 'string' ? data : JSON.stringify(data), `${name}.json`);
};
const sentences = (result: Result<unknown>): string[] =>
  result.ok ? [] : result.problems.map(problemSentence);
const changed = (name: string, change: Record<string, unknown>): unknown => ({
  ...formatSamples[name],
  ...change,
});

describe.each(Object.keys(readers))('%s', (name) => {
  it('reads the whole file as documented', () => {
    expect(sentences(read(name, formatSamples[name]))).toEqual([]);
    expect(read(name, `\uFEFF${JSON.stringify(formatSamples[name])}`).ok).toBe(true);
  });
  it('names an unknown key', () => {
    const [sentence] = sentences(read(name, changed(name, { pressurBand: 1 })));
    expect(sentence).toContain('pressurBand');
    expect(sentence).toContain('not a key of this file');
  });
  it('names what the file is instead', () => {
    expect(sentences(read(name, { format: 'something/else', version: 1 }))[0]).toContain('something/else');
    expect(sentences(read(name, [1, 2]))[0]).toContain('"format" is missing');
  });
  it('says the line of broken JSON where the engine tells it', () => {
    const [sentence] = sentences(read(name, '{\n "format": "x",\n }'));
    expect(sentence).toContain(`${name}.json`);
    expect(sentence).toContain('not JSON');
  });
});

describe('what the shapes refuse, by the key', () => {
  it.each<[string, Record<string, unknown>, string]>([
    [
      'spec',
      { pressureBand: { low: 420, high: 400, unit: 'psi' } },
      'low (420) must be less than high (400)',
    ],
    [
      'spec',
      { pressureBand: { low: 400, high: 400, unit: 'psi' } },
      'low (400) must be less than high (400)',
    ],
    ['spec', { pressureBand: { unit: 'psi' } }, 'give low, high or both'],
    ['spec', { pressureBand: { low: 400, high: 420, unit: 'degC' } }, 'pressureBand.unit'],
    ['spec', { operatingTemperature: { low: 50, unit: 'psi' } }, 'operatingTemperature.unit'],
    ['spec', { timeInBand: { atLeast: 98 } }, 'timeInBand.atLeast'],
    ['spec', { settling: { tolerance: 5 } }, 'tolerance and unit go together'],
    ['spec', { drift: { atMost: -5, unit: 'psi' } }, 'drift.atMost'],
    [
      'rig',
      { channels: [{ column: 'P', uncertainty: { percentOfSpan: 1 } }] },
      "percentOfSpan needs the channel's range",
    ],
    [
      'rig',
      { channels: [{ column: 'P', uncertainty: { absolute: 1, distribution: 'normal' } }] },
      'coverageFactor',
    ],
    [
      'rig',
      { channels: [{ column: 'P', uncertainty: { absolute: 1, percentOfReading: 1 } }] },
      'exactly one of',
    ],
    [
      'rig',
      { channels: [{ column: 'P', range: { low: 5, high: 5 } }] },
      'low (5) must be less than high (5)',
    ],
    ['rig', { channels: [{ column: 'P', correction: { offset: 0, slope: 0 } }] }, 'slope must not be 0'],
    ['judge', { choices: [{ what: 'leave-out', by: 'A', why: '' }] }, 'choices[0].why'],
    [
      'relief',
      { valve: { springRate: { value: 12, unit: 'psi' }, pressureArea: { value: 80, unit: 'mm2' } } },
      'valve.springRate.unit',
    ],
    ['relief', { pressurePerShim: { value: 22, unit: 'psi' } }, 'pressurePerShim.unit'],
    ['relief', { fitted_mm: undefined }, 'fitted_mm'],
    ['relief', { screw: { pitch_mm: 1 } }, 'not by both'],
    ['relief', { stock: [{ thickness_mm: 0.1, count: 1.5 }] }, 'stock[0].count'],
    [
      'adjustments',
      {
        adjustments: [
          {
            before_mm: [0],
            after_mm: [],
            pressureBefore: { value: 1, unit: 'psi' },
            pressureAfter: { value: 1, unit: 'psi' },
          },
        ],
      },
      'adjustments[0].before_mm[0]',
    ],
    ['unit-record', { issuedOn: '4.3.2026' }, 'a date is written like 2026-03-04'],
  ])('%s %j → %s', (name, change, said) => {
    const all = sentences(read(name, changed(name, change)));
    expect(all.join('\n')).toContain(said);
    for (const sentence of all) expect(sentence).not.toMatch(/undefined|\[object/);
  });
});

it('takes one-sided bands and operating temperatures, null or left out', () => {
  for (const pressureBand of [
    { low: 400, unit: 'psi' },
    { low: null, high: 420, unit: 'bar' },
  ])
    expect(read('spec', changed('spec', { pressureBand })).ok).toBe(true);
  expect(read('spec', changed('spec', { operatingTemperature: { low: 122, unit: 'degF' } })).ok).toBe(true);
});
