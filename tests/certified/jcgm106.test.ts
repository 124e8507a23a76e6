// JCGM 106:2012, "Evaluation of measurement data – The role of measurement uncertainty in conformity assessment".
// Examples, printed figures and clauses read in the document itself (October 2012 edition, page numbers of the print).
// The digits beyond the print were computed apart from this program (normal distribution of a numerical library, 15 digits).
import { describe, expect, it } from 'vitest';
import { probabilityOfConformity } from '#decision/conformity.ts';
import { decide } from '#decision/decide.ts';
import { guardedVerdict, passZone, simpleVerdict } from '#decision/rule.ts';
import { normalQuantile } from '#statistics/normal.ts';
import { studentTQuantile } from '#statistics/student-t.ts';
import { at, band, statedGauge } from '../decision/sample-quantities.ts';
import { matchingDigits } from './matching-digits.ts';

const both = (low: number | null, high: number | null): { low: number | null; high: number | null } => ({
  low,
  high,
});
const normal = (y: number, u: number, low: number | null, high: number | null): number =>
  probabilityOfConformity(y, u, null, both(low, high));
/** Simpson's rule, for the risks over many items. */
function integral(f: (x: number) => number, from: number, to: number, steps = 4000): number {
  const h = (to - from) / steps;
  let sum = f(from) + f(to);
  for (let i = 1; i < steps; i++) sum += f(from + i * h) * (i % 2 === 1 ? 4 : 2);
  return (sum * h) / 3;
}
const density = (x: number, mean: number, sd: number): number =>
  Math.exp(-(((x - mean) / sd) ** 2) / 2) / (sd * Math.sqrt(2 * Math.PI));

describe('conformance probability (7.3, 7.4)', () => {
  it.each([
    [0.8, 0.84, 0.8416212335729143],
    [0.9, 1.28, 1.2815515655446004],
    [0.95, 1.64, 1.6448536269514722],
    [0.99, 2.33, 2.3263478740408408],
    [0.999, 3.09, 3.090232306167813],
  ])('Table 1, p. 15: p_c %d at z = %d', (pc, printed, computed) => {
    expect(Number(normalQuantile(pc).toFixed(2))).toBe(printed);
    expect(matchingDigits(normal(computed, 1, 0, null), pc)).toBeGreaterThan(11);
  });
  it('Zener diode, 7.3.3 example 1: −5.47 V, u 0.05 V, at most −5.40 V: printed 0.92', () => {
    expect(matchingDigits(normal(-5.47, 0.05, null, -5.4), 0.9192433407662273)).toBeGreaterThan(11);
  });
  it('bursting strength, 7.3.3 example 2: 509.7 kPa, u 8.6 kPa, at least 490 kPa: printed 0.99', () => {
    expect(matchingDigits(normal(509.7, 8.6, 490, null), 0.9890095473848223)).toBeGreaterThan(11);
  });
  it('motor oil, 7.4: 13.6, u 1.8, 12.5 to 16.3 mm²/s: printed 0.66', () => {
    expect(matchingDigits(normal(13.6, 1.8, 12.5, 16.3), 0.6626297864953078)).toBeGreaterThan(11);
  });
});

describe('acceptance and guard bands (8.2, 8.3)', () => {
  it('simple acceptance, 8.2.1 and 8.3.1.2: at a limit the risk is up to one half', () => {
    expect(simpleVerdict(16.3, both(12.5, 16.3))).toBe('pass');
    expect(normal(16.3, 0.05, 12.5, 16.3)).toBeCloseTo(0.5, 12);
  });
  it('legal metrology, 8.2.3: simple acceptance asks for U ≤ E_max/3, a sixth of the interval; we remark beyond it', () => {
    const maximum = 6;
    const remarks = (expanded: number): string[] =>
      decide(
        at(0, expanded / 2),
        band(-maximum, maximum, { decisionRule: 'simple' }),
        statedGauge(expanded),
      ).remarks.map(({ code }) => code);
    expect(remarks(maximum / 3)).toEqual([]);
    expect(remarks(maximum / 3 + 0.001)).toEqual(['risk-is-shared']);
  });
  it('default rule, 8.3.2.3 (citing ISO 14253-1:1998): w = U = 2u leaves at most 2.3 % at the acceptance limit', () => {
    const zone = passZone(both(null, 10), 2 * 0.5);
    expect(zone.high).toBe(9);
    expect(matchingDigits(1 - normal(9, 0.5, null, 10), 0.02275013194817921)).toBeGreaterThan(9);
  });
  it('speed limit, 8.3.3 example 1: 100 km/h, u 2 %, 99.9 %: printed 107 km/h', () => {
    // y − z·(0.02·y) = 100, z as printed in Table 1
    expect(matchingDigits(100 / (1 - 3.09 * 0.02), 106.58708164570454)).toBeGreaterThan(14);
    const least = 100 / (1 - normalQuantile(0.999) * 0.02);
    expect(Math.ceil(least)).toBe(107);
    expect(1 - normal(least, 0.02 * least, null, 100)).toBeCloseTo(0.999, 10);
  });
  it('screening, 8.3.3 example 2, Student t: limit 2.00, s 0.20, ν 9: printed t 1.83, g 0.37, A 2.37', () => {
    const t = studentTQuantile(0.95, 9);
    expect(matchingDigits(t, 1.833112932656237)).toBeGreaterThan(11);
    expect(Number((0.2 * t).toFixed(2))).toBe(0.37);
    expect(Number((2 + 0.2 * t).toFixed(2))).toBe(2.37);
    // the same read as a probability: at the acceptance limit the chance to lie above 2.00 is 95 %
    expect(probabilityOfConformity(2 + 0.2 * t, 0.2, 9, both(null, 2))).toBeCloseTo(0.05, 11);
  });
});

describe('risks over many items (9.5), by our acceptance zone and conformance probability', () => {
  it('resistors, 9.5.3.2: 1499.8 to 1500.2 Ω, u0 0.12, um 0.04, accepted ± 0.18: printed 90 %, 1 %, 7 %, w = 0.25 U', () => {
    const zone = passZone(both(1499.8, 1500.2), 0.25 * 2 * 0.04);
    expect(zone).toEqual({ low: 1499.82, high: 1500.18, empty: false });
    expect(matchingDigits(normal(1500, 0.12, 1499.8, 1500.2), 0.9044192954543706)).toBeGreaterThan(10);
    const accepted = (x: number): number => normal(x, 0.04, zone.low, zone.high);
    const made = (x: number): number => density(x, 1500, 0.12);
    const consumer =
      integral((x) => made(x) * accepted(x), 1499, 1499.8) +
      integral((x) => made(x) * accepted(x), 1500.2, 1501);
    const producer = integral((x) => made(x) * (1 - accepted(x)), 1499.8, 1500.2);
    expect(matchingDigits(consumer, 0.009878291521772286)).toBeGreaterThan(8);
    expect(matchingDigits(producer, 0.0690265104615214)).toBeGreaterThan(8);
  });
  it('bearings, 9.5.4: limit 2, gamma(4, 4), um 0.25, r 0.65: printed A 1.7, 0.1 %, 7.5 %', () => {
    const zone = passZone(both(null, 2), 0.65 * 2 * 0.25);
    expect(zone.high).toBe(1.675);
    const made = (x: number): number => (256 / 6) * x ** 3 * Math.exp(-4 * x);
    const accepted = (x: number): number => normal(x, 0.25, null, zone.high);
    expect(
      matchingDigits(
        integral((x) => made(x) * accepted(x), 2, 12),
        0.0010265361325109104,
      ),
    ).toBeGreaterThan(8);
    expect(
      matchingDigits(
        integral((x) => made(x) * (1 - accepted(x)), 0, 2),
        0.07464969402681619,
      ),
    ).toBeGreaterThan(8);
  });
  it.each([
    [2, 0.0009815809234891006, 0.014676856709421187],
    [10, 0.0004081310883075895, 0.0007174127011173091],
  ])(
    'simple acceptance, 9.5.6, C_m %d, u0 = T/6: printed 0.1 % and 1.5 %, 0.04 % and 0.07 %',
    (cm, consumer, producer) => {
      const um = 6 / (4 * cm); // T = 6, u0 = 1
      const accepted = (x: number): number => normal(x, um, -3, 3);
      const made = (x: number): number => density(x, 0, 1);
      const outside = 2 * integral((x) => made(x) * accepted(x), 3, 9);
      const inside = integral((x) => made(x) * (1 - accepted(x)), -3, 3);
      expect(matchingDigits(outside, consumer)).toBeGreaterThan(7);
      expect(matchingDigits(inside, producer)).toBeGreaterThan(7);
    },
  );
});

// A band of 28 to 32 made up for this test; probabilities computed with Eq. 11 by a numerical library's normal distribution.
describe('band vectors, w = 2u on each side', () => {
  it.each([
    [30, 0.25, 0.9999999999999987, 28.5, 31.5, 'pass'],
    [30, 0.5, 0.9999366575163338, 29, 31, 'pass'],
    [31.5, 0.25, 0.9772498680518208, 28.5, 31.5, 'pass'],
    [31.75, 0.25, 0.8413447460685429, 28.5, 31.5, 'undecided'],
    [32, 0.25, 0.5, 28.5, 31.5, 'undecided'],
    [32.25, 0.25, 0.15865525393145707, 28.5, 31.5, 'undecided'],
    [28.4, 0.2, 0.9772498680518203, 28.4, 31.6, 'pass'],
    [27.9, 0.2, 0.30853753872598433, 28.4, 31.6, 'undecided'],
    [31.5, 0.5, 0.8413447460672631, 29, 31, 'undecided'],
    [30, 1, 0.9544997361036416, 30, 30, 'pass'],
    [28, 0.05, 0.5, 28.1, 31.9, 'undecided'],
    [32.6, 0.25, 0.00819753592459613, 28.5, 31.5, 'fail'],
  ] as const)('%d with u %d', (y, u, pc, low, high, verdict) => {
    expect(matchingDigits(normal(y, u, 28, 32), pc)).toBeGreaterThan(10.5);
    expect(passZone(both(28, 32), 2 * u)).toEqual({ low, high, empty: false });
    expect(guardedVerdict(y, 2 * u, both(28, 32))).toBe(verdict);
  });
  it('below C_m = 1 nothing can pass', () => {
    expect(passZone(both(28, 32), 2.2).empty).toBe(true);
    for (let y = 27; y <= 33; y += 0.25) expect(guardedVerdict(y, 2.2, both(28, 32))).not.toBe('pass');
  });
  it('keeps the digits of a small chance far outside', () => {
    // Φ(−8) and Φ(−6), computed by the same library
    expect(matchingDigits(normal(36, 0.5, 28, 32), 6.220960574271786e-16)).toBeGreaterThan(10);
    expect(matchingDigits(normal(25, 0.5, 28, 32), 9.865876450376946e-10)).toBeGreaterThan(10);
  });
});
