// First-order approach: constants that follow from the formula (IEC 60469 / IEEE 181 terms), and a fit made with R's nls.
import { describe, expect, it } from 'vitest';
import { exp, expm1, log } from '#statistics/elementary.ts';
import { fitExponentialApproach } from '#statistics/fit-exponential-approach.ts';
import { digitsReport } from './digits-report.ts';

const check = digitsReport('First order');

describe('constants in units of the time constant', () => {
  it.each([
    [1, 0.6321205588285577],
    [2, 0.8646647167633873],
    [3, 0.950212931632136],
    [4, 0.9816843611112658],
    [5, 0.9932620530009145],
  ])('after %d: %d of the way', (times, share) => check(`after ${times}`, -expm1(-times), share, 15));
  it('10–90 %, 5 %, 2 %, half', () => {
    check('10 to 90 %: ln 9', log(9), 2.1972245773362196, 15);
    check('to 5 %: ln 20', log(20), 2.995732273553991, 15);
    check('to 2 %: ln 50', log(50), 3.912023005428146, 15);
    check('half: ln 2', log(2), 0.6931471805599453, 15);
    check('and back', 1 - exp(-log(50)), 0.98, 15);
  });
});

describe('25 points, fitted by R 4.2.2 nls (Gauss–Newton)', () => {
  const temperature = [
    20.35, 30.53, 39.79, 47.41, 52.69, 57.94, 62.27, 64.85, 67.91, 70.42, 71.52, 73.38, 74.89, 75.18, 76.38,
    77.34, 77.19, 78.04, 78.68, 78.29, 78.95, 79.42, 78.89, 79.45, 79.82,
  ];
  const fit = fitExponentialApproach(
    temperature.map((_, i) => 5 * i),
    temperature,
  );
  it('start, rise, time constant with their standard errors', () => {
    if (!fit.ok) throw new Error(fit.reason);
    // R stops at a relative offset of 1e−5 and prints its way there; its digits hold to about the sixth.
    check('start, R', fit.start, 20.118784526986, 6);
    check('se(start), R', fit.startStandardError, 0.234142912018, 6);
    check('rise, R', fit.final - fit.start, 59.932535487323, 6);
    check('time constant, R', fit.timeConstant, 25.11419146397, 6);
    check('se(time constant), R', fit.timeConstantStandardError, 0.2243205353876, 5);
    check('residual sum of squares, R', fit.residualSumOfSquares, 2.003787017816, 10);
    expect(fit.residualSumOfSquares).toBeLessThan(2.003787017815);
    // The same carried to the end at 40 digits (Gauss–Newton, mpmath), apart from this program.
    check('start', fit.start, 20.11878023776498, 11);
    check('se(start)', fit.startStandardError, 0.23414292492737673, 11);
    check('rise', fit.final - fit.start, 59.93253772606249, 11);
    check('time constant', fit.timeConstant, 25.114185826225746, 11);
    check('se(time constant)', fit.timeConstantStandardError, 0.2243204621197385, 11);
    check('residual sum of squares', fit.residualSumOfSquares, 2.0037870177566934, 13);
    expect(fit.degreesOfFreedom).toBe(22);
  });
});

it('a straight line, a curve that bends the other way, a constant: no fit, and why', () => {
  const t = Array.from({ length: 50 }, (_, i) => i);
  expect(fitExponentialApproach(t, t)).toEqual({ ok: false, reason: 'no-bend' });
  expect(
    fitExponentialApproach(
      t,
      t.map((x) => x * x),
    ),
  ).toEqual({ ok: false, reason: 'no-bend' });
  expect(
    fitExponentialApproach(
      t,
      t.map(() => 30),
    ),
  ).toEqual({ ok: false, reason: 'constant' });
  expect(fitExponentialApproach([0, 1, 2], [1, 2, 2.5])).toEqual({ ok: false, reason: 'too-few' });
  expect(
    fitExponentialApproach(
      t,
      t.map((x) => (x === 0 ? 20 : 80)),
    ),
  ).toEqual({ ok: false, reason: 'too-fast' });
});
