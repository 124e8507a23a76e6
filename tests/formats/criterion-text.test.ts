import { describe, expect, it } from 'vitest';
import { criterionIds } from '#formats/assessment.ts';
import { criterionNames } from '#formats/criterion-names.ts';
import {
  allowedText,
  headlineText,
  placeText,
  sizeText,
  valueText,
  verdictWords,
  type CriterionFacts,
} from '#formats/criterion-text.ts';

const facts = (change: Partial<CriterionFacts>): CriterionFacts => ({
  id: 'operating-pressure',
  value: 425.123,
  unit: 'psi',
  expandedUncertainty: 3.46,
  limits: { low: 400, high: 420 },
  ...change,
});
const comma = { decimal: ',' } as const;

it('names every criterion twice, without the words that a record must not use', () => {
  for (const id of criterionIds) {
    const { plain, engineer } = criterionNames[id];
    expect(plain).not.toBe('');
    expect(`${plain} ${engineer}`).not.toMatch(/certified|approved|guaranteed|warranted|safe/i);
  }
  expect(Object.keys(criterionNames)).toEqual([...criterionIds]);
  expect(Object.values(verdictWords)).toEqual(['Passes', 'Fails', 'Undecided', 'Not assessed']);
});

describe('the words beside the verdict', () => {
  it('number, uncertainty, band, distance', () => {
    expect(headlineText(facts({}))).toBe('425.1 ± 3.5 psi, band 400 to 420 psi.');
    expect(placeText(facts({}))).toBe('5.1 psi above the band');
    expect(headlineText(facts({}), comma)).toBe('425,1 ± 3,5 psi, band 400 to 420 psi.');
    expect(placeText(facts({ value: 395 }))).toBe('5.0 psi below the band');
    expect(placeText(facts({ value: 404.7 }))).toBe('4.7 psi inside the band');
    expect(placeText(facts({ value: 400 }))).toBe('on the limit');
    expect(placeText(facts({ value: null }))).toBe('');
  });
  it.each<[Partial<CriterionFacts>, string, string]>([
    [
      { id: 'drift', value: -2.17, expandedUncertainty: null, limits: { low: -5, high: 5 } },
      '2.2 psi down',
      'at most 5 psi up or down',
    ],
    [
      { id: 'drift', value: 5.04, expandedUncertainty: null, limits: { low: -5, high: 5 } },
      '5.04 psi up',
      'at most 5 psi up or down',
    ],
    [
      {
        id: 'settling',
        value: 45.2,
        unit: 'min',
        expandedUncertainty: null,
        limits: { low: null, high: 60 },
      },
      '45 min',
      'at most 60 min',
    ],
    [
      {
        id: 'run-length',
        value: 5.99722,
        unit: 'h',
        expandedUncertainty: null,
        limits: { low: 6, high: null },
      },
      '5 h 59 min 50 s',
      'at least 6 h',
    ],
    [
      {
        id: 'run-length',
        value: 5.99999,
        unit: 'h',
        expandedUncertainty: null,
        limits: { low: 6, high: null },
      },
      '21\u00a0599.964 s',
      'at least 6 h',
    ],
    [
      {
        id: 'time-in-band',
        value: 0.997,
        unit: '1',
        expandedUncertainty: null,
        limits: { low: 0.98, high: null },
      },
      '99.7 %',
      'at least 98 %',
    ],
    [
      { id: 'released-pressure', value: 18, expandedUncertainty: null, limits: { low: null, high: 30 } },
      '18.0 psi',
      'at most 30 psi',
    ],
    [
      {
        id: 'hold-temperature',
        value: 61,
        unit: 'degC',
        expandedUncertainty: 1.2,
        limits: { low: 50, high: 80 },
      },
      '61.0 ± 1.2 °C',
      '50 to 80 °C',
    ],
    [{ value: null, limits: { low: null, high: null } }, '', 'no limit'],
  ])('%j', (change, value, allowed) => {
    expect(valueText(facts(change))).toBe(value);
    expect(allowedText(facts(change))).toBe(allowed);
  });
  it('a size never reads like the one it is told from', () => {
    expect(sizeText(facts({ expandedUncertainty: 3.5 }), 0.04, 0)).toBe('0.04 psi');
  });
});
