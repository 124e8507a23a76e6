import { describe, expect, it } from 'vitest';
import type { Criterion, Verdict } from '#formats/assessment.ts';
import { fieldsOf, recordFrom } from '#app/record-fields.ts';
import { recall, remember } from '#app/remembered.ts';
import { countSentence, headOf, startText } from '#app/run-words.ts';
import { rigOfGauge, rigWithoutGauge } from '#app/stated-gauge.ts';
import type { Rig } from '#formats/rig.ts';
import { placeOf } from '#app/desk.ts';
import { savedName } from '#app/saved-name.ts';
import { samplingText, setAsideText, startAndEnd } from '#app/understood-words.ts';
import { inUnit, viewingUnits } from '#app/viewing-unit.ts';
import type { Run } from '#app/state.ts';
import type { LoggedRun } from '#formats/assessment.ts';

const criterion = (change: Partial<Criterion> = {}): Criterion => ({
  id: 'operating-pressure',
  value: 425.1,
  unit: 'psi',
  expandedUncertainty: 3.5,
  limits: { low: 400, high: 420 },
  decisionRule: 'guarded',
  probabilityOfConformity: 0.001,
  verdict: 'fail',
  reason: 'because',
  ...change,
});
const head = (verdict: Verdict, criteria: Criterion[], unit: Parameters<typeof headOf>[1] = null) =>
  headOf({ verdict, criteria } as Parameters<typeof headOf>[0], unit);
/** The words with plain blanks. */
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('headOf', () => {
  it('number with its ±, limit, then distance', () => {
    const fails = head('fail', [criterion()]);
    expect(fails.word).toBe('Fails');
    expect(plain(fails.sentence)).toBe('425.1 ± 3.5 psi, band 400 to 420 psi.');
    expect(plain(fails.distance)).toBe('5.1 psi above the band.');
  });

  it('passes with its distance from the nearer limit', () => {
    const passes = head('pass', [criterion({ value: 410.2, verdict: 'pass' })]);
    expect(plain(passes.distance)).toBe('Clear of the nearer limit by 9.8 psi.');
  });

  it('says of the undecided how sure the gauge is', () => {
    const open = head('undecided', [
      criterion({ value: 415.3, expandedUncertainty: 5.8, verdict: 'undecided' }),
    ]);
    expect(plain(open.distance)).toBe('4.7 psi inside the band, but the gauge is only sure to ± 5.8 psi.');
  });

  it('speaks of what the verdict hangs on, by name, where that is not the pressure', () => {
    const fails = head('fail', [
      criterion({ value: 410, verdict: 'pass' }),
      criterion({
        id: 'run-length',
        value: 3,
        unit: 'h',
        expandedUncertainty: null,
        limits: { low: 6, high: null },
      }),
    ]);
    expect(plain(fails.sentence)).toBe('Length of the run: 3 h, at least 6 h.');
    expect(plain(fails.distance)).toBe('3 h below the limit.');
  });

  it('gives the reason alone for what was not assessed', () => {
    const none = head('not-assessed', [
      criterion({ value: null, verdict: 'not-assessed', reason: 'the oil never reached 50 °C' }),
    ]);
    expect(plain(none.sentence)).toBe('The oil never reached 50 °C.');
    expect(none.distance).toBe('');
  });

  it('is never a pass by emptiness', () => {
    expect(head('not-assessed', []).word).toBe('Not assessed');
  });

  it('shows another unit and keeps the verdict: 425.1 psi is 29.3 bar', () => {
    // 425.1 × 6894.757 / 100 000 = 29.310; limits 27.579 and 28.958 (NIST SP 811, B.8).
    const shown = head('fail', [criterion()], 'bar');
    expect(plain(shown.sentence)).toBe('29.31 ± 0.24 bar, band 27.579 to 28.958 bar.');
    expect(shown.criterion).toEqual(criterion());
  });
});

describe('countSentence', () => {
  it('counts by verdict, worst first', () => {
    const list = (
      ['pass', 'pass', 'fail', 'undecided', 'fail', 'not-assessed', 'pass', 'pass', 'pass'] as const
    ).map((verdict) => criterion({ verdict }));
    expect(countSentence(list)).toBe('Of 9 limits 2 fail, 1 is undecided, 1 is not assessed, 5 pass.');
    expect(countSentence(list.slice(0, 2))).toBe('Both limits pass.');
    expect(countSentence(list.slice(-3))).toBe('All 3 limits pass.');
    expect(countSentence([])).toBe('');
    expect(countSentence([criterion({ verdict: 'pass' })])).toBe('The one limit passes.');
  });
});

describe('inUnit', () => {
  it('leaves alone what is no pressure', () => {
    const settling = criterion({ id: 'settling', unit: 'min' });
    expect(inUnit(settling, 'bar')).toBe(settling);
  });
  it('offers the judged unit even where it is none of the usual', () => {
    expect(viewingUnits('MPa')[0]).toBe('MPa');
    expect(viewingUnits('bar')).toEqual(['psi', 'bar', 'kPa', 'kgf/cm2']);
  });
});

describe('what was understood, in words', () => {
  it('sampling', () => {
    expect([1, 0.01, 2, 60, 600, null].map(samplingText)).toEqual([
      'one a second',
      '100 a second',
      'one each 2 s',
      'one a minute',
      'one each 10 min',
      'at no steady rate',
    ]);
  });
  it('start and end, over midnight too', () => {
    const log = (start: string | null, duration_s: number) => startAndEnd({ start, duration_s } as LoggedRun);
    expect(log('2026-03-04T08:15:00', 22320)).toBe('08:15 to 14:27');
    expect(log('23:30:00', 3600)).toBe('23:30 to 00:30');
    expect(log(null, 3600)).toBe('0 to 1 h');
  });
  it('set aside, by kind', () => {
    const channel = { stuck: 70, spikes: 45, outOfRange: 0, faultTokens: 12, missing: 6 };
    expect(setAsideText(channel as LoggedRun['channels'][number])).toBe(
      '133: 70 stuck, 45 spikes, 12 fault tokens, 6 missing',
    );
    const spike = { stuck: 0, spikes: 1, outOfRange: 0, faultTokens: 0, missing: 0 };
    expect(setAsideText(spike as LoggedRun['channels'][number])).toBe('1 spike');
  });
  it('a start as the sheet writes it', () => {
    expect(startText('2026-03-04T08:15:00')).toBe('4 March 2026, 08:15');
    expect(startText('08:15:00')).toBe('08:15');
    expect(startText(null)).toBeNull();
  });
});

describe('a gauge that is stated for a known bench', () => {
  const base: Rig = {
    format: 'overdrive-bench/rig',
    version: 1,
    name: 'Bench 1',
    time: { column: 'Zeit' },
    channels: [
      {
        column: 'P',
        role: 'pressure',
        unit: 'bar',
        range: { low: 0, high: 40 },
        uncertainty: { percentOfSpan: 0.25 },
        correction: { offset: 0.1, slope: 1.01 },
        calibratedOn: '2026-01-20',
      },
      { column: 'T', role: 'oil-temperature', unit: 'degC' },
    ],
  };
  it('takes the place of its gauge and leaves everything that says how the log is read', () => {
    const made = rigOfGauge({ low: '0', high: '60', unit: 'bar', percent: '1' }, 'P', 'bar', base);
    if (made === null || 'wrong' in made) throw new Error('no rig');
    expect(made.rig.name.replaceAll('\u00a0', ' ')).toBe(
      'Bench 1, gauge 0 to 60 bar, ± 1 % of span, as stated',
    );
    expect(made.rig.time).toEqual(base.time);
    expect(made.rig.channels).toEqual([
      {
        column: 'P',
        role: 'pressure',
        unit: 'bar',
        range: { low: 0, high: 60 },
        uncertainty: { percentOfSpan: 1 },
      },
      base.channels?.[1],
    ]);
  });
  it('is not known: its range stays, its accuracy and its correction do not', () => {
    expect(rigWithoutGauge(base, 'P').channels?.[0]).toEqual({
      column: 'P',
      role: 'pressure',
      unit: 'bar',
      range: { low: 0, high: 40 },
    });
  });
});

describe('rigOfGauge', () => {
  const fields = { low: '0', high: '600', unit: 'psi', percent: '1' } as const;
  it('states range and accuracy of the pressure column, in the column’s unit', () => {
    const made = rigOfGauge({ ...fields, percent: '0,25' }, 'P', 'psi');
    expect(made).toMatchObject({
      rig: {
        name: 'Gauge 0 to 600 psi, ± 0.25 % of span, as stated',
        channels: [{ column: 'P', range: { low: 0, high: 600 }, uncertainty: { percentOfSpan: 0.25 } }],
      },
    });
    const bar = rigOfGauge(fields, 'P', 'bar');
    if (bar === null || 'wrong' in bar) throw new Error('no rig');
    // 600 psi = 600 × 6894.757 293 / 100 000 bar (NIST SP 811, B.8).
    expect(bar.rig.channels?.[0]?.range?.high).toBeCloseTo(41.36854376, 7);
  });
  it('waits for what is missing and refuses what cannot be', () => {
    expect(rigOfGauge({ ...fields, high: '' }, 'P', 'psi')).toBeNull();
    expect(rigOfGauge({ ...fields, high: '0' }, 'P', 'psi')).toHaveProperty('wrong');
    expect(rigOfGauge({ ...fields, percent: '0' }, 'P', 'psi')).toHaveProperty('wrong');
  });
});

describe('the record’s fields', () => {
  const shop = { name: '', address: '', contact: '' };
  it('leave out what is empty, and nothing is made of nothing', () => {
    const empty = fieldsOf(null, shop, '2026-03-06');
    expect(recordFrom(empty, null)).toEqual({ record: null, wrong: [] });
    const { record } = recordFrom({ ...empty, serial: ' B-0411 ', oilLeftIn: 'no' }, null);
    expect(record).toEqual({
      format: 'overdrive-bench/unit-record',
      version: 1,
      unit: { serial: 'B-0411' },
      oil: { leftIn: false },
    });
  });
  it('keep what a unit file said beyond them', () => {
    const base = recordFrom({ ...fieldsOf(null, shop, ''), serial: 'B-1' }, null).record;
    if (base === null) throw new Error('no record');
    const file = { ...base, workDone: ['all seals renewed'], unit: { ...base.unit, condition: 'dirty' } };
    const { record } = recordFrom({ ...fieldsOf(file, shop, ''), serial: 'B-2' }, file);
    expect(record).toMatchObject({
      workDone: ['all seals renewed'],
      unit: { serial: 'B-2', condition: 'dirty' },
    });
  });
});

describe('remembered', () => {
  it('comes back, and rubbish is as good as nothing', () => {
    const kept = new Map<string, string>();
    const storage = {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => void kept.set(key, value),
    };
    const first = recall(storage);
    remember(storage, { ...first, paper: 'night', unit: 'bar', keys: false });
    expect(recall(storage)).toEqual({ ...first, paper: 'night', unit: 'bar', keys: false });
    for (const [key] of kept) kept.set(key, '{"paper":7,"unit":"furlong","lastSpec":{"a":1}');
    expect(recall(storage)).toEqual(first);
    for (const [key] of kept) kept.set(key, '{"paper":7,"unit":"furlong","lastSpec":{"a":1}}');
    expect(recall(storage)).toEqual(first);
    expect(recall(null)).toEqual(first);
  });
  it('does not fail where the browser forbids it', () => {
    const forbidden = {
      setItem: () => {
        throw new DOMException('no', 'SecurityError');
      },
    };
    expect(() => remember(forbidden, recall(null))).not.toThrow();
  });
});

describe('names', () => {
  it('a saved file is called after the unit, else the log, with letters that every system takes', () => {
    const run = { file: { name: 'run 7/b.csv' } } as Run;
    expect(savedName(run, null, 'pdf')).toBe('run 7-b record.pdf');
    const record = { unit: { serial: 'B-04:17' } } as Parameters<typeof savedName>[1];
    expect(savedName(run, record, 'json')).toBe('B-04-17 assessment.json');
  });
  it('an address that is none of ours is the book', () => {
    expect(placeOf('#/run')).toBe('run');
    expect(placeOf('#/nonsense')).toBe('book');
  });
});
