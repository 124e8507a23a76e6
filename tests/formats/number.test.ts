import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rounded, roundedData, writeJson } from '#formats/number.ts';

describe('12 digits', () => {
  it('is idempotent and never off by more than half a unit of the twelfth digit', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (x) => {
        const once = rounded(x);
        expect(rounded(once)).toBe(once);
        expect(Math.abs(once - x)).toBeLessThanOrEqual(Math.abs(x) * 5.0001e-12);
      }),
    );
  });
  it('knows no negative zero', () => {
    expect(Object.is(rounded(-0), 0)).toBe(true);
    expect(Object.is(rounded(-1e-320 * 1e-10), 0)).toBe(true);
  });
  it('gives two last bits the same number', () => {
    expect(rounded(0.1 + 0.2)).toBe(0.3);
    expect(rounded(419.99999999999994)).toBe(420);
  });
});
describe('JSON', () => {
  it('rounds every number, leaves out undefined, ends in a line feed', () => {
    expect(writeJson({ a: 0.1 + 0.2, b: [1 / 3], c: undefined, d: null, e: 'x' })).toBe(
      '{\n  "a": 0.3,\n  "b": [\n    0.333333333333\n  ],\n  "d": null,\n  "e": "x"\n}\n',
    );
  });
  it('never writes what is not a number, and names the place', () => {
    expect(() => writeJson({ a: { b: [1, NaN] } })).toThrow('$.a.b[1] is NaN');
    expect(() => roundedData({ a: Infinity })).toThrow('$.a');
  });
});
