import { describe, expect, it } from 'vitest';
import {
  asSentence,
  chanceText,
  decimalsForStep,
  decimalsForUncertainty,
  decimalsToTell,
  durationText,
  fixedText,
  noBreak,
  numberStyle,
  shareText,
  statedText,
  uncertainText,
  unitLabel,
  withUnit,
} from '#units/number-text.ts';

const comma = { decimal: ',' } as const;

it.each([
  [3.4641, 1, '3.5'],
  [0.123, 2, '0.12'],
  [12.3, 0, '12'],
  [123, -1, '120'],
  [9.96, 0, '10'],
  [0.0999, 2, '0.10'],
  [1, 1, '1.0'],
])('U = %d shows two significant digits: %d decimals, "%s"', (expanded, decimals, text) => {
  expect(decimalsForUncertainty(expanded)).toBe(decimals);
  expect(fixedText(expanded, decimals)).toBe(text);
});

it.each([
  [0.2, 1],
  [0.014, 2],
  [1.4, 0],
  [0.00138, 3],
  [10, 0],
  [0.1, 1],
  [0, 0],
])('a step of %d needs %d decimals', (step, decimals) => {
  expect(decimalsForStep(step)).toBe(decimals);
});

it.each([
  [-2.17, 1, '−2.2'],
  [-0.04, 1, '0.0'],
  [0, 2, '0.00'],
  [1234, 0, '1234'],
  [12345.6, 1, '12\u00a0345.6'],
  [1234567, 0, '1\u00a0234\u00a0567'],
  [417, -1, '420'],
  [-417, -2, '−400'],
])('%d with %d decimals is "%s"', (value, decimals, text) => {
  expect(fixedText(value, decimals)).toBe(text);
});
it('writes the decimal comma where the language does', () => {
  expect(fixedText(-28.35, 2, comma)).toBe('−28,35');
  expect(statedText(0.5, comma)).toBe('0,5');
});

it.each([
  [420, '420'],
  [27.5, '27.5'],
  [-0.25, '−0.25'],
  [0.1 + 0.2, '0.3'],
  [20000, '20\u00a0000'],
])('a limit of %d is written as stated: "%s"', (value, text) => {
  expect(statedText(value)).toBe(text);
});

describe('a value beside a limit', () => {
  it('never reads like a limit that it does not equal', () => {
    expect(decimalsToTell(420.04, [400, 420], 1)).toBe(2);
    expect(decimalsToTell(420, [400, 420], 1)).toBe(1);
    expect(decimalsToTell(411, [400, null], 1)).toBe(1);
  });
  it('gives up four digits further', () => {
    expect(decimalsToTell(420.00000000001, [420], 1)).toBe(5);
  });
  it('carries U to the same decimal', () => {
    expect(uncertainText(425.123, 3.4641, 'psi', [400, 420])).toBe('425.1 ± 3.5 psi');
    expect(uncertainText(28.3456, 0.0234, 'kgf/cm2')).toBe('28.346 ± 0.023 kgf/cm²');
    expect(uncertainText(411, 123, 'psi')).toBe('410 ± 120 psi');
  });
});

it.each([
  ['kgf/cm2', 'kgf/cm²'],
  ['degC', '°C'],
  ['psi/degC', 'psi/°C'],
  ['psi/h', 'psi/h'],
  ['kgf/cm2/mm', 'kgf/cm²/mm'],
  ['1', ''],
  ['percent', '%'],
])('the unit %s reads "%s"', (unit, label) => {
  expect(unitLabel(unit)).toBe(label);
});
it('puts a blank before °C, and nothing after a bare number', () => {
  expect(withUnit('61.0', 'degC')).toBe('61.0 °C');
  expect(withUnit('0.5', '1')).toBe('0.5');
});

it.each([
  [0.997, '99.7 %'],
  [1, '100 %'],
  [0, '0 %'],
  [0.99987, '99.99 %'],
  [0.00012, '0.01 %'],
  [0.5, '50.0 %'],
])('a share of %d is "%s"', (share, text) => {
  expect(shareText(share)).toBe(text);
});

it.each([
  [19080, '5 h 18 min'],
  [2760, '46 min'],
  [2790, '47 min'],
  [380, '6 min 20 s'],
  [360, '6 min'],
  [1.4, '1.4 s'],
  [3, '3 s'],
  [0, '0 s'],
  [59.97, '1 min'],
  [3600, '1 h'],
  [21599, '6 h'],
])('%d s are "%s"', (seconds, text) => {
  expect(durationText(seconds)).toBe(text);
});
it('keeps the seconds where they are asked for', () => {
  expect(durationText(21590, true)).toBe('5 h 59 min 50 s');
  expect(durationText(-3600)).toBe('−1 h');
});

it.each([
  [0.97, '97 in 100'],
  [0.9951, 'over 99 in 100'],
  [0.995, 'over 99 in 100'],
  [0.9949, '99 in 100'],
  [0.005, 'under 1 in 100'],
  [0.0049, 'under 1 in 100'],
  [0.5, '50 in 100'],
])('a chance of %d is "%s"', (probability, text) => {
  expect(chanceText(probability)).toBe(text);
});

it('binds numbers to their units for a page, and only there', () => {
  expect(noBreak('425.1 ± 3.5 psi, band 400 to 420 psi for 5 h 18 min at 60 °C, 99.7 %')).toBe(
    '425.1\u00a0±\u00a03.5\u00a0psi, band 400 to 420\u00a0psi for 5\u00a0h 18\u00a0min at 60\u00a0°C, 99.7\u00a0%',
  );
  expect(noBreak('in 2 hours')).toBe('in 2 hours');
});
it('makes a sentence of a clause', () => {
  expect(asSentence('oil never reached 50 °C')).toBe('Oil never reached 50 °C.');
  expect(asSentence('Done.')).toBe('Done.');
  expect(asSentence(' ')).toBe('');
});

describe('decimal mark by language', () => {
  const tags =
    'en en-US en-GB en-ZA de de-DE de-AT de-CH fr fr-CA fr-CH it it-CH es es-ES es-MX es-AR pt pt-BR nl pl cs sk sl hr sv da nb nn fi et lv lt ru uk bg ro hu tr el ja zh ko th he ca gl eu is sr mk sq bs vi id ka kk be af en-DE en-AT en-NL en-SE en-DK en-FI en-SI en-BE de-LI es-US es-PR es-GT es-HN es-NI es-PA es-SV es-DO es-PE'.split(
      ' ',
    );
  // The machine's own locale data as the reference; where it lacks a language there is nothing to compare.
  it.each(tags.filter((tag) => Intl.NumberFormat.supportedLocalesOf(tag).length > 0))('%s', (tag) => {
    const mark = new Intl.NumberFormat(tag).formatToParts(1.5).find(({ type }) => type === 'decimal')?.value;
    expect(numberStyle(tag).decimal).toBe(mark);
  });
  it('an unknown language gets the point', () => {
    expect(numberStyle('xx').decimal).toBe('.');
  });
});
