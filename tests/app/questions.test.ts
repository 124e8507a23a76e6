import { describe, expect, it } from 'vitest';
import { corrected, merged, questionsOf, type LoggedChannel } from '#app/questions.ts';

const channel = (change: Partial<LoggedChannel>): LoggedChannel => ({
  column: 'P',
  role: 'pressure',
  unit: 'psi',
  unitFrom: 'header',
  samples: 100,
  valid: 100,
  missing: 0,
  faultTokens: 0,
  outOfRange: 0,
  stuck: 0,
  spikes: 0,
  min: 0,
  max: 430,
  mean: 400,
  median: 425,
  ...change,
});
const none = new Map<string, string>();

describe('questionsOf', () => {
  it('asks nothing where everything is told', () => {
    expect(questionsOf([channel({})], none)).toEqual({ questions: [], corrections: [], open: [] });
  });

  it('asks for a missing unit, says what each would mean, and chooses none itself', () => {
    const { questions, open, corrections } = questionsOf([channel({ unit: null, unitFrom: null })], none);
    expect(open).toHaveLength(1);
    expect(corrections).toEqual([]);
    const meaning = Object.fromEntries(
      questions[0]?.choices.map(({ id, meaning: text }) => [id, text]) ?? [],
    );
    // 425 kPa and 425 bar in psi: 425 × 1000 / 6894.757 and 425 × 100 000 / 6894.757 (NIST SP 811, B.8).
    expect(meaning).toMatchObject({ psi: '425 psi', kPa: 'would be 61.6 psi', bar: 'would be 6164 psi' });
    expect(meaning).toHaveProperty('not-a-pressure');
  });

  it('keeps an answered question, so that it can be answered otherwise', () => {
    const channels = [channel({ unit: null, unitFrom: null })];
    const id = questionsOf(channels, none).questions[0]?.id ?? '';
    const answered = questionsOf(channels, new Map([[id, 'bar']]));
    expect(answered.questions).toHaveLength(1);
    expect(answered.open).toEqual([]);
    expect(answered.corrections).toEqual([{ column: 'P', unit: 'bar' }]);
  });

  it('goes on to the unit once the column is told, and leaves the other out', () => {
    const channels = [channel({ column: 'A', unit: null }), channel({ column: 'B' })];
    const first = questionsOf(channels, none);
    expect(first.open.map(({ toSay }) => toSay)).toEqual(['which column']);
    const id = first.questions[0]?.id ?? '';
    const second = questionsOf(channels, new Map([[id, 'A']]));
    expect(second.open.map(({ toSay }) => toSay)).toEqual(['which unit']);
    expect(second.corrections).toEqual([
      { column: 'A', role: 'pressure' },
      { column: 'B', role: 'ignored' },
    ]);
    expect(questionsOf(channels, new Map([[id, 'B']])).open).toEqual([]);
  });

  it('asks which column is the pressure where none looks like it; "not a pressure" leads there too', () => {
    const speed = channel({ column: 'n', role: null, unit: null, median: 1000 });
    expect(questionsOf([speed], none).questions[0]?.choices.map(({ id }) => id)).toEqual(['n']);
    const channels = [channel({ unit: null }), speed];
    const id = questionsOf(channels, none).questions[0]?.id ?? '';
    const { open } = questionsOf(channels, new Map([[id, 'not-a-pressure']]));
    expect(open[0]?.title).toBe('Which column is the pressure?');
  });

  it('asks for the unit of the oil, as a temperature and not as a difference', () => {
    const oil = channel({ column: 'Oil', role: 'oil-temperature', unit: null, median: 60 });
    const { open } = questionsOf([channel({}), oil], none);
    expect(open[0]?.choices.slice(0, 2).map(({ meaning }) => meaning)).toEqual([
      'would be 140 °F',
      'would be 16 °C',
    ]);
  });

  it('takes an answer that no choice has for none', () => {
    const channels = [channel({ unit: null })];
    const id = questionsOf(channels, none).questions[0]?.id ?? '';
    expect(questionsOf(channels, new Map([[id, 'furlong']])).open).toHaveLength(1);
  });
});

describe('corrections', () => {
  it('the later of two counts, and what it does not speak of stays', () => {
    expect(
      merged([
        { column: 'P', role: 'pressure', unit: 'psi' },
        { column: 'Q', role: 'ignored' },
        { column: 'P', unit: 'bar' },
      ]),
    ).toEqual([
      { column: 'P', role: 'pressure', unit: 'bar' },
      { column: 'Q', role: 'ignored' },
    ]);
  });

  it('mark the unit as said by hand and change no other column', () => {
    const before = Object.freeze([channel({}), channel({ column: 'Q', role: 'flow' })]);
    const after = corrected(before, [{ column: 'P', unit: 'bar' }]);
    expect(after[0]).toMatchObject({ unit: 'bar', unitFrom: 'user' });
    expect(after[1]).toEqual(before[1]);
  });
});
