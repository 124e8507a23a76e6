import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reachableStacks, shimKinds } from '#relief/stacks.ts';

const heights = (
  fitted: number[],
  stock: { thickness_mm: number; count: number | null }[],
  atMost: number,
): number[] => reachableStacks(shimKinds(fitted, stock), atMost).map(({ total_mm }) => total_mm);

describe('what can be made', () => {
  it('of nothing: nothing', () => {
    expect(heights([], [], 2)).toEqual([0]);
  });
  it('of two and one', () => {
    expect(heights([0.5], [{ thickness_mm: 0.2, count: 1 }], 2)).toEqual([0, 0.2, 0.5, 0.7]);
  });
  it('of enough of one kind: every multiple up to the limit', () => {
    expect(heights([], [{ thickness_mm: 0.25, count: null }], 1)).toEqual([0, 0.25, 0.5, 0.75, 1]);
  });
  it('takes the limit itself, in decimals that binary cannot hold', () => {
    expect(heights([0.1, 0.1, 0.1], [], 0.3)).toEqual([0, 0.1, 0.2, 0.3]);
    expect(heights([0.1, 0.1, 0.1], [], 0.29)).toEqual([0, 0.1, 0.2]);
  });
  it('knows imperial thicknesses', () => {
    expect(heights([0.0508, 0.127], [], 1)).toEqual([0, 0.0508, 0.127, 0.1778]);
  });
  it('makes a height of the fewest shims, and of those that are fitted', () => {
    const stacks = reachableStacks(
      shimKinds(
        [0.25, 0.25],
        [
          { thickness_mm: 0.5, count: 1 },
          { thickness_mm: 0.1, count: 5 },
        ],
      ),
      2,
    );
    const of = (total: number): number[] | undefined =>
      stacks.find(({ total_mm }) => total_mm === total)?.shims_mm;
    expect(of(0.5)).toEqual([0.5]);
    expect(of(0.75)).toEqual([0.5, 0.25]);
    expect(of(0.35)).toEqual([0.25, 0.1]);
  });
  it('counts a thickness that is stated twice, and fitted, once together', () => {
    const kinds = shimKinds(
      [0.1],
      [
        { thickness_mm: 0.1, count: 1 },
        { thickness_mm: 0.1, count: 2 },
      ],
    );
    expect(kinds).toEqual([{ thickness_mm: 0.1, count: 4, fitted: 1 }]);
  });
});

it('agrees with trying every subset', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 30 }), { maxLength: 7 }),
      fc.integer({ min: 0, max: 100 }),
      (pieces, limit) => {
        const all = new Set<number>();
        for (let mask = 0; mask < 1 << pieces.length; mask++) {
          const sum = pieces.reduce((total, piece, bit) => total + ((mask >> bit) & 1 ? piece : 0), 0);
          if (sum <= limit) all.add(sum);
        }
        const stacks = reachableStacks(
          shimKinds(
            pieces.map((piece) => piece / 100),
            [],
          ),
          limit / 100,
        );
        expect(stacks.map(({ total_mm }) => Math.round(total_mm * 100))).toEqual(
          [...all].toSorted((a, b) => a - b),
        );
        for (const { total_mm, shims_mm } of stacks) {
          expect(shims_mm.reduce((sum, shim) => sum + shim, 0)).toBeCloseTo(total_mm, 10);
          const left = pieces.map((piece) => piece / 100);
          for (const shim of shims_mm) {
            const at = left.indexOf(shim);
            expect(at).toBeGreaterThanOrEqual(0);
            left.splice(at, 1);
          }
        }
      },
    ),
  );
});
