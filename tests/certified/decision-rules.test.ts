// Decision rules by name, what was read told apart from what is from memory:
// - ILAC-G8:09/2019, 4.2.1 to 4.2.3: read in a transcription of its pages (a second-hand source, not the document itself). Its text is for an
//   upper limit, lower limits are to be mirrored (p. 8). Its Table 1: from memory, the arithmetic computed.
// - ISO 14253-1: the 1998 edition's default (w = U = 2u on both sides) read as quoted in JCGM 106:2012, 8.3.2.3; the 2017 edition's
//   default (95 % conformance, about 1.65 u): from memory, not confirmed, and not a rule of this program.
import { describe, expect, it } from 'vitest';
import { probabilityOfConformity } from '#decision/conformity.ts';
import { accuracyClasses } from '#decision/gauge-against-band.ts';
import { guardedVerdict, simpleVerdict } from '#decision/rule.ts';
import { matchingDigits } from './matching-digits.ts';

const upper = { low: null, high: 420 };
const lower = { low: 400, high: null };
const U = 3.5;

describe('ILAC-G8:09/2019 (read in a transcription)', () => {
  it('4.2.1 simple acceptance: w = 0, the acceptance limit is the tolerance limit', () => {
    expect([419.99, 420, 420.01].map((y) => simpleVerdict(y, upper))).toEqual(['pass', 'pass', 'fail']);
  });
  // 4.2.3, its zones for w = U: pass ≤ TL − w < conditional pass ≤ TL < conditional fail ≤ TL + w < fail.
  it.each([
    [416.5, 'pass', 'pass'],
    [416.51, 'conditional pass', 'undecided'],
    [420, 'conditional pass', 'undecided'],
    [420.01, 'conditional fail', 'undecided'],
    [423.5, 'conditional fail', 'undecided'],
    [423.51, 'fail', 'fail'],
  ] as const)('4.2.3 non-binary: %d is a %s there, "%s" here', (y, _zone, verdict) => {
    expect(guardedVerdict(y, U, upper)).toBe(verdict);
    expect(guardedVerdict(820 - y, U, lower)).toBe(verdict); // mirrored for the lower limit, p. 8
  });
  // Table 1, from memory: the greatest share of wrong passes where u = U/2 and the value lies on the acceptance limit.
  it.each([
    [3, 9.865876450376946e-10],
    [1.5, 0.0013498980316300933],
    [1, 0.022750131948179195],
    [0.83, 0.04845722626672282],
    [0, 0.5],
  ])('guard of %d U: at most %d wrong passes (arithmetic of a table from memory)', (r, wrong) => {
    const u = U / 2;
    const beyond = probabilityOfConformity(420 - r * U, u, null, { low: 420, high: null });
    expect(matchingDigits(beyond, wrong)).toBeGreaterThan(9);
  });
});

describe('ISO 14253-1', () => {
  it('1998, as JCGM 106, 8.3.2.3 quotes it: proving conformity and proving non-conformity both cost U', () => {
    const band = { low: 400, high: 420 };
    expect([403.5, 416.5].map((y) => guardedVerdict(y, U, band))).toEqual(['pass', 'pass']);
    expect([396.49, 423.51].map((y) => guardedVerdict(y, U, band))).toEqual(['fail', 'fail']);
    expect([403.49, 416.51, 396.5, 423.5].map((y) => guardedVerdict(y, U, band))).toEqual(
      Array(4).fill('undecided'),
    );
  });
});

it('EN 837-1:1996, Table 11 (read in a transcription): classes 0.1 0.25 0.6 1 1.6 2.5 4 are among those we propose', () => {
  expect(
    [0.1, 0.25, 0.6, 1, 1.6, 2.5, 4].filter((each) => !accuracyClasses.some((one) => one === each)),
  ).toEqual([]);
});
