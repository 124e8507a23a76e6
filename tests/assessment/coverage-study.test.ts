// The study of `npm run coverage-study` with few runs: enough to see an interval that has lost its truth, not to tell 94 % from 96 %.
import { describe, expect, it } from 'vitest';
import { studyCoverage, studyKinds } from '../../scripts/coverage-study.ts';

describe('intervals of made runs whose truth is known, noise alike by 0.9 from sample to sample', () => {
  const runs = 12;
  const table = studyCoverage(runs, [0.9]);
  const lines = Array.from(table, ([name, [tally]]) => ({ name, yes: tally?.yes ?? 0, of: tally?.of ?? 0 }));
  it.each(lines)('$name', ({ name, yes, of }) => {
    // Every run gives an interval; nine of twelve is what a true 95 % undercuts once in six hundred times.
    expect(of).toBe(runs);
    if (name.startsWith('trend')) expect(yes).toBeLessThanOrEqual(3);
    else expect(yes).toBeGreaterThanOrEqual(9);
  });
  it('covers every interval that an assessment states', () => {
    expect(lines).toHaveLength(10);
  });
});

it.each(studyKinds(40))('$name', ({ wrong }) => {
  expect(wrong).toEqual([]);
});
