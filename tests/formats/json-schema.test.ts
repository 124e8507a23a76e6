import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { formatNames, isFormatName, jsonSchemaOf, type FormatName } from '#formats/json-schema.ts';
import { compare } from '#comparison/compare.ts';
import { advise } from '#relief/advise.ts';
import { checkGauge, gaugeBandCheck } from '#relief/check-gauge.ts';
import { assessedAt, relief } from '../relief/sample-assessment.ts';
import { formatSamples } from './format-samples.ts';

const names = formatNames.filter(isFormatName);
const validator = (name: FormatName): z.ZodType => z.fromJSONSchema(jsonSchemaOf(name));

it('knows the formats that the schema command names, and no other', () => {
  expect(isFormatName('spec')).toBe(true);
  expect(isFormatName('toString')).toBe(false);
});
it.each(names)('the schema of %s is draft 2020-12, closed, and names its format', (name) => {
  const schema = jsonSchemaOf(name);
  expect(schema['$schema']).toBe('https://json-schema.org/draft/2020-12/schema');
  const text = JSON.stringify(schema);
  expect(text).toContain(`overdrive-bench/${name}`);
  expect(text).toContain('"additionalProperties":false');
  expect(text).not.toContain('"$ref":"#/$defs/__');
});
describe.each(Object.keys(formatSamples).filter(isFormatName))('%s as a validator of its own', (name) => {
  it('takes the documented file', () => {
    expect(validator(name).safeParse(formatSamples[name]).error).toBeUndefined();
  });
  it('refuses an unknown key, another version and another format', () => {
    for (const change of [{ typo: 1 }, { version: 2 }, { format: 'overdrive-bench/other' }])
      expect(validator(name).safeParse({ ...formatSamples[name], ...change }).success).toBe(false);
  });
});

describe('what the program writes agrees with its own schema', () => {
  const written = (result: { ok: true; value: unknown } | { ok: false }): unknown => {
    if (!result.ok) throw new Error('refused');
    return JSON.parse(JSON.stringify(result.value));
  };
  const psi = { low: 400, high: 420, unit: 'psi' as const };
  it.each<[FormatName, () => unknown]>([
    ['assessment', () => assessedAt(425.1)],
    ['advice', () => written(advise({ assessment: assessedAt(425.1), relief: relief(), history: null }))],
    [
      'comparison',
      () => written(compare([{ assessment: assessedAt(425.1) }, { assessment: assessedAt(410) }])),
    ],
    ['gauge-check', () => written(checkGauge({ unit: 'psi', reference: [0, 1, 2], reading: [0, 1.1, 2] }))],
    [
      'gauge-check',
      () => gaugeBandCheck({ range: { low: 0, high: 1000, unit: 'psi' }, accuracyPercentOfSpan: 1 }, psi),
    ],
  ])('%s', (name, make) => {
    expect(validator(name).safeParse(make()).error).toBeUndefined();
  });
});
