import { describe, expect, it } from 'vitest';
import { cos, exp, expm1, log, log1p, sin } from '#statistics/elementary.ts';
import { evenly } from './generator.ts';

/** Largest relative difference from this engine's own function over many arguments. */
function worst(own: (x: number) => number, engine: (x: number) => number, argument: () => number): number {
  let largest = 0;
  for (let i = 0; i < 50_000; i++) {
    const x = argument();
    const want = engine(x);
    if (want !== own(x)) largest = Math.max(largest, Math.abs(own(x) / want - 1));
  }
  return largest;
}
const within = (low: number, high: number, seed: number): (() => number) => {
  const uniform = evenly(seed);
  return () => low + (high - low) * uniform();
};
/** Two units in the last place. */
const TWO_ULP = 4.5e-16;

describe('close to the engine, whose last bit is its own', () => {
  it('exp', () => expect(worst(exp, Math.exp, within(-700, 700, 1))).toBeLessThan(TWO_ULP));
  it('exp near zero', () => expect(worst(exp, Math.exp, within(-1e-3, 1e-3, 2))).toBeLessThan(TWO_ULP));
  it('expm1', () => expect(worst(expm1, Math.expm1, within(-2, 2, 3))).toBeLessThan(3 * TWO_ULP));
  it('expm1 near zero', () => expect(worst(expm1, Math.expm1, within(-1e-8, 1e-8, 4))).toBeLessThan(TWO_ULP));
  it('log', () => expect(worst(log, Math.log, within(1e-6, 1e6, 5))).toBeLessThan(TWO_ULP));
  it('log near one', () => expect(worst(log, Math.log, within(0.5, 2, 6))).toBeLessThan(TWO_ULP));
  it('log1p', () => expect(worst(log1p, Math.log1p, within(-0.99, 10, 7))).toBeLessThan(TWO_ULP));
  it('log1p near zero', () => expect(worst(log1p, Math.log1p, within(-1e-8, 1e-8, 8))).toBeLessThan(TWO_ULP));
  it('sine and cosine, absolute', () => {
    const argument = within(-1e5, 1e5, 9);
    for (let i = 0; i < 50_000; i++) {
      const x = argument();
      expect(Math.abs(sin(x) - Math.sin(x))).toBeLessThan(2.3e-16);
      expect(Math.abs(cos(x) - Math.cos(x))).toBeLessThan(2.3e-16);
    }
  });
});

describe('ends', () => {
  it('exp', () => {
    expect([exp(0), exp(1), exp(-Infinity), exp(Infinity), exp(710), exp(-746)]).toEqual([
      1,
      2.7182818284590455,
      0,
      Infinity,
      Infinity,
      0,
    ]);
    expect(exp(709.7)).toBeCloseTo(1.6549840276802644e308, -295);
    expect(exp(-740)).toBe(4.2e-322);
    expect(exp(NaN)).toBeNaN();
  });
  it('expm1', () => {
    expect([expm1(0), expm1(-Infinity), expm1(800)]).toEqual([0, -1, Infinity]);
    expect(expm1(NaN)).toBeNaN();
  });
  it('log', () => {
    expect([log(1), log(0), log(Infinity), log(10)]).toEqual([0, -Infinity, Infinity, 2.302585092994046]);
    expect(log(5e-324)).toBeCloseTo(-744.4400719213812, 10);
    expect([log(-1), log(NaN)]).toEqual([NaN, NaN]);
  });
  it('log1p', () => {
    expect([log1p(0), log1p(-1), log1p(Infinity)]).toEqual([0, -Infinity, Infinity]);
    expect([log1p(-2), log1p(NaN)]).toEqual([NaN, NaN]);
  });
  it('sine and cosine', () => {
    expect([sin(0), cos(0), sin(1), cos(1)]).toEqual([0, 1, 0.8414709848078965, 0.5403023058681398]);
    expect([sin(Infinity), cos(NaN)]).toEqual([NaN, NaN]);
  });
});

it('the same bits everywhere: a checksum over 60 000 results', () => {
  const uniform = evenly(2026);
  const view = new DataView(new ArrayBuffer(8));
  let hash = 0;
  for (let i = 0; i < 10_000; i++) {
    const x = uniform() * 40 - 20;
    for (const value of [exp(x), expm1(x / 40), log(x + 21), log1p(x / 21), sin(x), cos(x)]) {
      view.setFloat64(0, value);
      hash = (Math.imul(hash, 31) + (view.getInt32(0) ^ view.getInt32(4))) | 0;
    }
  }
  expect(hash).toBe(-1641582487);
});
