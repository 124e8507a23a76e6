// NIST/ITL StRD, nonlinear regression: Misra1a and BoxBOD, y = b1 (1 − e^(−b2 x)), the shape of a warm-up. Sources: file headers.
// NIST gives two starting points (Misra1a: 500, 0.0001 and 250, 0.0005; BoxBOD: 1, 1 and 100, 0.75); a Levenberg–Marquardt
// routine is known to end in a wrong answer from the first of BoxBOD. This fit takes no start, so that both are one case: it
// must give the certified answer whatever the units of x make of the distance from any start (tried by scaling x).
import { describe, expect, it } from 'vitest';
import { fitExponentialApproach } from '#statistics/fit-exponential-approach.ts';
import { certifiedData } from './certified-data.ts';
import { digitsReport } from './digits-report.ts';

const check = digitsReport('NIST StRD nonlinear');

describe.each([
  {
    name: 'Misra1a',
    b1: 238.94212918,
    b2: 5.5015643181e-4,
    sd1: 2.7070075241,
    sd2: 7.2668688436e-6,
    rss: 0.12455138894,
    sd: 0.1018787633,
    dof: 12,
  },
  {
    name: 'BoxBOD',
    b1: 213.80940889,
    b2: 0.54723748542,
    sd1: 12.354515176,
    sd2: 0.10455993237,
    rss: 1168.0088766,
    sd: 17.088072423,
    dof: 4,
  },
])('$name', ({ name, b1, b2, sd1, sd2, rss, sd, dof }) => {
  const { x = [], y = [] } = certifiedData(`nonlinear-${name.toLowerCase()}`);
  // Certified to 11 digits.
  it.each([1, 1e-3, 3600, 1e6])('x in units of 1/%d: the certified answer', (scale) => {
    const fit = fitExponentialApproach(
      x.map((value) => value * scale),
      y,
      { start: 0 },
    );
    expect(fit).toMatchObject({ ok: true, degreesOfFreedom: dof, start: 0, startStandardError: 0 });
    if (!fit.ok) return;
    check(`${name} × ${scale}: b1`, fit.final, b1, 10);
    check(`${name} × ${scale}: b2`, fit.rate * scale, b2, 10);
    check(`${name} × ${scale}: sd(b1)`, fit.finalStandardError, sd1, 9);
    check(`${name} × ${scale}: sd(b2)`, fit.rateStandardError * scale, sd2, 9);
    check(`${name} × ${scale}: residual sum of squares`, fit.residualSumOfSquares, rss, 9);
    check(`${name} × ${scale}: residual standard deviation`, fit.residualStandardDeviation, sd, 9);
  });
  it('upside down: the same constant', () => {
    const fit = fitExponentialApproach(
      x,
      y.map((value) => -value),
      { start: 0 },
    );
    check(`${name} upside down: b2`, fit.ok ? fit.rate : NaN, b2, 10);
  });
});
