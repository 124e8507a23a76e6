import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { eachMarked, sameMarks } from '#analysis/marked-rows.ts';

const marks = fc
  .array(fc.constantFrom(0, 0, 0, 0, 0, 0, 0, 1, 5), { maxLength: 60 })
  .chain((list) =>
    fc
      .record({ before: fc.nat(5), zeros: fc.constantFrom(0, 0, 20_000) })
      .map(({ before, zeros }) =>
        Uint8Array.from([
          ...Array.from({ length: before }, () => 9),
          ...list,
          ...Array.from({ length: zeros }, () => 0),
          ...list,
        ]).subarray(before),
      ),
  );

describe('rows with a mark', () => {
  it('are all found, in order, wherever the list begins in memory', () => {
    fc.assert(
      fc.property(marks, fc.nat(30), fc.nat(30), (list, from, less) => {
        const to = Math.max(from, list.length - less),
          end = Math.min(to, list.length);
        const found: number[] = [];
        eachMarked(list, from, end, (row) => found.push(row));
        const expected = [...list.keys()].filter((row) => row >= from && row < end && list[row] !== 0);
        expect(found).toEqual(expected);
      }),
    );
  });
  it('may lose their mark while they are gone over', () => {
    const list = Uint8Array.of(1, 1, 0, 1, 1, 1, 0, 0, 1);
    eachMarked(list, 0, list.length, (row) => list.fill(0, row, row + 2));
    expect([...list]).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 0]);
  });
  it('are the same in two lists only where every byte is', () => {
    fc.assert(
      fc.property(marks, fc.nat(), (list, place) => {
        expect(sameMarks(list, list)).toBe(true);
        expect(sameMarks(list, Uint8Array.from(list))).toBe(true);
        if (list.length === 0) return;
        const other = Uint8Array.from(list);
        other[place % list.length] = (other[place % list.length] ?? 0) ^ 2;
        expect(sameMarks(list, other)).toBe(false);
        expect(sameMarks(list, list.subarray(1))).toBe(false);
      }),
    );
  });
});
