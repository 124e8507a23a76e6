import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Criterion } from '#formats/assessment.ts';
import { recordPressureUnits } from '#formats/record-data.ts';
import { attachedFiles } from '#record/attached-files.ts';
import { chartSvg } from '#record/chart-svg.ts';
import { openFonts } from '#record/font-set.ts';
import { laidOut } from '#record/laid-out.ts';
import type { Node } from '#record/lay.ts';
import type { RecordInput } from '#record/record-input.ts';
import { reworded } from '#formats/reworded.ts';
import { inRecordUnits } from '#record/shown-units.ts';
import { pressureFactor } from '#units/pressure.ts';
import { cases, recordOf } from './cases.ts';

const textOf = (node: Node): string =>
  [
    ...(node.items ?? []).flatMap((item) => (item.kind === 'text' ? [item.text] : [])),
    ...(node.children ?? []).map(textOf),
  ].join(' ');
const words = (input: RecordInput): string =>
  laidOut(input, openFonts(input.fonts), true)
    .pages.flatMap(({ nodes }) => nodes.map(textOf))
    .join(' ')
    .replace(/\s+/gu, ' ');
const bar = { pressure: 'bar', temperature: 'degF' } as const;

describe('a record in the units of the shop', () => {
  test('numbers, limits, chart and sentences are in them; how it was judged is said', () => {
    const text = words({ ...cases['fail-with-concession'](), units: bar });
    // 424.1, 400 and 420 psi times 0.0689476 (NIST SP 811, B.8).
    for (const said of [
      '29.24 bar ± 0.15 bar',
      '27.58 to 28.96 bar',
      'Stated and judged as 400 to 420 psi; shown in bar.',
      '1 psi = 0.0689476 bar',
      'upper limit 28.96',
      'judged in °C and shown in °F',
    ])
      expect(text).toContain(said);
    // The gauge keeps the unit of its dial.
    expect(
      text
        .replace('1 psi =', '')
        .replace('400 to 420 psi', '')
        .match(/\d psi/gu),
    ).toEqual(['0 psi']);
  });
  test('verdicts stay, and what is attached is as it was judged', () => {
    const input = cases.undecided();
    const shown = inRecordUnits({ ...input, units: bar });
    expect(shown.assessment.criteria.map(({ verdict }) => verdict)).toEqual(
      input.assessment.criteria.map(({ verdict }) => verdict),
    );
    const files = attachedFiles({ ...input, units: bar });
    const bytesOf = (all: typeof files, name: string): Uint8Array | undefined =>
      all.find((file) => file.name === name)?.bytes;
    expect(bytesOf(files, 'assessment.json')).toEqual(bytesOf(attachedFiles(input), 'assessment.json'));
    expect(new TextDecoder().decode(bytesOf(files, 'record.json'))).toContain('"pressure": "bar"');
  });
  test('those of the limits, or none named: the record is as without', () => {
    const input = cases.pass();
    expect(words({ ...input, units: { pressure: 'psi', temperature: 'degC' } })).toBe(words(input));
    expect(words({ ...input, units: {} })).toBe(words(input));
  });
  test('the chart alone too', () => {
    const input = cases.pass();
    expect(chartSvg({ ...input, units: bar, embedFonts: false })).toContain('pressure, bar (gauge)');
  });
  test.each(['kPa', 'kgf/cm2', 'bar'] as const)(
    'a value never changes its side of a limit in %s',
    (pressure) => {
      fc.assert(
        fc.property(
          fc.constantFrom(400, 420, 27.5, 150.25),
          fc.double({ min: -0.4, max: 0.4, noNaN: true }),
          (limit, off) => {
            const value = Number((limit + off).toPrecision(12));
            const criterion: Criterion = {
              id: 'operating-pressure',
              value,
              unit: 'psi',
              expandedUncertainty: 1.2,
              limits: { low: null, high: limit },
              decisionRule: 'simple',
              probabilityOfConformity: null,
              verdict: value <= limit ? 'pass' : 'fail',
              reason: 'as made',
            };
            const input = recordOf({});
            const [shown] = inRecordUnits({
              ...input,
              assessment: { ...input.assessment, spec: null, criteria: [criterion] },
              units: { pressure },
            }).assessment.criteria;
            const high = shown?.limits.high ?? NaN,
              found = shown?.value ?? NaN;
            // A value within the last digits of a number is on the limit for all purposes.
            if (Math.abs(off) > 1e-6 || off === 0) expect(found <= high).toBe(value <= limit);
            expect(Math.abs(high / limit / pressureFactor('psi', pressure) - 1)).toBeLessThan(0.01);
          },
        ),
        { numRuns: 60 },
      );
    },
  );
});

describe('a sentence in another unit', () => {
  const toBar = {
    from: 'psi',
    to: 'bar',
    level: (value: number) => value * pressureFactor('psi', 'bar'),
    difference: (value: number) => value * pressureFactor('psi', 'bar'),
    limits: new Map([
      [400, 27.58],
      [420, 28.96],
    ]),
    exact: [],
    decimals: null,
  };
  const toFahrenheit = {
    ...toBar,
    from: 'degC',
    to: 'degF',
    level: (value: number) => value * 1.8 + 32,
    difference: (value: number) => value * 1.8,
    limits: new Map<number, number>(),
  };
  test.each([
    [
      '425.1 ± 3.5 psi, band 400 to 420 psi: 5.1 psi above the band',
      '29.31 ± 0.24 bar, band 27.58 to 28.96 bar: 0.352 bar above the band',
    ],
    ['but the gauge is only sure to ± 3.5 psi', 'but the gauge is only sure to ± 0.24 bar'],
    ['for a range of 0 to 1000 psi the next class', 'for a range of 0 to 1000 psi the next class'],
    ['falls by 0.11 psi/°C of oil temperature', 'falls by 0.11 psi/°C of oil temperature'],
    ['at −3 psi and 12 min', 'at −0.21 bar and 12 min'],
    ['column "P1 psi" is empty', 'column "P1 psi" is empty'],
  ])('%s', (text, said) => expect(reworded(text, toBar)).toBe(said));
  test.each([
    ['it is on its way to 58.2 °C', 'it is on its way to 136.8 °F'],
    [
      'the oil temperature fell by 9.1 °C within a minute',
      'the oil temperature fell by 16.4 °F within a minute',
    ],
    [
      '50.3 ± 1.7 °C over the hold: 0.3 °C inside the range',
      '122.5 ± 3.1 °F over the hold: 0.5 °F inside the range',
    ],
  ])('%s', (text, said) => expect(reworded(text, toFahrenheit)).toBe(said));
});

test('every unit of a record lays out without overlap of the chart’s labels', () => {
  for (const pressure of recordPressureUnits)
    expect(words({ ...cases.pass(), units: { pressure } })).toContain('Delivery record');
});
