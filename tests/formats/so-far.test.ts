import { describe, expect, it } from 'vitest';
import { soFarInUnits } from '#formats/assessment-in-units.ts';
import { quietText, soFarLine, soFarSentences, type SoFar } from '#formats/so-far.ts';
import { NO_BREAK_SPACE } from '#units/number-text.ts';

const soFar: SoFar = {
  at_s: 11_400,
  pressure: { value: 411.24, unit: 'psi' },
  oil: { value: 61.3, unit: 'degC' },
  phase: 'hold',
  run_s: 11_400,
  toGo_s: 10_200,
  hold_s: 8000,
  oilWanted: null,
  drift: {
    slope: -0.42,
    low: -0.55,
    high: -0.3,
    unit: 'psi/h',
    trend: 'falling',
    bandExit_h: 22,
    atRunEnd: { value: 409.8, unit: 'psi' },
  },
  noDrift: null,
  fails: [],
};
const plain = (texts: string[]): string[] => texts.map((text) => text.replaceAll(NO_BREAK_SPACE, ' '));

describe('a run so far, in words', () => {
  it('says what is so now, the time to go, and where the line of the drift leads', () => {
    expect(plain(soFarSentences(soFar))).toEqual([
      'Now 411.2 psi, oil 61.3 °C, hold.',
      '3 h 10 min run, 2 h 50 min to go.',
      'Drift −0.42 psi/h, falling: at the end of the run 409.8 psi, out of the band in 22 h if it goes on so.',
    ]);
    expect(plain([soFarLine(soFar)])[0]).toBe(
      '411.2 psi, oil 61.3 °C, hold; 3 h 10 min run, 2 h 50 min to go; drift −0.42 psi/h, falling: at the end of the run 409.8 psi, out of the band in 22 h if it goes on so',
    );
  });
  it('reads in the units for viewing: what is judged in psi can be followed in bar and °F', () => {
    expect(plain(soFarSentences(soFarInUnits(soFar, { pressure: 'bar', temperature: 'degF' })))).toEqual([
      'Now 28.35 bar, oil 142.3 °F, hold.',
      '3 h 10 min run, 2 h 50 min to go.',
      'Drift −0.03 bar/h, falling: at the end of the run 28.25 bar, out of the band in 22 h if it goes on so.',
    ]);
    expect(soFarInUnits(soFar, { pressure: 'psi' })).toEqual(soFar);
  });
  it('says what is waited for, what is not known yet, and what fails already', () => {
    const early: SoFar = {
      ...soFar,
      oil: { value: 41, unit: 'degC' },
      phase: 'warm-up',
      toGo_s: null,
      oilWanted: { value: 50, unit: 'degC' },
      drift: null,
      noDrift: 'the hold is shorter than 20 min',
      fails: ['peak-pressure'],
    };
    expect(plain(soFarSentences(early))).toEqual([
      'Now 411.2 psi, oil 41.0 °C, warm-up.',
      '3 h 10 min run.',
      'The hold begins when the oil reaches 50.0 °C; it is at 41.0 °C.',
      'No drift line yet: the hold is shorter than 20 min.',
      'Fails already, whatever still comes: highest pressure.',
    ]);
  });
  it('a run that is long enough has nothing to go; a line that is outside says so', () => {
    const long: SoFar = {
      ...soFar,
      toGo_s: 0,
      drift: soFar.drift && { ...soFar.drift, trend: 'none', bandExit_h: 0, atRunEnd: null },
    };
    expect(plain([soFarLine(long)])[0]).toContain(
      'as long as was asked for; drift −0.42 psi/h, no trend: outside of the band already',
    );
  });
  it('a logger that falls silent is noticed: after half a minute, or ten intervals of a slow log', () => {
    expect(quietText(29, 1)).toBeNull();
    expect(quietText(31, 1)).toContain('No new row for 31 s');
    expect(quietText(31, 10)).toBeNull();
    expect(quietText(101, 10)).toContain('see whether the logger still writes');
  });
});
