import { describe, expect, it } from 'vitest';
import { decide } from '#decision/decide.ts';
import { factsWithoutRig, type DecisionFacts } from '#decision/facts.ts';
import type { Quantities } from '#formats/assessment.ts';
import type { Spec } from '#formats/spec.ts';
import { at, band, statedGauge, tidyQuantities } from './sample-quantities.ts';

const reasons = (quantities: Quantities, spec: Spec, facts: DecisionFacts): string[] =>
  decide(quantities, spec, facts).criteria.map(({ reason }) => reason);
const first = (quantities: Quantities, spec: Spec, facts: DecisionFacts): string | undefined =>
  reasons(quantities, spec, facts)[0];

describe('the operating pressure in one sentence', () => {
  it.each([
    [425.123, 1.75, '425.1 ± 3.5 psi, band 400 to 420 psi: 5.1 psi above the band'],
    [392.06, 1.75, '392.1 ± 3.5 psi, band 400 to 420 psi: 7.9 psi below the band'],
    [411.2, 1.1, '411.2 ± 2.2 psi, band 400 to 420 psi: clear of the nearer limit by 8.8 psi'],
    [
      415.3,
      2.9,
      '415.3 ± 5.8 psi, band 400 to 420 psi: 4.7 psi inside the band, but the gauge is only sure to ± 5.8 psi',
    ],
    [420, 1, '420.0 ± 2.0 psi, band 400 to 420 psi: on the limit, and the gauge is only sure to ± 2.0 psi'],
    [
      420.04,
      1.75,
      '420.04 ± 3.5 psi, band 400 to 420 psi: 0.04 psi above the band, but the gauge is only sure to ± 3.5 psi',
    ],
    [
      411,
      61,
      '410 ± 120 psi, band 400 to 420 psi: 10 psi inside the band, but the gauge is only sure to ± 120 psi',
    ],
  ])('%d with u %d', (value, u, sentence) => {
    expect(first(at(value, u), band(400, 420), statedGauge(2 * u))).toBe(sentence);
  });
  it('one-sided', () => {
    expect(first(at(425.1, 1.75), band(null, 420), statedGauge(3.5))).toBe(
      '425.1 ± 3.5 psi, at most 420 psi: 5.1 psi above the limit',
    );
    expect(first(at(425.1, 1.75), band(400, null), statedGauge(3.5))).toBe(
      '425.1 ± 3.5 psi, at least 400 psi: clear of the limit by 25.1 psi',
    );
  });
  it('with a guard that is not the whole of U', () => {
    expect(first(at(412, 2.9), band(400, 420, { guardFactor: 1.5 }), statedGauge(5.8))).toBe(
      '412.0 ± 5.8 psi, band 400 to 420 psi: 8.0 psi inside the band, but the rule asks for 8.7 psi (1.5 times the uncertainty) to be sure',
    );
    // Passed by less than U: the rule that lets it pass stands beside it.
    expect(first(at(418.7, 0.85), band(400, 420, { guardFactor: 0.5 }), statedGauge(1.7))).toBe(
      '418.7 ± 1.7 psi, band 400 to 420 psi: clear of the nearer limit by 1.3 psi, where the rule asks for 0.85 psi (0.5 times the uncertainty)',
    );
  });
  it('without any uncertainty', () => {
    expect(first(at(425.123), band(400, 420), factsWithoutRig())).toBe(
      '425.1 psi, band 400 to 420 psi: 5.1 psi above the band',
    );
  });
  it('in bar, with the digits that bar needs', () => {
    const quantities = at(28.9456);
    quantities.operatingPressure.unit = 'bar';
    const spec: Spec = { ...band(null, null), pressureBand: { low: 27.5, high: 29, unit: 'bar' } };
    expect(first(quantities, spec, factsWithoutRig())).toBe(
      '28.95 bar, band 27.5 to 29 bar: clear of the nearer limit by 0.05 bar',
    );
  });
});

describe('the other limits', () => {
  it.each<[string, Partial<Spec>, Partial<Quantities>, string]>([
    [
      'drift',
      { drift: { atMost: 5, unit: 'psi' } },
      {},
      'the pressure fell by 2.2 psi over the hold (between 1.6 psi and 2.8 psi), within the 5 psi allowed',
    ],
    [
      'settling',
      { settling: { within_min: 40 } },
      {},
      'the pressure settled within 8.2 psi of its final value after 45 min, 5 min 10 s more than the 40 min allowed',
    ],
    [
      'run length',
      { runLength: { atLeast_h: 6 } },
      {},
      'the unit ran 5 h 58 min, 2 min short of the 6 h asked for',
    ],
    [
      'run length by seconds',
      { runLength: { atLeast_h: 6 } },
      { runLength: { length_s: 21590 } },
      'the unit ran 5 h 59 min 50 s, 10 s short of the 6 h asked for',
    ],
    [
      'peak',
      { peakPressure: { atMost: 430, unit: 'psi' } },
      {},
      'the highest pressure was 431.0 ± 4.0 psi, at most 430 psi: 1.0 psi above the limit, but the gauge is only sure to ± 4.0 psi',
    ],
    [
      'leak-down',
      { leakDown: { halfTimeAtLeast_s: 60 } },
      {},
      'the pressure took 41 s to fall to half after stopping, 19 s short of the 60 s asked for',
    ],
    [
      'coverage',
      { recordCoverage: { atLeast: 0.9995 } },
      {},
      '99.9 % of the run is on record, short of the 99.95 % asked for',
    ],
    [
      'oil',
      { operatingTemperature: { low: 65, high: 80, unit: 'degC' } },
      {},
      'the oil averaged 61.0 °C over the hold, allowed 65 to 80 °C: 4.0 °C below the range',
    ],
    ['nothing', { ripple: { atMost: 15, unit: 'psi' } }, {}, 'sampled once a second; ripple needs 20'],
  ])('%s', (_, limits, change, sentence) => {
    expect(reasons(tidyQuantities(change), band(400, 420, limits), statedGauge(4))[1]).toBe(sentence);
  });
  it('never settled, by what the run can say', () => {
    const spec = band(400, 420, { settling: { within_min: 60 } });
    const quantities = tidyQuantities({
      settling: { time_s: null, tolerance: 8.2, unit: 'psi', finalValue: 411, reason: 'x' },
    });
    const say = (change: Partial<DecisionFacts>): string | undefined =>
      reasons(quantities, spec, statedGauge(3, change))[1];
    expect(say({})).toBe(
      'the pressure never stayed within 8.2 psi of its final value in 5 h 58 min, 60 min allowed',
    );
    expect(say({ runSpan_s: 2400 })).toBe(
      'the run ended after 40 min, before the pressure had settled and before the 60 min allowed were over',
    );
    expect(say({ runSpan_s: 2400, complete: false })).toBe(
      'the pressure has not settled yet after 40 min, 60 min allowed; the run is still going on',
    );
  });
  it('time in band, by what the gauge leaves', () => {
    const spec = band(400, 420, { timeInBand: { atLeast: 0.98 } });
    const say = (shareInNarrowedBand: number, shareInWidenedBand: number): string | undefined =>
      reasons(tidyQuantities(), spec, statedGauge(3, { shareInNarrowedBand, shareInWidenedBand }))[1];
    expect(say(0.985, 1)).toBe(
      "the pressure was inside the band for 99.7 % of the hold, and for 98.5 % of it even with the limits drawn in by the gauge's ± 3.0 psi, 98 % asked for",
    );
    expect(say(0.41, 1)).toBe(
      "the pressure was inside the band for 99.7 % of the hold, but that may be anything from 41.0 % to 100 % with the gauge's ± 3.0 psi, 98 % asked for",
    );
    expect(say(0.2, 0.9)).toBe(
      "the pressure was inside the band for 99.7 % of the hold, and only for 90.0 % of it even with the limits pushed out by the gauge's ± 3.0 psi, 98 % asked for",
    );
    const never = tidyQuantities({ timeInBand: { inside: 0, above: 1, below: 0 } });
    expect(reasons(never, spec, statedGauge(3, { shareInNarrowedBand: 0, shareInWidenedBand: 0 }))[1]).toBe(
      "the pressure was never inside the band during the hold, even with the limits pushed out by the gauge's ± 3.0 psi, 98 % asked for",
    );
    expect(reasons(never, spec, factsWithoutRig())[1]).toBe(
      'the pressure was never inside the band during the hold, 98 % asked for',
    );
    const always = tidyQuantities({ timeInBand: { inside: 1, above: 0, below: 0 } });
    expect(reasons(always, spec, statedGauge(3, { shareInNarrowedBand: 1, shareInWidenedBand: 1 }))[1]).toBe(
      "the pressure was inside the band for the whole hold, even with the limits drawn in by the gauge's ± 3.0 psi, 98 % asked for",
    );
  });
  it('blames the gauge only where the gauge leads the uncertainty', () => {
    expect(first(at(415.3, 2.9), band(400, 420), statedGauge(1))).toBe(
      '415.3 ± 5.8 psi, band 400 to 420 psi: 4.7 psi inside the band, but the reading is only sure to ± 5.8 psi',
    );
  });
});
