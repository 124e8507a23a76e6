import { describe, expect, it } from 'vitest';
import { assessmentText } from '#cli/assessment-text.ts';
import { readArguments } from '#cli/read-arguments.ts';
import { assessCommand } from '#cli/assess-command.ts';
import type { Terminal } from '#cli/terminal.ts';
import { tableLines } from '#cli/text-table.ts';
import { wrapped } from '#cli/wrapped.ts';
import type { Assessment, Verdict } from '#formats/assessment.ts';
import { assessedAt } from '../relief/sample-assessment.ts';

/** A terminal of a width, whose ink is seen as <ink>…</ink>. */
const terminal = (width: number, inked = false): Terminal => ({
  width,
  write: () => Promise.resolve(),
  complain: () => undefined,
  progress: () => undefined,
  ink: (ink, text) => (inked ? `<${ink}>${text}</${ink}>` : text),
});

describe('running text', () => {
  it('breaks at blanks, and lets a longer word stick out', () => {
    expect(wrapped('held the band all day', 10)).toEqual(['held the', 'band all', 'day']);
    expect(wrapped('a wonderfully long word', 8)).toEqual(['a', 'wonderfully', 'long', 'word']);
    expect(wrapped('', 8)).toEqual(['']);
  });
  it('keeps a number and its unit together', () => {
    expect(wrapped('it stands at 425\u00a0psi', 15)).toEqual(['it stands at', '425\u00a0psi']);
  });
});

describe('a table', () => {
  const rows = [
    { cells: [{ text: 'pressure' }, { text: '9.5', right: true }, { text: 'psi' }] },
    {
      cells: [{ text: 'oil' }, { text: '61.25', right: true }, { text: '°C' }],
      under: 'set aside: 3 spikes',
    },
  ];
  it('has columns as wide as their widest cell, numbers under each other', () => {
    expect(tableLines(['Column', 'Middle', 'Unit'], rows, terminal(60))).toEqual([
      '  Column    Middle  Unit',
      '  pressure     9.5  psi',
      '  oil        61.25  °C',
      '    set aside: 3 spikes',
    ]);
  });
  it('becomes paragraphs where it does not fit', () => {
    expect(tableLines(['Column', 'Middle', 'Unit'], rows, terminal(22)).slice(0, 3)).toEqual([
      '  pressure',
      '    Middle: 9.5',
      '    Unit: psi',
    ]);
  });
  it('is as wide in ink as without', () => {
    const cells = [{ text: 'Fails', ink: 'fail' as const }, { text: 'x' }];
    expect(tableLines(['', ''], [{ cells }], terminal(40, true))).toEqual(['  <fail>Fails</fail>  x']);
  });
});

describe('how many limits came out how', () => {
  const {
    criteria: [criterion],
    ...rest
  } = assessedAt(425.1);
  const said = (verdict: Verdict, ...verdicts: Verdict[]): string => {
    if (!criterion) throw new Error('the sample has a limit');
    const assessment: Assessment = {
      ...rest,
      verdict,
      criteria: verdicts.map((each) => ({ ...criterion, verdict: each })),
    };
    return assessmentText(assessment, terminal(200)).split('\n')[2] ?? '';
  };
  it.each([
    ['The one limit is not met.', 'fail', ['fail']],
    ['All 2 limits are met.', 'pass', ['pass', 'pass']],
    ['Of 3 limits 1 is not met, 1 is undecided, 1 is met.', 'fail', ['pass', 'undecided', 'fail']],
    ['Of 3 limits 2 are not assessed, 1 is met.', 'not-assessed', ['not-assessed', 'not-assessed', 'pass']],
  ] as [string, Verdict, Verdict[]][])('%s', (sentence, verdict, verdicts) => {
    expect(said(verdict, ...verdicts)).toBe(sentence);
  });
});

describe('an assessment in words', () => {
  const {
    criteria: [criterion],
    log,
    ...rest
  } = assessedAt(425.1);
  const said = (more: Partial<Assessment>, change: Partial<NonNullable<typeof criterion>> = {}): string => {
    if (!criterion) throw new Error('the sample has a limit');
    return assessmentText({ ...rest, log, criteria: [{ ...criterion, ...change }], ...more }, terminal(200));
  };
  it('tells which rows were skipped', () => {
    const skippedRows = [{ line: 5431, reason: 'the last line is cut short' }];
    expect(said({ log: { ...log, skippedRowCount: 1, skippedRows } })).toContain(
      '1 row was skipped (line 5431: the last line is cut short).',
    );
    expect(said({})).not.toContain('skipped');
  });
  it('has a stop between what was seen and what it may mean', () => {
    const feature = { value: 5.3, unit: 'psi' };
    const sign = {
      id: 'high-and-level',
      feature,
      mayPointTo: ['too many shims'],
      alsoShownBy: 'the parts list',
    };
    expect(said({ signs: [sign] })).toMatch(/above the high limit\. May point to/);
  });
  it('a limit that is met by a bound says the bound, a settling that never came says never', () => {
    const reason = 'the pressure fell within 0.1 s, inside the 1 s allowed; too few readings to say more';
    const bound = {
      id: 'fall-after-release' as const,
      unit: 's',
      value: null,
      verdict: 'pass' as const,
      reason,
    };
    const other = { ...bound, id: 'engagement-rise' as const, reason: 'the pressure rose within 0.1 s' };
    if (!criterion) throw new Error('the sample has a limit');
    expect(
      said({
        verdict: 'pass',
        criteria: [
          { ...criterion, ...bound },
          { ...criterion, ...other },
        ],
      }),
    ).toContain('The pressure rose within 0.1 s.');
    expect(
      said(
        {},
        { id: 'settling', unit: 's', value: null, verdict: 'fail', limits: { low: null, high: 3600 } },
      ),
    ).toMatch(/Fails +settl.* never /);
  });
});

describe('arguments', () => {
  const read = (...argv: string[]): ReturnType<typeof readArguments> => readArguments(assessCommand, argv);
  it('come as values, by name', () => {
    const found = read('a.csv', '--band', '..420 psi', '--record=a.pdf', '--record', 'b.svg', '-');
    if (!('given' in found)) throw new Error(JSON.stringify(found));
    expect(found.given.operands).toEqual(['a.csv', '-']);
    expect(found.given.option('band')).toBe('..420 psi');
    expect(found.given.options('record')).toEqual(['a.pdf', 'b.svg']);
    expect(found.given.option('spec')).toBeNull();
  });
  it('behind -- are names of files, whatever they look like', () => {
    const found = read('--', '--band');
    if (!('given' in found)) throw new Error(JSON.stringify(found));
    expect(found.given.operands).toEqual(['--band']);
  });
  it('"-" is a value, another option is not, but for an "="', () => {
    expect(read('a.csv', '--json', '-')).toHaveProperty('given');
    expect(read('a.csv', '--json', '--band')).toEqual({ usage: '--json needs its FILE|- behind it' });
    expect(read('a.csv', '--band=-5..3 psi')).toHaveProperty('given');
  });
  it('may begin with a negative number', () => {
    for (const band of ['-5..420 psi', '-.5..3 bar']) {
      const found = read('a.csv', '--band', band);
      if (!('given' in found)) throw new Error(JSON.stringify(found));
      expect(found.given.option('band')).toBe(band);
    }
  });
  it('do not know what an object knows by itself', () => {
    expect(read('a.csv', '--constructor')).toEqual({ usage: 'there is no option --constructor' });
  });
});
