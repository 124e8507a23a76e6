// JCGM 100:2008 (GUM): 4.4.3, G.3, G.4.1, Table G.2, H.1, H.3. Printed figures read in the document itself; further digits computed
// apart from this program.
import { describe, expect, it } from 'vitest';
import { fitLine } from '#statistics/fit-line.ts';
import { mean, sampleStandardDeviation } from '#statistics/mean.ts';
import { studentTQuantile } from '#statistics/student-t.ts';
import { welchSatterthwaite } from '#statistics/welch-satterthwaite.ts';
import { digitsReport } from './digits-report.ts';

const check = digitsReport('JCGM 100:2008');
const parts = (u: number[], nu: number[]): { standardUncertainty: number; degreesOfFreedom: number }[] =>
  u.map((standardUncertainty, i) => ({ standardUncertainty, degreesOfFreedom: nu[i] ?? NaN }));

it('4.4.3, Table 1: twenty temperatures, printed 100.145, 1.489, 0.333 °C', () => {
  const t = [
    96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95,
    101.11, 101.2, 101.57, 101.84, 102.36, 102.72,
  ];
  check('4.4.3 mean', mean(t), 100.145, 13);
  check('4.4.3 standard deviation', sampleStandardDeviation(t), 1.4888444830595435, 13);
  expect((sampleStandardDeviation(t) / Math.sqrt(20)).toFixed(3)).toBe('0.333');
});

describe('H.1, end gauge', () => {
  it('Table H.1: effective degrees of freedom, printed 16.7, with the unrounded u_c', () => {
    const { combined, effectiveDegreesOfFreedom } = welchSatterthwaite(
      parts([25, 9.7, 2.9, 16.6], [18, 25.6, 50, 2]),
    );
    check('H.1 combined, nm', combined, 31.67112249352713, 13);
    check('H.1 effective degrees of freedom', effectiveDegreesOfFreedom, 16.76455398091716, 13);
    expect(Math.round(combined)).toBe(32);
    // The print rounds down from components with more digits; 17.47 would come from u_c rounded to 32 nm.
    expect(Math.abs(effectiveDegreesOfFreedom - 16.7)).toBeLessThan(0.1);
  });
  it('H.1.3.2: the part for the difference, printed 9.7 nm and 25.6', () => {
    const { combined, effectiveDegreesOfFreedom } = welchSatterthwaite(parts([5.8, 3.9, 6.7], [24, 5, 8]));
    expect(combined.toFixed(1)).toBe('9.7');
    // The print goes on from u rounded to 9.7 nm; unrounded it is 25.4.
    expect(effectiveDegreesOfFreedom.toFixed(1)).toBe('25.4');
    expect((effectiveDegreesOfFreedom * (9.7 / combined) ** 4).toFixed(1)).toBe('25.6');
  });
  it('H.1.6: t for 99 % and 16 degrees of freedom, printed 2.92; U printed 93 nm', () => {
    const t = studentTQuantile(0.995, 16);
    check('H.1 t99(16)', t, 2.9207816224251, 13);
    expect(Math.round(t * 32)).toBe(93);
  });
});

it('G.4.1: 0.25, 0.57 and 0.82 % of n = 10, 5, 15: printed 1.03 % and 19.0', () => {
  const { combined, effectiveDegreesOfFreedom } = welchSatterthwaite(parts([0.25, 0.57, 0.82], [9, 4, 14]));
  expect(combined.toFixed(2)).toBe('1.03');
  check('G.4.1 effective degrees of freedom', effectiveDegreesOfFreedom, 18.998742314267957, 13);
});
it('a part with infinite degrees of freedom counts in the sum alone', () => {
  const { combined, effectiveDegreesOfFreedom } = welchSatterthwaite(parts([3, 4], [4, Infinity]));
  expect(combined).toBe(5);
  expect(effectiveDegreesOfFreedom).toBeCloseTo(625 / (81 / 4), 12);
  expect(welchSatterthwaite(parts([3, 4], [Infinity, Infinity])).effectiveDegreesOfFreedom).toBe(Infinity);
});

describe('Table G.2: t for coverage probability p', () => {
  const p = [0.6827, 0.9, 0.95, 0.9545, 0.99, 0.9973];
  const table: [number, number[]][] = [
    [1, [1.84, 6.31, 12.71, 13.97, 63.66, 235.8]],
    [2, [1.32, 2.92, 4.3, 4.53, 9.92, 19.21]],
    [3, [1.2, 2.35, 3.18, 3.31, 5.84, 9.22]],
    [4, [1.14, 2.13, 2.78, 2.87, 4.6, 6.62]],
    [5, [1.11, 2.02, 2.57, 2.65, 4.03, 5.51]],
    [6, [1.09, 1.94, 2.45, 2.52, 3.71, 4.9]],
    [7, [1.08, 1.89, 2.36, 2.43, 3.5, 4.53]],
    [8, [1.07, 1.86, 2.31, 2.37, 3.36, 4.28]],
    [9, [1.06, 1.83, 2.26, 2.32, 3.25, 4.09]],
    [10, [1.05, 1.81, 2.23, 2.28, 3.17, 3.96]],
    [16, [1.03, 1.75, 2.12, 2.17, 2.92, 3.54]],
    [20, [1.03, 1.72, 2.09, 2.13, 2.85, 3.42]],
    [30, [1.02, 1.7, 2.04, 2.09, 2.75, 3.27]],
    [50, [1.01, 1.68, 2.01, 2.05, 2.68, 3.16]],
    [100, [1.005, 1.66, 1.984, 2.025, 2.626, 3.077]],
    [Infinity, [1, 1.645, 1.96, 2, 2.576, 3]],
  ];
  it.each(table)('ν = %d, every printed digit', (nu, row) => {
    row.forEach((printed, column) => {
      // The print gives two decimals; one for 235.8, three for 100 and infinite degrees of freedom.
      const decimals = printed > 100 ? 1 : nu >= 100 ? 3 : 2;
      const t = studentTQuantile(0.5 + (p[column] ?? NaN) / 2, nu);
      expect(Math.abs(t - printed), `p ${p[column]}: ${t}`).toBeLessThanOrEqual(0.5001 * 10 ** -decimals);
    });
  });
});

describe('H.3, calibration line of a thermometer', () => {
  const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
  const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
  const line = fitLine(
    t.map((value) => value - 20),
    b,
  );
  it('printed −0.1712, 0.0029, 0.00218, 0.00067, −0.930, 0.0035', () => {
    check('H.3 y1', line?.intercept ?? NaN, -0.17120379013134981, 12);
    check('H.3 s(y1)', line?.interceptStandardError ?? NaN, 0.002877597835159959, 12);
    check('H.3 y2', line?.slope ?? NaN, 0.0021826977398872014, 12);
    check('H.3 s(y2)', line?.slopeStandardError ?? NaN, 0.0006679387732278329, 12);
    check('H.3 r(y1, y2)', line?.correlation ?? NaN, -0.9304296030934461, 12);
    check('H.3 s', line?.residualStandardDeviation ?? NaN, 0.003497563963505287, 12);
    expect(line?.degreesOfFreedom).toBe(9);
  });
  it('the correction at 30 °C, printed −0.1494 and 0.0041', () => {
    if (!line) throw new Error('no line');
    const { intercept, slope, interceptStandardError: a, slopeStandardError: s, correlation } = line;
    check('H.3 b(30 °C)', intercept + 10 * slope, -0.1493768127324778, 12);
    check(
      'H.3 u(b(30 °C))',
      Math.sqrt(a * a + 100 * s * s + 20 * a * s * correlation),
      0.004138595752854953,
      11,
    );
  });
  it('counted from the mean temperature the two estimates do not hang together (H.3.5)', () => {
    const centred = fitLine(
      t.map((value) => value - (line?.meanX ?? NaN) - 20),
      b,
    );
    expect(Math.abs(centred?.correlation ?? NaN)).toBeLessThan(1e-12);
    check('H.3.5 s(y1′)', centred?.interceptStandardError ?? NaN, 0.0010545552133832113, 11);
  });
});
