import { describe, expect, test } from 'vitest';
import { SetAside } from '#formats/log.ts';
import { scaleSignal } from '#log/raw-signal.ts';

type Kind = Parameters<typeof scaleSignal>[2]['kind'];
const scaled = (kind: Kind, raw: number[], unit: 'A' | 'mA' | 'V' | 'mV' | null = null) => {
  const values = Float64Array.from(raw),
    flags = new Uint8Array(raw.length);
  const faults = scaleSignal(values, flags, { kind, low: 0, high: 600 }, unit);
  return {
    values: [...values],
    kept: Array.from(flags, (flag) => flag === SetAside.kept),
    below: faults.below,
    above: faults.above,
  };
};

// 4 to 20 mA: NAMUR NE 43 as commonly cited, from memory; the levels of the voltages: common practice, no source.
describe('where a signal says that its sensor failed, to the digit', () => {
  test.each<[Kind, number, number, number, number]>([
    ['4-20mA', 3.6, 3.601, 20.999, 21],
    ['1-5V', 0.9, 0.901, 5.249, 5.25],
    ['0.5-4.5V', 0.25, 0.251, 4.749, 4.75],
  ])('%s', (kind, failsBelow, low, high, failsAbove) => {
    const { kept, below, above } = scaled(kind, [failsBelow, low, high, failsAbove]);
    expect(kept).toEqual([false, true, true, false]);
    expect([below, above]).toEqual([1, 1]);
  });
  test.each<Kind>(['0-10V', '0-5V'])('%s has no live zero, and never says so', (kind) => {
    expect(scaled(kind, [-1, 0, 11]).kept).toEqual([true, true, true]);
  });
});

describe('the ends and the middle of a signal', () => {
  test.each<[Kind, number, number]>([
    ['4-20mA', 4, 20],
    ['1-5V', 1, 5],
    ['0.5-4.5V', 0.5, 4.5],
    ['0-10V', 0, 10],
    ['0-5V', 0, 5],
  ])('%s', (kind, low, high) => {
    expect(scaled(kind, [low, (low + high) / 2, high]).values).toEqual([0, 300, 600]);
  });
  test('in amperes and millivolts', () => {
    expect(scaled('4-20mA', [0.012], 'A').values).toEqual([300]);
    expect(scaled('0.5-4.5V', [2500], 'mV').values).toEqual([300]);
  });
});
