// Relief spring and shims.
// - Pressure per shim: workshop manual of a compact tractor, hydraulic servicing, p. 8-S6 (document 9Y1210436HYS0006US0), read: shims of
//   0.10, 0.20 and 0.40 mm; 0.10 mm is about 264.8 kPa (2.7 kgf/cm², 38 psi), setting 13.7 to 14.4 MPa at 50 °C.
// - k = G·d⁴/(8·D³·n): read on a page of spring formulas. Its example in inches: from memory. The example in millimetres: own arithmetic.
import { describe, expect, it } from 'vitest';
import { learn } from '#relief/learn.ts';
import { changesOf } from '#relief/sensitivity.ts';
import { pressurePerMillimetre, springRate_NPerMm } from '#relief/valve.ts';
import type { Adjustments } from '#formats/relief.ts';
import { convert } from '#units/unit.ts';
import { matchingDigits } from './matching-digits.ts';

describe('the published shim: 0.10 mm is about 264.8 kPa', () => {
  const history: Adjustments = {
    format: 'overdrive-bench/adjustments',
    version: 1,
    adjustments: [
      {
        before_mm: [0.4, 0.2],
        after_mm: [0.4, 0.2, 0.1],
        pressureBefore: { value: 13700, unit: 'kPa', standardUncertainty: 20 },
        pressureAfter: { value: 13964.8, unit: 'kPa', standardUncertainty: 20 },
      },
    ],
  };
  it.each([
    ['kPa', 264.8, 4],
    ['kgf/cm2', 2.7, 3],
    ['psi', 38, 2],
  ] as const)('read back through the history in %s: %d per 0.10 mm as printed', (unit, printed, digits) => {
    const learned = learn(changesOf(history, unit, 0));
    const perShim = (learned?.value ?? NaN) * 0.1;
    expect(Number(perShim.toPrecision(digits))).toBe(printed);
    expect(matchingDigits(perShim, convert(264.8, 'kPa', unit))).toBeGreaterThan(11);
  });
  it('is what a spring of 12.5 N/mm does on a seat of 4.72 mm²', () => {
    const area = 12.5 / 2.648; // N/mm over MPa/mm
    const found = pressurePerMillimetre(
      { springRate: { value: 12.5, unit: 'N/mm' }, pressureArea: { value: area, unit: 'mm2' } },
      'kPa',
    );
    expect(matchingDigits(found.value * 0.1, 264.8)).toBeGreaterThan(13);
  });
});

describe('spring rate', () => {
  it('2 mm wire, 16 mm coil, 8 coils, 79.3 GPa: 4.840 N/mm; on a 6 mm seat 0.5 mm give 0.856 bar (own arithmetic)', () => {
    const rate = springRate_NPerMm(2, 16, 8);
    expect(rate.toFixed(3)).toBe('4.840');
    const { value } = pressurePerMillimetre(
      { springRate: { value: rate, unit: 'N/mm' }, pressureArea: { value: (Math.PI / 4) * 36, unit: 'mm2' } },
      'bar',
    );
    expect((value * 0.5).toFixed(3)).toBe('0.856');
  });
  it('0.037 in wire, 0.400 in coil, 10.5 coils, 11.85 Mpsi: 4.13 lbf/in (textbook example, from memory)', () => {
    const inch = 25.4;
    const modulus_GPa = (11.85e6 * 6894.757293168361) / 1e9;
    const rate = springRate_NPerMm(0.037 * inch, 0.4 * inch, 10.5, modulus_GPa);
    expect(((rate * 25.4) / (0.45359237 * 9.80665)).toFixed(2)).toBe('4.13');
  });
  it('takes rates in N/m and lbf/in, areas in cm² and in²', () => {
    const of = (
      rate: number,
      rateUnit: 'N/mm' | 'N/m' | 'lbf/in',
      area: number,
      areaUnit: 'mm2' | 'cm2' | 'in2',
    ): number =>
      pressurePerMillimetre(
        { springRate: { value: rate, unit: rateUnit }, pressureArea: { value: area, unit: areaUnit } },
        'psi',
      ).value;
    expect(of(12.5, 'N/mm', 80, 'mm2')).toBeCloseTo(22.6621, 4);
    expect(of(12500, 'N/m', 0.8, 'cm2')).toBeCloseTo(22.6621, 4);
    // 100 lbf/in on 1 in²: 100 psi an inch, so 100/25.4 a millimetre
    expect(of(100, 'lbf/in', 1, 'in2')).toBeCloseTo(100 / 25.4, 12);
  });
  it('adds relative uncertainties in squares', () => {
    const { value, standardUncertainty } = pressurePerMillimetre(
      {
        springRate: { value: 10, unit: 'N/mm', standardUncertainty: 0.3 },
        pressureArea: { value: 100, unit: 'mm2', standardUncertainty: 4 },
      },
      'MPa',
    );
    expect(value).toBeCloseTo(0.1, 14);
    expect(standardUncertainty).toBeCloseTo(0.005, 14);
  });
});
