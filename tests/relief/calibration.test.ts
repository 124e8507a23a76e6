import { expect, it } from 'vitest';
import { studyRelief } from '../../scripts/relief-study.ts';

const study = studyRelief(1200, 7);

it('of options said to land with 0.85 to 0.95, 85 to 95 % land', () => {
  const bin = study.conformity.find(({ from }) => from === 0.85);
  expect(bin?.options).toBeGreaterThanOrEqual(300);
  expect((bin?.happened ?? 0) / (bin?.options ?? 1)).toBeGreaterThanOrEqual(0.85);
  expect((bin?.happened ?? 0) / (bin?.options ?? 1)).toBeLessThanOrEqual(0.95);
});
it('the same for the chance of a pass, by another gauge and by the same one', () => {
  for (const bins of [study.passOtherGauge, study.passSameGauge]) {
    const bin = bins.find(({ from }) => from === 0.85);
    expect(bin?.options).toBeGreaterThanOrEqual(300);
    expect((bin?.happened ?? 0) / (bin?.options ?? 1)).toBeGreaterThanOrEqual(0.85);
    expect((bin?.happened ?? 0) / (bin?.options ?? 1)).toBeLessThanOrEqual(0.96);
  }
});
it('gets more units into the band at the first change than one shim a step, with fewer changes', () => {
  expect(study.advised.firstTry).toBeGreaterThan(study.ruleOfThumb.firstTry + 0.2);
  expect(study.advised.tries).toBeLessThan(study.ruleOfThumb.tries / 2);
});
it('is the same for the same seed, and another for another', () => {
  expect(studyRelief(20, 3)).toEqual(studyRelief(20, 3));
  expect(studyRelief(20, 3)).not.toEqual(studyRelief(20, 4));
});
