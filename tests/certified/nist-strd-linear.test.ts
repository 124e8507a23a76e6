// NIST/ITL StRD, linear regression: coefficient, its standard deviation, residual sum of squares. Sources: header of each file.
// Single-regressor figures for Longley and the shifted Norris were computed at 50 digits apart from this program.
import { describe, expect, it } from 'vitest';
import { fitLine } from '#statistics/fit-line.ts';
import { leastSquares } from '#statistics/least-squares.ts';
import { certifiedData } from './certified-data.ts';
import { digitsReport } from './digits-report.ts';

const check = digitsReport('NIST StRD linear');

interface Certified {
  coefficients: number[];
  errors: number[];
  residualSumOfSquares: number;
}
function compare(name: string, design: number[][], y: number[], certified: Certified, floor: number): void {
  const fit = leastSquares(design, y);
  expect(fit).not.toBeNull();
  certified.coefficients.forEach((value, j) => {
    check(`${name} b${j}`, fit?.coefficients[j] ?? NaN, value, floor);
    check(`${name} sd(b${j})`, fit?.standardErrors[j] ?? NaN, certified.errors[j] ?? NaN, floor);
  });
  check(
    `${name} residual sum of squares`,
    fit?.residualSumOfSquares ?? NaN,
    certified.residualSumOfSquares,
    floor,
  );
}
const columns = (file: string): Record<string, number[]> => certifiedData(`linear-${file}`);
const powers = (x: number[], degree: number): number[][] =>
  Array.from({ length: degree + 1 }, (_, power) => x.map((value) => value ** power));

const norris: Certified = {
  coefficients: [-0.262323073774029, 1.00211681802045],
  errors: [0.232818234301152, 0.000429796848199937],
  residualSumOfSquares: 26.6173985294224,
};

describe('straight line', () => {
  const { x = [], y = [] } = columns('norris');
  it('Norris', () => {
    const line = fitLine(x, y);
    check('Norris, line: intercept', line?.intercept ?? NaN, norris.coefficients[0] ?? NaN, 12);
    check('Norris, line: slope', line?.slope ?? NaN, norris.coefficients[1] ?? NaN, 13);
    check('Norris, line: sd(intercept)', line?.interceptStandardError ?? NaN, norris.errors[0] ?? NaN, 12);
    check('Norris, line: sd(slope)', line?.slopeStandardError ?? NaN, norris.errors[1] ?? NaN, 12);
    check('Norris, line: residual sum', line?.residualSumOfSquares ?? NaN, norris.residualSumOfSquares, 12);
    compare('Norris', [x.map(() => 1), x], y, norris, 11);
  });
  it('Norris with x moved by 1.7e9, as seconds of the epoch would be: raw sums keep two digits there', () => {
    const line = fitLine(
      x.map((value) => value + 1.7e9),
      y,
    );
    check('Norris + 1.7e9: slope', line?.slope ?? NaN, norris.coefficients[1] ?? NaN, 9);
  });
  it('Longley on one regressor', () => {
    const { y: employed = [], x2 = [], x6 = [] } = columns('longley');
    check('Longley on year: slope', fitLine(x6, employed)?.slope ?? NaN, 716.511764705882, 13);
    check('Longley on year: intercept', fitLine(x6, employed)?.intercept ?? NaN, -1335105.244117647, 13);
    check('Longley on x2: slope', fitLine(x2, employed)?.slope ?? NaN, 0.03475229434762905, 13);
  });
});

describe('without a constant', () => {
  it('NoInt1', () => {
    const { x = [], y = [] } = columns('noint1');
    compare(
      'NoInt1',
      [x],
      y,
      {
        coefficients: [2.07438016528926],
        errors: [0.0165289256198347],
        residualSumOfSquares: 127.272727272727,
      },
      13,
    );
  });
  it('NoInt2', () => {
    const { x = [], y = [] } = columns('noint2');
    compare(
      'NoInt2',
      [x],
      y,
      {
        coefficients: [0.727272727272727],
        errors: [0.0420827318078432],
        residualSumOfSquares: 0.272727272727273,
      },
      13,
    );
  });
});

describe('several regressors', () => {
  it('Pontius, a parabola', () => {
    const { x = [], y = [] } = columns('pontius');
    compare(
      'Pontius',
      powers(x, 2),
      y,
      {
        coefficients: [0.000673565789473684, 7.32059160401003e-7, -3.16081871345029e-15],
        errors: [0.000107938612033077, 1.57817399981659e-10, 4.86652849992036e-17],
        residualSumOfSquares: 1.55761768796992e-6,
      },
      9,
    );
  });
  it('Longley, six regressors that lean on each other', () => {
    const { y = [], x1 = [], x2 = [], x3 = [], x4 = [], x5 = [], x6 = [] } = columns('longley');
    const design = [y.map(() => 1), x1, x2, x3, x4, x5, x6];
    compare(
      'Longley',
      design,
      y,
      {
        coefficients: [
          -3482258.63459582, 15.0618722713733, -0.035819179292591, -2.02022980381683, -1.03322686717359,
          -0.0511041056535807, 1829.15146461355,
        ],
        errors: [
          890420.383607373, 84.9149257747669, 0.0334910077722432, 0.488399681651699, 0.214274163161675,
          0.22607320006937, 455.478499142212,
        ],
        residualSumOfSquares: 836424.055505915,
      },
      9,
    );
    // The textbook case of collinearity: every inflation but that of x4 (3.6) is far above 10.
    const inflation = Array.from(leastSquares(design, y)?.varianceInflation ?? []).slice(1);
    expect(inflation.filter((value) => value > 10)).toHaveLength(5);
    expect(inflation[3]).toBeLessThan(10);
  });
  it('Filip, a polynomial of degree 10 that defeats normal equations', () => {
    const { x = [], y = [] } = columns('filip');
    compare(
      'Filip',
      powers(x, 10),
      y,
      {
        coefficients: [
          -1467.4896142298, -2772.17959193342, -2316.37108160893, -1127.97394098372, -354.478233703349,
          -75.1242017393757, -10.8753180355343, -1.06221498588947, -0.0670191154593408, -0.00246781078275479,
          -4.02962525080404e-5,
        ],
        errors: [
          298.084530995537, 559.77986547495, 466.477572127796, 227.204274477751, 71.6478660875927,
          15.28971787474, 2.23691159816033, 0.221624321934227, 0.0142363763154724, 0.000535617408889821,
          8.96632837373868e-6,
        ],
        residualSumOfSquares: 0.000795851382172941,
      },
      6,
    );
  });
});
