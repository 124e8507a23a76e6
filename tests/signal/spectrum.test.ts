import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fourierTransform } from '#signal/fft.ts';
import { welch } from '#signal/welch.ts';

describe('Fourier transform', () => {
  it('any length: the sum by its definition', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 })), {
          minLength: 1,
          maxLength: 40,
        }),
        (list) => {
          const n = list.length;
          const { re, im } = fourierTransform({
            re: Float64Array.from(list, ([a]) => a),
            im: Float64Array.from(list, ([, b]) => b),
          });
          for (let k = 0; k < n; k++) {
            let a = 0;
            let b = 0;
            list.forEach(([x, y], j) => {
              const angle = (-2 * Math.PI * ((j * k) % n)) / n;
              a += x * Math.cos(angle) - y * Math.sin(angle);
              b += x * Math.sin(angle) + y * Math.cos(angle);
            });
            expect(re[k]).toBeCloseTo(a, 9);
            expect(im[k]).toBeCloseTo(b, 9);
          }
        },
      ),
    );
  });
  it('leaves its argument as it was', () => {
    const re = Float64Array.of(1, 2, 3, 4);
    fourierTransform({ re, im: new Float64Array(4) });
    expect(Array.from(re)).toEqual([1, 2, 3, 4]);
  });
});

describe('Welch', () => {
  const tone = Float64Array.from({ length: 2000 }, (_, n) => 30 + Math.sin((2 * Math.PI * 7 * n) / 100));
  it('leaves out segments with a hole', () => {
    const whole = welch(tone, 100, 200);
    const holed = tone.slice();
    holed[450] = NaN;
    const part = welch(holed, 100, 200);
    expect([whole?.segments, part?.segments]).toEqual([19, 17]);
    expect(part?.density[14]).toBeCloseTo(whole?.density[14] ?? NaN, 9);
  });
  it('has no answer without a whole segment', () => {
    expect(welch(tone, 100, 5000)).toBeNull();
    expect(welch(new Float64Array(400).fill(NaN), 100, 200)).toBeNull();
    expect(welch(tone, 100, 1)).toBeNull();
  });
});
