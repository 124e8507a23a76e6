// One change of level.
import { describe, expect, it } from 'vitest';
import { changePoint, meanShift, pettitt } from '#statistics/change-point.ts';
import { digitsReport } from './digits-report.ts';
import { nile, nileYears } from './nile.ts';

const check = digitsReport('Change point');

describe('Pettitt (1979), Applied Statistics 28, 126–135: the forty values of Table 1', () => {
  // Data and published result (change at 17, p = 0.014) read in the help of the R package trend; its pettitt.test run: U* = 232, p 0.01456.
  const page = [
    -1.05, 0.96, 1.22, 0.58, -0.98, -0.03, -1.54, -0.71, -0.35, 0.66, 0.44, 0.91, -0.02, -1.42, 1.26, -1.02,
    -0.81, 1.66, 1.05, 0.97, 2.14, 1.22, -0.24, 1.6, 0.72, -0.12, 0.44, 0.03, 0.66, 0.56, 1.37, 1.66, 0.1,
    0.8, 1.29, 0.49, -0.07, 1.18, 3.29, 1.84,
  ];
  it('change after the 17th value, p = 0.014', () => {
    const test = pettitt(page);
    expect(test?.index).toBe(17);
    expect(Math.abs(test?.u ?? NaN)).toBe(232);
    check('Page p, run', test?.probability ?? NaN, 0.014555597539789477, 13);
    expect(Math.floor((test?.probability ?? NaN) * 1000) / 1000).toBe(0.014);
  });
});

describe('Nile: the level falls after 1898', () => {
  // strucchange::breakpoints in R 4.2.2, run: one break after observation 28, residual sums 2835156.75 and 1597457.194.
  it('by ranks', () => {
    const test = pettitt(nile);
    expect(test?.index).toBe(28);
    expect(Math.abs(test?.u ?? NaN)).toBe(1617);
    check('Nile Pettitt p', test?.probability ?? NaN, 3.5910221769362927e-7, 12);
  });
  it('by sums of squares', () => {
    const shift = meanShift(nile);
    expect(nileYears[(shift?.index ?? 0) - 1]).toBe(1898);
    check('Nile before', shift?.before ?? NaN, 1097.75, 14);
    check('Nile after', shift?.after ?? NaN, 849.9722222222222, 14);
    check('Nile one mean', shift?.oneMeanSumOfSquares ?? NaN, 2835156.75, 13);
    check('Nile two means', shift?.residualSumOfSquares ?? NaN, 1597457.1944444445, 13);
  });
  it('is taken for a step, not for a slope', () => {
    expect(changePoint(nile)).toMatchObject({ index: 28 });
  });
});
