// Trend: Mann–Kendall and Theil–Sen, and a plain line.
import { describe, expect, it } from 'vitest';
import { fitLine } from '#statistics/fit-line.ts';
import { mannKendall } from '#statistics/mann-kendall.ts';
import { theilSen } from '#statistics/theil-sen.ts';
import { digitsReport } from './digits-report.ts';
import { nile, nileYears } from './nile.ts';

const check = digitsReport('Trend');

describe('USEPA, Unified Guidance (EPA 530/R-09-007, 2009), example 17-6, p. 17-33: sulfate', () => {
  // Data read in the R package EnvStats (EPA.09.Ex.17.6.sulfate.df), results in its help page of kendallTrendTest.
  const t = [
    89.6, 89.8, 90.1, 90.3, 90.6, 90.8, 91.1, 91.3, 91.6, 91.8, 92.1, 92.6, 93.1, 93.6, 94.1, 94.6, 95.1,
    95.6, 95.8, 96.1, 96.3, 96.6, 96.8,
  ];
  const y = [
    480, 450, 490, 520, 485, 510, 510, 530, 510, 560, 560, 540, 590, 550, 600, 700, 570, 610, 650, 620, 830,
    720, 590,
  ];
  it('Mann–Kendall: printed tau 0.7667984, z 5.107322, p 3.267574e−7', () => {
    const test = mannKendall(y);
    expect(test?.s).toBe(194);
    expect(test?.variance).toBe(1428);
    check('17-6 tau', test?.tau ?? NaN, 0.7667984, 7);
    check('17-6 z, printed', test?.z ?? NaN, 5.107322, 7);
    check('17-6 z, computed apart', test?.z ?? NaN, 5.107321596840894, 13);
    check('17-6 p, printed', test?.probability ?? NaN, 3.267574e-7, 6);
    check('17-6 p, computed apart at 40 digits', test?.probability ?? NaN, 3.267573570717953e-7, 12);
  });
  it('Theil–Sen: printed slope 26.6666667, intercept −1909.3333, interval 20.00000 to 35.71182', () => {
    const line = theilSen(t, y);
    expect(line?.pairs).toBe(253);
    check('17-6 slope', line?.slope ?? NaN, 26.6666667, 8);
    check('17-6 intercept', line?.intercept ?? NaN, -1909.3333333, 10);
    check('17-6 low', line?.low ?? NaN, 20, 7);
    check('17-6 high, printed', line?.high ?? NaN, 35.71182, 6.9);
    check('17-6 high, computed apart', line?.high ?? NaN, 35.71182403049809, 12);
  });
});

describe('Nile at Aswan, 1871–1970', () => {
  // Results computed with numpy and scipy 1.10.1 apart from this program; z, p, slope agree with pymannkendall 1.4.
  it('Mann–Kendall and Theil–Sen', () => {
    const test = mannKendall(nile);
    expect(test?.s).toBe(-1387);
    check('Nile var S', test?.variance ?? NaN, 112728.33333333333, 14);
    check('Nile z', test?.z ?? NaN, -4.128066522844101, 13);
    check('Nile p', test?.probability ?? NaN, 3.658262921664326e-5, 12);
    const line = theilSen(nileYears, nile);
    check('Nile slope', line?.slope ?? NaN, -2.6, 14);
    check('Nile low', line?.low ?? NaN, -3.6279264778448708, 12);
    check('Nile high', line?.high ?? NaN, -1.4284443759457544, 12);
  });
});

describe('small vectors, computed apart from this program (numpy, scipy 1.10.1)', () => {
  it('ties', () => {
    const y = [30, 30.1, 30.1, 30.2, 30.1, 30.3, 30.3, 30.4, 30.2, 30.5];
    const t = y.map((_, i) => i);
    const test = mannKendall(y);
    expect(test?.s).toBe(32);
    check('ties var S', test?.variance ?? NaN, 119.33333333333333, 14);
    check('ties z', test?.z ?? NaN, 2.8377936192926936, 13);
    check('ties p', test?.probability ?? NaN, 0.0045426544221627285, 12);
    const line = theilSen(t, y);
    check('ties slope', line?.slope ?? NaN, 0.05, 13);
    check('ties low', line?.low ?? NaN, 0.02328913810058611, 11);
    check('ties high', line?.high ?? NaN, 0.06136868951953078, 11);
  });
  it('four points give a slope and no 95 % interval', () => {
    const test = mannKendall([10, 15, 14, 20]);
    check('four points var S', test?.variance ?? NaN, 26 / 3, 14);
    check('four points z', test?.z ?? NaN, 1.0190493307301363, 13);
    expect(theilSen([0, 1, 2, 3], [10, 15, 14, 20])).toMatchObject({ low: null, high: null });
    check('four points slope', theilSen([0, 1, 2, 3], [10, 15, 14, 20])?.slope ?? NaN, 2.916666666666667, 14);
  });
  it('twenty readings that drift', () => {
    const t = Array.from({ length: 20 }, (_, i) => i / 4);
    const y = [
      30, 30.12, 29.95, 30.05, 30.2, 30.15, 30.02, 30.3, 30.22, 30.18, 30.35, 30.28, 30.4, 30.25, 30.45, 30.5,
      30.38, 30.42, 30.55, 30.6,
    ];
    const line = fitLine(t, y);
    check('drift intercept', line?.intercept ?? NaN, 29.993428571428574, 13);
    check('drift slope', line?.slope ?? NaN, 0.11581954887218404, 12);
    check('drift sd(intercept)', line?.interceptStandardError ?? NaN, 0.03413410069374424, 12);
    check('drift sd(slope)', line?.slopeStandardError ?? NaN, 0.012286126365732319, 12);
    check('drift s', line?.residualStandardDeviation ?? NaN, 0.07920740938143978, 12);
    const robust = theilSen(t, y);
    check('drift Theil–Sen', robust?.slope ?? NaN, 0.11269841269841249, 12);
    check('drift Theil–Sen low', robust?.low ?? NaN, 0.09333333333333371, 12);
    check('drift Theil–Sen high', robust?.high ?? NaN, 0.14429828884223092, 12);
    check('drift Mann–Kendall z', mannKendall(y)?.z ?? NaN, 4.639532644339808, 13);
  });
});
