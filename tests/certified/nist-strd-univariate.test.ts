// NIST/ITL StRD, univariate summary statistics. Sources, certified values and why the floors are what they are: data/README.md.
import { describe, it } from 'vitest';
import { lagOneCorrelation } from '#statistics/lag-one-correlation.ts';
import { mean, sampleStandardDeviation } from '#statistics/mean.ts';
import { certifiedData } from './certified-data.ts';
import { digitsReport } from './digits-report.ts';

const check = digitsReport('NIST StRD univariate');

// Set, certified mean, sample standard deviation, lag-1 correlation; floors in digits for each.
const sets: [string, number, number, number, number, number, number][] = [
  ['Lew', -177.435, 277.332168044316, -0.307304800605679, 14, 14, 14],
  ['Lottery', 518.95871559633, 291.699727470969, -0.120948622967393, 14, 14, 14],
  ['Mavro', 2.001856, 0.000429123454003053, 0.937989183438248, 14, 13, 12],
  ['Michelso', 299.8524, 0.0790105478190518, 0.535199668621283, 14, 13, 12],
  ['NumAcc1', 10000002, 1, -0.5, 15, 15, 15],
  ['NumAcc2', 1.2, 0.1, -0.999, 14, 14, 14],
  ['NumAcc3', 1000000.2, 0.1, -0.999, 14, 9, 10],
  ['NumAcc4', 10000000.2, 0.1, -0.999, 14, 8, 10],
];

describe.each(sets)('%s', (name, certifiedMean, certifiedDeviation, certifiedLag, a, b, c) => {
  const y = Float64Array.from(certifiedData(`univariate-${name.toLowerCase()}`)['y'] ?? []);
  it('mean, standard deviation and lag-1 correlation', () => {
    check(`${name} mean`, mean(y), certifiedMean, a);
    check(`${name} standard deviation`, sampleStandardDeviation(y), certifiedDeviation, b);
    check(`${name} lag-1 correlation`, lagOneCorrelation(y), certifiedLag, c);
  });
});
