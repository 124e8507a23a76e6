// JCGM 100:2008, Annex H.3: calibration of a thermometer. Table H.6 and the printed results of H.3.3 to H.3.5 (pp. 89 to 92) read in the
// document itself; the digits beyond the print computed apart from this program (least squares of a numerical library).
import { describe, expect, it } from 'vitest';
import { checkGauge, correctionAt } from '#relief/check-gauge.ts';
import type { GaugeReadingsCheck } from '#formats/gauge-check.ts';
import { matchingDigits } from './matching-digits.ts';

/** Reading t_k / °C, observed correction b_k / °C, printed predicted correction and residual. */
const table = [
  [21.521, -0.171, -0.1679, -0.0031],
  [22.012, -0.169, -0.1668, -0.0022],
  [22.512, -0.166, -0.1657, -0.0003],
  [23.003, -0.159, -0.1646, 0.0056],
  [23.507, -0.164, -0.1635, -0.0005],
  [23.999, -0.165, -0.1625, -0.0025],
  [24.513, -0.156, -0.1614, 0.0054],
  [25.002, -0.157, -0.1603, 0.0033],
  [25.503, -0.159, -0.1592, 0.0002],
  [26.01, -0.161, -0.1581, -0.0029],
  [26.511, -0.16, -0.157, -0.003],
] as const;

function check(t0?: number): GaugeReadingsCheck {
  const result = checkGauge(
    { unit: 'degC', reading: table.map(([t]) => t), reference: table.map(([t, b]) => t + b) },
    t0 === undefined ? {} : { t0 },
  );
  if (!result.ok) throw new Error('refused');
  return result.value;
}

describe('the line at t0 = 20 °C', () => {
  const found = check(20);
  it.each([
    ['intercept', found.intercept, '-0.1712', -0.17120379013135],
    ['its standard uncertainty', found.interceptStandardUncertainty, '0.0029', 0.00287759783516],
    ['slope', found.slope, '0.00218', 0.002182697739887],
    ['its standard uncertainty', found.slopeStandardUncertainty, '0.00067', 0.000667938773228],
    ['correlation', found.correlation, '-0.930', -0.930429603093446],
    ['residual standard deviation', found.residualStandardDeviation, '0.0035', 0.003497563963505],
  ])('%s %d is printed as %s', (_, value, printed, computed) => {
    const decimals = printed.length - printed.indexOf('.') - 1;
    expect((value ?? NaN).toFixed(decimals)).toBe(printed);
    // the corrections carry three decimals, so a reference rebuilt from them is good to about eleven digits
    expect(matchingDigits(value ?? NaN, computed)).toBeGreaterThan(9);
  });
  it('has 11 points and 9 degrees of freedom', () => {
    expect(found).toMatchObject({ points: 11, degreesOfFreedom: 9 });
  });
  it.each(table.map((row, index) => [index + 1, ...row] as const))(
    'row %d: t %d, b %d, predicted %d, residual %d',
    (k, t, _b, predicted, residual) => {
      expect(correctionAt(found, t).correction.toFixed(4)).toBe(predicted.toFixed(4));
      // Table H.6 prints the residuals to four decimals
      expect(Math.abs((found.residuals?.[k - 1]?.residual ?? NaN) - residual)).toBeLessThan(0.00006);
    },
  );
  it('predicts at 30 °C: −0.1494 °C with u 0.0041 °C (H.3.4)', () => {
    const { correction, standardUncertainty } = correctionAt(found, 30);
    expect(correction.toFixed(4)).toBe('-0.1494');
    expect((standardUncertainty ?? NaN).toFixed(4)).toBe('0.0041');
    expect(matchingDigits(correction, -0.149376812732478)).toBeGreaterThan(9);
    expect(matchingDigits(standardUncertainty ?? NaN, 0.004138595752855)).toBeGreaterThan(8);
  });
});

describe('the line at the mean reading (H.3.5)', () => {
  const found = check();
  it('is independent there: t 24.0085, y1 −0.1625, u 0.0011, correlation 0', () => {
    expect(found.t0.toFixed(4)).toBe('24.0085');
    expect(found.intercept.toFixed(4)).toBe('-0.1625');
    expect((found.interceptStandardUncertainty ?? NaN).toFixed(4)).toBe('0.0011');
    expect(Math.abs(found.correlation ?? NaN)).toBeLessThan(1e-9);
  });
  it('predicts the same as the line at 20 °C, wherever the reading lies', () => {
    for (const t of [10, 21.5, 30]) {
      const a = correctionAt(found, t),
        b = correctionAt(check(20), t);
      expect(a.correction).toBeCloseTo(b.correction, 10);
      expect(a.standardUncertainty ?? NaN).toBeCloseTo(b.standardUncertainty ?? NaN, 10);
    }
  });
});
