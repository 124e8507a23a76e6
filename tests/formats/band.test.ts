import { describe, expect, it } from 'vitest';
import { specFromBand } from '#formats/band.ts';
import { problemSentence } from '#formats/problem.ts';

it.each([
  ['400..420 psi', { low: 400, high: 420, unit: 'psi' }],
  ['400..420psi', { low: 400, high: 420, unit: 'psi' }],
  ['  27.5 .. 29 bar ', { low: 27.5, high: 29, unit: 'bar' }],
  ['400.. psi', { low: 400, high: null, unit: 'psi' }],
  ['..420 kPa', { low: null, high: 420, unit: 'kPa' }],
  ['28..29.5 kgf/cm2', { low: 28, high: 29.5, unit: 'kgf/cm2' }],
  ['2.7..2.9 MPA', { low: 2.7, high: 2.9, unit: 'MPa' }],
])('%s', (text, pressureBand) => {
  const result = specFromBand(text);
  expect(result.ok && result.value.pressureBand).toEqual(pressureBand);
});
describe('refused with a sentence', () => {
  it.each([
    ['420..400 psi', 'not below'],
    ['400..400 psi', 'not below'],
    ['400..420', 'unit is missing'],
    ['400..420 degC', 'not a pressure unit'],
    ['.. psi', 'both limits are missing'],
    ['27,5..29 bar', 'decimal mark is a point'],
    ['400 psi', 'two numbers'],
    ['', 'two numbers'],
  ])('"%s": %s', (text, said) => {
    const result = specFromBand(text);
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.problems.map(problemSentence).join()).toContain(said);
  });
});
