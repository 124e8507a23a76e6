import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { adviceSchema } from '#formats/advice.ts';
import { adjustmentCautions } from '#formats/cautions.ts';
import { comparisonSchema } from '#formats/comparison.ts';
import { gaugeBandCheck, gaugeReadingsCheck } from '#formats/gauge-check.ts';
import { expectEqual } from '../log/expect-equal.ts';
import { ownFolder, rigOf, run, sample, shortRun, specOf } from './run-command.ts';

const folder = ownFolder();
function file(name: string, content: unknown): string {
  const place = path.join(folder, name);
  writeFileSync(place, typeof content === 'string' ? content : JSON.stringify(content));
  return place;
}
const relief = file('relief.json', {
  format: 'overdrive-bench/relief',
  version: 1,
  pressurePerShim: { value: 22, unit: 'psi/mm', standardUncertainty: 1.2 },
  repeatability: { standardUncertainty: 1.5, unit: 'psi' },
  fitted_mm: [1, 0.45],
  stock: [
    { thickness_mm: 0.1, count: 3 },
    { thickness_mm: 0.25, count: null },
  ],
  stackAtMost_mm: 2,
});
const bench = ['--spec', specOf('example-400-420'), '--rig', rigOf('bench-1')];
const oneLine = (text: string): string => text.replace(/\s+/gu, ' ');

describe('advise', () => {
  const argv = ['advise', sample('five-over-the-band'), ...bench, '--relief', relief];
  it('says in data what should come out', async () => {
    const { code, stdout, stderr } = await run([...argv, '--json', '-']);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const advice = adviceSchema.parse(JSON.parse(stdout));
    // 15.3 psi too high at 22 psi a millimetre.
    expect(advice.change_mm).toBeCloseTo(-15.3 / 22, 1);
    expect(advice.options[0]?.predicted.value).toBeCloseTo(410, -1);
  });
  it('says it in words, never without the cautions', async () => {
    const { code, stdout } = await run(argv);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^Take out 0\.\d\d mm {2}five-over-the-band\.csv\n/u);
    expect(oneLine(stdout)).toContain('Stop the bench and let the pressure off first.');
    for (const caution of adjustmentCautions) expect(oneLine(stdout)).toContain(caution);
  });
  const step = (serial: string, after: number, more: object = {}): object => ({
    serial,
    date: '2026-02-11',
    before_mm: [0.5],
    after_mm: [0.5, 0.5],
    pressureBefore: { value: 400, unit: 'psi', standardUncertainty: 0.7 },
    pressureAfter: { value: after, unit: 'psi', standardUncertainty: 0.7 },
    ...more,
  });
  const trail = file('trail.json', {
    format: 'overdrive-bench/adjustments',
    version: 1,
    serial: 'B-0417',
    adjustments: [
      step('B-0411', 411),
      step('B-0412', 409),
      step('B-0413', 412, { notAlike: 'the oil was 14 °C colder at the re-test' }),
      step('B-0414', 410),
      step('B-0417', 411.4, { predicted: { value: 410.5, standardUncertainty: 1.5, unit: 'psi' } }),
      step('B-0415', 431),
    ],
  });
  it("learns from this unit's changes and its type's, names the outlier, sums up predicted against found", async () => {
    const withHistory = [...argv, '--history', trail];
    const [data, words] = await Promise.all([run([...withHistory, '--json', '-']), run(withHistory)]);
    const advice = adviceSchema.parse(JSON.parse(data.stdout));
    expect(advice.pressurePerShim).toMatchObject({ from: 'figure and history and type', adjustmentsUsed: 5 });
    expect(advice.remarks.find(({ code }) => code === 'outlier-left-out')?.text).toContain('of unit B-0415');
    expect(advice.earlier?.filter(({ kept }) => kept)).toMatchObject([{ predicted: 410.5, found: 411.4 }]);
    expect(advice.earlierSummary).toMatchObject({ changes: 6, outside: 1 });
    expect(oneLine(words.stdout)).toContain('1 of 6 outside ±: check what else changed.');
    expect(oneLine(words.stdout)).toContain('not like for like: the oil was 14 °C colder at the re-test');
  });
  it('says that no stack reaches the band, and how far the nearest is off (exit 2)', async () => {
    const short = file('short.json', {
      ...(JSON.parse(readFileSync(relief, 'utf8')) as object),
      fitted_mm: [0.1],
      stock: [],
    });
    const { code, stdout } = await run(['advise', sample('five-over-the-band'), ...bench, '--relief', short]);
    expect(code).toBe(2);
    expect(stdout).toMatch(/^No stack in stock reaches the band/u);
    expect(oneLine(stdout)).toMatch(/the nearest would be 3\.\d psi away/u);
    expect(oneLine(stdout)).toContain(adjustmentCautions[0]);
  });
  it.each([
    [
      'keeps-falling-at-level-heat',
      'example-400-420',
      'bench-1',
      'Do not shim yet',
      'More shims would hide it.',
    ],
    ['never-settles', 'example-400-420', 'bench-1', 'Do not adjust yet', 'The pressure never settled'],
    [
      'speed-sweep-in-proportion',
      'example-cycled',
      'bench-1',
      'Do not adjust yet',
      'the relief is not in control',
    ],
    [
      'sensor-at-its-end',
      'example-400-420',
      'bench-1-400-range',
      'Do not adjust yet',
      'stood at the end of its range',
    ],
  ])('holds back from %s, and says why (exit 2)', async (name, spec, rig, title, why) => {
    const { code, stdout } = await run([
      'advise',
      sample(name),
      '--spec',
      specOf(spec),
      '--rig',
      rigOf(rig),
      '--relief',
      relief,
    ]);
    expect(code).toBe(2);
    expect(stdout.startsWith(title)).toBe(true);
    expect(oneLine(stdout)).toContain(why);
    expect(oneLine(stdout)).toContain(adjustmentCautions[0]);
  });
  it('leaves a unit as it is that sags warm but stands well inside', async () => {
    const { code, stdout } = await run([
      'advise',
      sample('sags-as-the-oil-warms'),
      ...bench,
      '--relief',
      relief,
    ]);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^Leave it as it is/u);
  });
  it('holds back where the oil never got warm (exit 2), and still gives the cautions', async () => {
    const { code, stdout } = await run(['advise', sample('oil-never-warm'), ...bench, '--relief', relief]);
    expect(code).toBe(2);
    expect(stdout).toMatch(/^Do not adjust yet/u);
    expect(oneLine(stdout)).toContain(adjustmentCautions[0]);
  });
  it.each([
    [['advise', 'run.csv', '--relief', relief], '--spec FILE is needed'],
    [['advise', 'run.csv', ...bench], '--relief FILE is needed'],
  ])('called wrongly: %j', async (wrong, sentence) => {
    const { code, stderr } = await run(wrong);
    expect(code).toBe(4);
    expect(stderr).toContain(sentence);
  });
  it('names the relief file that has no target for a one-sided band (exit 3)', async () => {
    const spec = file('open.json', {
      format: 'overdrive-bench/spec',
      version: 1,
      name: 'open',
      pressureBand: { low: 400, unit: 'psi' },
    });
    const { code, stderr } = await run([
      'advise',
      file('run.csv', shortRun()),
      '--spec',
      spec,
      '--relief',
      relief,
    ]);
    expect(code).toBe(3);
    expect(stderr).toContain('relief.json: target: is missing');
  });
});

describe('gauge against a reference', () => {
  const reference = [0, 100, 200, 300, 400, 500];
  const table = (heading: string, more: (p: number) => string = () => ''): string =>
    `${heading}\n${reference.map((p) => `${p},${(1.02 * p + 1).toFixed(2)}${more(p)}`).join('\n')}\n`;
  it('finds the correction of a gauge that reads 2 % high and 1 psi off', async () => {
    const { code, stdout } = await run([
      'gauge',
      file('a.csv', table('reference (psi),reading (psi)')),
      '--json',
      '-',
    ]);
    expect(code).toBe(0);
    const { rigChannel, points } = gaugeReadingsCheck.parse(JSON.parse(stdout));
    expect(points).toBe(6);
    expect(rigChannel?.correction.slope).toBeCloseTo(1 / 1.02, 9);
    expect(rigChannel?.correction.offset).toBeCloseTo(-1 / 1.02, 8);
  });
  it('takes the reference in another unit of pressure', async () => {
    const bar = reference.map((p) => `${p / 14.503773773};${1.02 * p + 1}`.replaceAll('.', ',')).join('\n');
    const { stdout } = await run(['gauge', '-', '--json', '-'], {
      stdin: `reference (bar);reading (psi)\n${bar}\n`,
    });
    const { rigChannel, unit } = gaugeReadingsCheck.parse(JSON.parse(stdout));
    expect(unit).toBe('psi');
    expect(rigChannel?.correction.slope).toBeCloseTo(1 / 1.02, 6);
  });
  it('says it in words', async () => {
    const { stdout } = await run(['gauge', file('b.csv', table('reference (psi),reading (psi)'))]);
    expect(stdout).toMatch(/^True value = 0\.98039 · reading − 0\.98039 psi\n/u);
    expect(stdout).toContain('"correction": {');
  });
  it('holds it against the class that is stated, and hands the dates on to the rig file', async () => {
    // 2 % and 1 psi off: 11 psi at 500, where 1.6 % of 600 psi allow 9.6 and 2.5 % allow 15.
    const readings = file('c.csv', table('reference (psi),reading (psi)'));
    const range = [
      '--range',
      '0..600 psi',
      '--json',
      '-',
      '--checked-on',
      '2026-03-04',
      '--due-on',
      '2027-03-04',
    ];
    const [coarse, fine] = await Promise.all(
      ['2.5', '1.6'].map(async (accuracy) => {
        const { code, stdout } = await run(['gauge', readings, ...range, '--accuracy', accuracy]);
        expect(code).toBe(0);
        return gaugeReadingsCheck.parse(JSON.parse(stdout));
      }),
    );
    expect(coarse?.stated).toEqual({
      percentOfSpan: 2.5,
      range: { low: 0, high: 600 },
      allowed: 15,
      largestError: 11,
      holds: true,
    });
    expect(fine?.stated).toMatchObject({ allowed: 9.6, holds: false });
    expect(fine?.rigChannel).toMatchObject({ calibratedOn: '2026-03-04', dueOn: '2027-03-04' });
    const { stdout } = await run(['gauge', readings, '--range', '0..600 psi', '--accuracy', '1.6']);
    expect(oneLine(stdout)).toContain(
      '± 1.6 % of 0 to 600 psi allows ± 9.6 psi: not held, largest error 11 psi',
    );
  });
  it.each([
    ['no unit', table('reference,reading'), 'names no unit'],
    ['two kinds of unit', table('reference (psi),reading (°C)'), 'cannot be compared'],
    [
      'no such column',
      table('soll (psi),ist (psi)'),
      'needs the columns reference and reading; it has "soll (psi)", "ist (psi)"',
    ],
    [
      'a direction of its own',
      table('reference (psi),reading (psi),direction', () => ',sideways'),
      'line 2: the direction "sideways"',
    ],
    ['an empty file', '', 'is empty'],
  ])('%s (exit 3)', async (name, text, sentence) => {
    const { code, stdout, stderr } = await run(['gauge', file(`bad ${name}.csv`, text)]);
    expect({ code, stdout }).toEqual({ code: 3, stdout: '' });
    expect(stderr).toContain(sentence);
  });
});

describe('gauge against a band', () => {
  it('gives what is left of it: U = 2·a/√3 off either end (JCGM 100:2008, Eq. 7)', async () => {
    const { code, stdout } = await run([
      'gauge',
      '--range',
      '0..500 psi',
      '--accuracy',
      '1',
      '--band',
      '400..420 psi',
      '--json',
      '-',
    ]);
    expect(code).toBe(0);
    const found = gaugeBandCheck.parse(JSON.parse(stdout));
    const U = (2 * 5) / Math.sqrt(3);
    expect(found.expandedUncertainty).toBeCloseTo(U, 9);
    expect(found.passFrom).toBeCloseTo(400 + U, 8);
    expect(found.passTo).toBeCloseTo(420 - U, 8);
  });
  it.each([
    // U = 2 · 1.25/√3 = 1.4434: 401.4 itself would not pass.
    ['0..500 psi', '0.25', '400..420 psi', 'Passes from 401.5 to 418.5 psi'],
    // U = 6.928.
    ['0..600 psi', '1', '400.. psi', 'Passes from 407.0 psi up'],
    // U = 9.9420: a zone of 0.116 psi does not shrink to nothing in print.
    ['0..861 psi', '1', '400..420 psi', 'Passes from 409.942 to 410.058 psi'],
  ])('%s, %s %%, %s: prints ends that pass', async (range, accuracy, band, first) => {
    const { stdout } = await run(['gauge', '--range', range, '--accuracy', accuracy, '--band', band]);
    expect(stdout.split('\n')[0]).toBe(first);
  });
  it('says that nothing can pass, with exit 0 all the same', async () => {
    const { code, stdout } = await run([
      'gauge',
      '--range',
      '0..1000 psi',
      '--accuracy',
      '1',
      '--band',
      '400..420 psi',
    ]);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^Nothing can pass\n/u);
  });
  it.each([
    [['--range', '0..1000 psi', '--band', '400..420 psi'], 4, 'go together'],
    [['--range', '0..1000 psi', '--band', '400..420 psi', '--accuracy', '1%'], 4, 'a number above 0'],
    [['--range', '0.. psi', '--band', '400..420 psi', '--accuracy', '1'], 4, 'both ends are needed'],
    [['--range', '0..1000', '--band', '400..420 psi', '--accuracy', '1'], 3, 'the unit is missing'],
    [['run.csv', '--range', '0..1000 psi'], 4, 'go together'],
    [['run.csv', '--range', '0..1000 psi', '--accuracy', '1', '--band', '400..420 psi'], 4, 'not both'],
    [['run.csv', '--due-on', 'next spring'], 4, '--due-on next spring: a day is written like'],
  ])('%j', async (argv, expected, sentence) => {
    const { code, stderr } = await run(['gauge', ...argv]);
    expect(code).toBe(expected);
    expect(stderr).toContain(sentence);
  });
});

describe('compare', () => {
  const logs = ['five-over-the-band', 'clean-pass'].map(sample);
  it('puts runs side by side in the order given', async () => {
    const argv = ['compare', ...logs, '--band', '400..420 psi'];
    const [data, words] = await Promise.all([run([...argv, '--json', '-']), run(argv)]);
    expect(data.code).toBe(0);
    const comparison = comparisonSchema.parse(JSON.parse(data.stdout));
    expect(comparison.runs.map(({ fileName, verdict }) => [fileName, verdict])).toEqual([
      ['five-over-the-band.csv', 'fail'],
      ['clean-pass.csv', 'pass'],
    ]);
    expect(words.stdout).toMatch(/five-over-the-band\.csv +Fails +425/u);
    expect(words.stdout).toMatch(/clean-pass\.csv +Passes +41/u);
  });
  it('writes the rows as a table and the chart as a picture, the same bytes each time', async () => {
    const band = ['--band', '400..420 psi'];
    const cold = path.join(folder, '=cold,1.csv');
    writeFileSync(cold, readFileSync(sample('oil-never-warm')));
    const names = ['c.csv', 'c.svg', 'c.png', 'c.pdf'].map((name) => path.join(folder, name));
    const argv = ['compare', ...logs, cold, '--spec', specOf('example-400-420')];
    const records = names.flatMap((name) => ['--record', name]);
    const { code, stdout, stderr } = await run([...argv, '--json', '-', ...records]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const { runs } = comparisonSchema.parse(JSON.parse(stdout));
    const [csv, svg, png, pdf] = names.map((name) => readFileSync(name));
    const [heads, ...rows] = String(csv).trimEnd().split('\r\n');
    expect(heads).toMatch(/^run,file,start,verdict,operating_pressure_psi,/u);
    expect(rows[0]?.split(',')[4]).toBe(String(runs[0]?.operatingPressure.value));
    // A name that a spreadsheet would take for a formula; no value, but why.
    expect(rows[2]).toMatch(/^3,"'=cold,1\.csv",.*not-assessed,,,.*the oil never reached/u);
    expect(String(svg)).toMatch(/^<svg /u);
    expect(String(svg)).toContain('band to 420');
    expect(png?.subarray(1, 4).toString()).toBe('PNG');
    expect(pdf?.subarray(0, 5).toString()).toBe('%PDF-');
    await run([...argv, ...records]);
    expectEqual(
      names.map((name) => readFileSync(name)),
      [csv, svg, png, pdf],
    );
    const refused = await run(['compare', ...logs, ...band, '--record', path.join(folder, 'c.html')]);
    expect(refused.code).toBe(4);
    expect(refused.stderr).toContain('.csv .svg .png .pdf');
  });
  it.each([
    [['compare', 'a.csv', '--band', '400..420 psi'], 'two logs or more'],
    [['compare', 'a.csv', 'b.csv'], 'one set of limits'],
    [['compare', 'a.csv', 'b.csv', '--spec', 'x.json', '--band', '400..420 psi'], 'one set of limits'],
  ])('called wrongly: %j', async (argv, sentence) => {
    const { code, stderr } = await run(argv);
    expect(code).toBe(4);
    expect(stderr).toContain(sentence);
  });
});
