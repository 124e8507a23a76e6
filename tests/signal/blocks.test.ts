import { describe, expect, it } from 'vitest';
import { blockMeans, blockMedians } from '#signal/block-medians.ts';

const seconds = (n: number): Float64Array => Float64Array.from({ length: n }, (_, i) => i);

describe('blocks of equal time', () => {
  it('medians, mean times, counts', () => {
    const result = blockMedians(seconds(6), Float64Array.of(1, 2, 9, 4, NaN, 6), {
      start_s: 0,
      end_s: 6,
      block_s: 3,
    });
    expect(Array.from(result.values)).toEqual([2, 5]);
    expect(Array.from(result.time_s)).toEqual([1, 4]);
    expect(Array.from(result.counts)).toEqual([3, 2]);
  });
  it('means', () => {
    expect(
      Array.from(
        blockMeans(seconds(4), Float64Array.of(1, 3, 5, 9), { start_s: 0, end_s: 4, block_s: 2 }).values,
      ),
    ).toEqual([2, 7]);
  });
  it('a border belongs to the later block; what lies outside counts for nothing', () => {
    const result = blockMeans(seconds(10), seconds(10), { start_s: 2, end_s: 8, block_s: 3 });
    expect(Array.from(result.values)).toEqual([3, 6]);
  });
  it('an empty block is left out, a block with too few readings too', () => {
    const values = Float64Array.of(1, 1, NaN, NaN, 5, NaN);
    expect(Array.from(blockMedians(seconds(6), values, { start_s: 0, end_s: 6, block_s: 2 }).values)).toEqual(
      [1, 5],
    );
    expect(
      Array.from(blockMedians(seconds(6), values, { start_s: 0, end_s: 6, block_s: 2, atLeast: 2 }).values),
    ).toEqual([1]);
  });
  it('a gap of thirty thousand years costs no time', () => {
    const time_s = Float64Array.of(0, 1, 2, 3, 1e12, 1e12 + 1, 1e12 + 2, 1e12 + 3);
    const result = blockMeans(time_s, Float64Array.of(1, 1, 2, 2, 3, 3, 5, 5), {
      start_s: 0,
      end_s: 1e12 + 4,
      block_s: 2,
    });
    expect(Array.from(result.values)).toEqual([1, 2, 3, 5]);
  });
  it('a last block is kept from half its length on', () => {
    const count = (end_s: number): number =>
      blockMedians(seconds(100), seconds(100), { start_s: 0, end_s, block_s: 20 }).values.length;
    expect([count(40), count(49), count(50), count(60)]).toEqual([2, 2, 3, 3]);
  });
});
