import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { MarkedRows } from '#signal/marked-rows.ts';

it('the next row with a mark, wherever the bytes begin', () => {
  fc.assert(
    fc.property(
      fc.array(fc.oneof({ weight: 30, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: fc.nat(255) }), {
        maxLength: 200,
      }),
      fc.nat(9),
      fc.nat(210),
      (list, offset, from) => {
        const marks = Uint8Array.from([...Array.from({ length: offset }, () => 7), ...list, 7]).subarray(
          offset,
          offset + list.length,
        );
        const found = marks.findIndex((mark, row) => row >= from && mark !== 0);
        expect(new MarkedRows(marks).next(Math.min(from, list.length))).toBe(found < 0 ? list.length : found);
      },
    ),
    { numRuns: 1000 },
  );
});
