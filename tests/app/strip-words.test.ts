import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pushedApart } from '../../src/app/chart/label.ts';
import { figureDecimals } from '../../src/app/chart/read-out.ts';
import { multiples, roundStepAtLeast } from '../../src/app/chart/round-steps.ts';
import { timeTicks } from '../../src/app/chart/time-ticks.ts';
import { clockOf, secondDecimals, sinceStart } from '../../src/app/chart/time-words.ts';

const plain = (text: string | undefined): string | undefined => text?.replaceAll('\u00a0', ' ');

test('time since the start to the second, or as fine as the readings', () => {
  const cases: [number, number, string][] = [
    [0, 0, '0'],
    [59.6, 0, '1 min'],
    [9900, 0, '2 h 45 min'],
    [9912, 0, '2 h 45 min 12 s'],
    [26.5, 2, '26.50 s'],
    [61.25, 2, '1 min 1.25 s'],
  ];
  for (const [at_s, decimals, words] of cases) expect(plain(sinceStart(at_s, decimals))).toBe(words);
});

describe('time of day', () => {
  test('as the clock of the log showed it', () => {
    const clock = clockOf('2026-03-04T08:15:00', []);
    expect(clock?.(9900)).toBe('11:00:00');
    expect(clock?.(60 * 60 * 16)).toBe('00:15:00');
  });
  test('after the clock was set back an hour it shows an hour less', () => {
    const clock = clockOf('08:30:00', [{ at_s: 9000, step_s: -3600 }]);
    expect(clock?.(9000)).toBe('11:00:00');
    expect(clock?.(9001)).toBe('10:00:01');
  });
  test('sixty steps of a tenth are a minute', () => {
    const tenths = Array.from({ length: 600 }).reduce<number>((sum) => sum + 0.1, 0);
    expect(clockOf('08:00:00', [])?.(tenths)).toBe('08:01:00');
  });
  test('a log without a time of day has none', () => expect(clockOf(null, [])).toBeNull());
});

test('decimals of a second tell neighbouring readings apart', () => {
  expect([1, 10, 0.5, 0.1, 0.01].map(secondDecimals)).toEqual([0, 0, 1, 1, 2]);
});

test('figures show about a tenth of a psi in every unit', () => {
  expect(figureDecimals('psi')).toBe(1);
  expect(figureDecimals('bar')).toBe(2);
  expect(figureDecimals('kPa')).toBe(0);
  expect(figureDecimals('MPa')).toBe(3);
  expect(figureDecimals('kgf/cm2')).toBe(2);
});

test('steps are 1, 2, 5 times a power of ten and never smaller than asked', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (size) => {
      const step = roundStepAtLeast(size);
      expect(step).toBeGreaterThanOrEqual(size * (1 - 1e-8));
      expect(step).toBeLessThanOrEqual(size * 2.5 * (1 + 1e-8));
      expect('125').toContain(step.toExponential(0).slice(0, 1));
    }),
  );
  expect(multiples(0.1, 0, 0.3)).toEqual([0, 0.1, 0.2, 0.3]);
});

test('six hours across 1004 px: a number an hour, a short tick each ten minutes', () => {
  const { ticks } = timeTicks(0, 22_200, 1004, 92);
  expect(ticks.filter(({ long }) => long).map(({ at_s }) => at_s / 3600)).toEqual([0, 1, 2, 3, 4, 5, 6]);
  expect(ticks[1]?.at_s).toBe(600);
});

test('pushed apart: no two touch, order stays, and what fits does not move', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 5, max: 40 })), {
        minLength: 1,
        maxLength: 8,
      }),
      (boxes) => {
        const wished = boxes.map(([at]) => at),
          sizes = boxes.map(([, size]) => size);
        const middles = pushedApart(wished, sizes, -1000, 1000);
        const order = wished.map((_, index) => index).sort((a, b) => (middles[a] ?? 0) - (middles[b] ?? 0));
        order.slice(1).forEach((index, place) => {
          const before = order[place] ?? 0;
          const distance = (middles[index] ?? 0) - (middles[before] ?? 0);
          expect(distance).toBeGreaterThanOrEqual(((sizes[index] ?? 0) + (sizes[before] ?? 0)) / 2 - 1e-9);
          expect(wished[index] ?? 0).toBeGreaterThanOrEqual(wished[before] ?? 0);
        });
      },
    ),
  );
  expect(pushedApart([10, 100, 200], [18, 18, 18], 0, 300)).toEqual([10, 100, 200]);
  expect(pushedApart([100, 100], [20, 20], 0, 300)).toEqual([90, 110]);
});
