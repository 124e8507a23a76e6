import fc from 'fast-check';
import { expect, it } from 'vitest';
import { sureShareOfLevel, sustainedLevel } from '#analysis/engaged-level.ts';
import { timelineOf } from '#analysis/timeline.ts';
import { longColumn } from '../signal/long-column.ts';
import { makeLog } from './synthetic-run.ts';

it('parts readings as the share of the sustained level does, where it is sure', () => {
  let sure = 0,
    unsure = 0;
  fc.assert(
    fc.property(
      longColumn(9000),
      fc.constantFrom(0.1, 0.5),
      fc.constantFrom(0.05, 2, 10),
      fc.constantFrom(0, 0.01, 0.2),
      fc.integer({ min: 1, max: 50 }),
      ({ time_s, values: all }, share, atLeast_s, rare, every) => {
        // Now and then a reading far above the others, or one between off and on.
        const values = all.map((value, i) =>
          i % 1009 === every ? (rare === 0 ? value : value * (1 + 9 * rare)) : value,
        );
        const timeline = timelineOf(makeLog({ times: Array.from(time_s), columns: [] }));
        const found = sureShareOfLevel(timeline, { levelled: all, values }, share, atLeast_s);
        if (found === null) {
          unsure++;
          return;
        }
        sure++;
        const level = sustainedLevel(timeline, all, timeline.part, atLeast_s);
        expect(level).toBeGreaterThan(0);
        const limit = share * (level ?? NaN);
        expect(values.findIndex((value) => value >= limit !== value >= found)).toBe(-1);
      },
    ),
    { numRuns: 1000 },
  );
  expect(sure).toBeGreaterThan(60);
  expect(unsure).toBeGreaterThan(60);
});
