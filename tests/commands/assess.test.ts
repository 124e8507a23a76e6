import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { assessmentSchema, inspectionSchema, type Assessment } from '#formats/assessment.ts';
import { formatNames } from '#formats/json-schema.ts';
import { writeJson } from '#formats/number.ts';
import { ownFolder, rigOf, run, sample, shortRun, specOf, type Ended } from './run-command.ts';

const folder = ownFolder();
const short = path.join(folder, 'short.csv');
writeFileSync(short, shortRun());
const band = ['--band', '400..420 psi'];
const bench = ['--spec', specOf('example-400-420'), '--rig', rigOf('bench-1')];

/** What was written, held against its shape; written again it is the same. */
function assessmentOf({ stdout }: Ended): Assessment {
  const data: unknown = JSON.parse(stdout);
  expect(writeJson(data)).toBe(stdout);
  expect(stdout).not.toMatch(/NaN|Infinity/u);
  return assessmentSchema.parse(data);
}

describe('exit codes of assess', () => {
  it('0: every limit is met', async () => {
    const ended = await run(['assess', short, ...band, '--json', '-']);
    expect({ code: ended.code, stderr: ended.stderr }).toEqual({ code: 0, stderr: '' });
    expect(assessmentOf(ended).verdict).toBe('pass');
  });
  it('1: the unit set 5 psi over its band fails, with about 425 psi and a reason in words', async () => {
    const ended = await run(['assess', sample('five-over-the-band'), ...band, '--json', '-']);
    expect(ended.code).toBe(1);
    const { verdict, criteria, quantities } = assessmentOf(ended);
    expect(verdict).toBe('fail');
    expect(quantities.operatingPressure.value).toBeCloseTo(425.3, 0);
    expect(criteria[0]?.id).toBe('operating-pressure');
    expect(criteria[0]?.reason).toMatch(/^425\.\d.* band 400 to 420 psi: 5\.\d+ psi above the band$/u);
  });
  it('2: the same with a gauge too coarse to tell is undecided', async () => {
    const ended = await run([
      'assess',
      sample('five-over-the-band'),
      '--spec',
      specOf('example-pressure-only'),
      '--rig',
      rigOf('bench-1-coarse'),
      '--json',
      '-',
    ]);
    expect(ended.code).toBe(2);
    expect(assessmentOf(ended).verdict).toBe('undecided');
  });
  it('2: a run whose oil never got warm is not assessed', async () => {
    const ended = await run(['assess', sample('oil-never-warm'), ...bench, '--json', '-']);
    expect(ended.code).toBe(2);
    expect(assessmentOf(ended).verdict).toBe('not-assessed');
  });
  it('2: without a limit nothing is judged, and never passed', async () => {
    const ended = await run(['assess', short, '--json', '-']);
    expect(ended.code).toBe(2);
    const { verdict, criteria, spec } = assessmentOf(ended);
    expect({ verdict, criteria, spec }).toEqual({ verdict: 'not-assessed', criteria: [], spec: null });
  });
});

describe('assess for people', () => {
  it('says verdict, number and limit first, without colours into a pipe', async () => {
    const { stdout } = await run(['assess', sample('five-over-the-band'), ...bench], {
      env: { NO_COLOR: '' },
    });
    const [first, second] = stdout.split('\n');
    expect(first).toBe('Fails  five-over-the-band.csv');
    expect(second).toMatch(/^425\.\d+ ± \d\.\d+ psi, band 400 to 420 psi: 5\.\d+ psi above the band\.$/u);
    expect(stdout).not.toContain('\u001b');
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
  });
  it('says that nothing is judged where there is no limit', async () => {
    const { stdout } = await run(['assess', short]);
    expect(stdout).toContain('No limit was given');
    expect(stdout).toMatch(/operating pressure +41\d/u);
  });
  it('writes the JSON beside the words when it goes to a file', async () => {
    const file = path.join(folder, 'beside.json');
    const { stdout, code } = await run(['assess', short, ...band, '--json', file]);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^Passes/u);
    expect(assessmentOf({ code: 0, stderr: '', stdout: readFileSync(file, 'utf8') }).verdict).toBe('pass');
  });
});

describe('the same input gives the same bytes', () => {
  it('twice, in another zone and in another language', async () => {
    const argv = [
      'assess',
      sample('clean-pass'),
      '--spec',
      specOf('example-400-420'),
      '--rig',
      rigOf('bench-1-clock'),
      '--json',
      '-',
    ];
    const [a, b, c] = await Promise.all([
      run(argv),
      run(argv, { env: { TZ: 'Pacific/Auckland', LC_ALL: 'de_DE.UTF-8', LANG: 'de_DE.UTF-8' } }),
      run(argv, { env: { TZ: 'America/St_Johns' } }),
    ]);
    expect(a.code).toBe(0);
    expect(b.stdout).toBe(a.stdout);
    expect(c.stdout).toBe(a.stdout);
  });
  it('in the record too, whatever the clock of the machine says', async () => {
    const made = async (name: string, zone: string): Promise<string> => {
      const file = path.join(folder, name);
      const { code } = await run(['assess', short, ...band, '--record', file, '--date', '2026-03-05'], {
        env: { TZ: zone },
      });
      expect(code).toBe(0);
      return createHash('sha256').update(readFileSync(file)).digest('hex');
    };
    expect(await made('b.pdf', 'Pacific/Auckland')).toBe(await made('a.pdf', 'UTC'));
  });
  it('from standard input, but for the name', async () => {
    const [file, piped] = [
      await run(['assess', short, ...band, '--json', '-']),
      await run(['assess', '-', ...band, '--json', '-'], { stdin: readFileSync(short) }),
    ];
    expect(assessmentOf(file).log.fileName).toBe('short.csv');
    expect(assessmentOf(piped).log.fileName).toBeNull();
    expect(piped.stdout.replace('"fileName": null', '"fileName": "short.csv"')).toBe(file.stdout);
  });
  it('names the hash that everybody else works out', async () => {
    const { log } = assessmentOf(await run(['assess', short, ...band, '--json', '-']));
    expect(log.sha256).toBe(createHash('sha256').update(readFileSync(short)).digest('hex'));
    expect(log.bytes).toBe(readFileSync(short).length);
  });
});

describe('a run in parts', () => {
  it('is judged as one, and names its parts', async () => {
    const [header = '', ...rows] = readFileSync(sample('clean-pass'), 'utf8')
      .trimEnd()
      .split('\n')
      .filter((line) => !line.startsWith('#'));
    const half = Math.floor(rows.length / 2);
    const parts = [rows.slice(0, half), rows.slice(half)].map((lines, index) => {
      const file = path.join(folder, `part-${index + 1}.csv`);
      writeFileSync(file, `${[header, ...lines].join('\n')}\n`);
      return file;
    });
    const ended = await run([
      'assess',
      ...parts,
      '--spec',
      specOf('example-400-420'),
      '--rig',
      rigOf('bench-1-clock'),
      '--json',
      '-',
    ]);
    const { log, verdict } = assessmentOf(ended);
    expect(verdict).toBe('pass');
    expect(log.parts?.map(({ fileName }) => fileName)).toEqual(['part-1.csv', 'part-2.csv']);
    expect(log.rows).toBe(rows.length);
  });
});

describe('records by their ending', () => {
  const file = (ending: string): string => path.join(folder, `record${ending}`);
  const log = sample('spikes-and-dropouts');
  beforeAll(async () => {
    const records = ['.pdf', '.html', '.svg', '.csv'].flatMap((ending) => ['--record', file(ending)]);
    const { code, stderr } = await run([
      'assess',
      log,
      ...bench,
      '--unit-record',
      path.resolve('sample-runs', 'units', 'b-0411.json'),
      ...records,
      '--json',
      file('.json'),
    ]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  });
  it('are what their ending says', () => {
    expect(readFileSync(file('.pdf')).subarray(0, 8).toString('latin1')).toBe('%PDF-1.7');
    expect(readFileSync(file('.html'), 'utf8')).toMatch(/^<!doctype html>/iu);
    expect(readFileSync(file('.svg'), 'utf8')).toMatch(/^(<\?xml[^>]*>\s*)?<svg/u);
    expect(readFileSync(file('.csv'), 'utf8').split('\r\n')[0]).toContain('elapsed_s');
  });
  it('the readings have a row for each of the log', () => {
    const { rows } = assessmentSchema.parse(JSON.parse(readFileSync(file('.json'), 'utf8'))).log;
    expect(readFileSync(file('.csv'), 'utf8').trimEnd().split('\r\n')).toHaveLength(rows + 1);
  });
  it('the PDF carries the log and the assessment, byte for byte', ({ skip }) => {
    let list: string;
    try {
      list = execFileSync('pdfdetach', ['-list', file('.pdf')], { encoding: 'utf8' });
    } catch {
      skip('pdfdetach (poppler-utils) is not installed');
      return;
    }
    expect(list).toContain('spikes-and-dropouts.csv');
    const detached = (name: string): Buffer => {
      const target = path.join(folder, `detached-${name}`);
      execFileSync('pdfdetach', ['-savefile', name, '-o', target, file('.pdf')]);
      return readFileSync(target);
    };
    expect(detached('spikes-and-dropouts.csv').equals(readFileSync(log))).toBe(true);
    expect(detached('assessment.json').equals(readFileSync(file('.json')))).toBe(true);
  });
});

describe('inspect', () => {
  it('says what would mend a column that is not told', async () => {
    const rows = Array.from({ length: 30 }, (_, i) => `${i},${410 + (i % 3)},${400 + (i % 5)}`);
    const { code, stdout } = await run(['inspect', '-'], {
      stdin: ['time_s,P1 (psi),P2 (psi)', ...rows].join('\n'),
    });
    expect(code).toBe(0);
    expect(stdout.replace(/\s+/gu, ' ')).toContain('say which one is to be judged. A rig file names');
    const told = await run(['inspect', sample('decimal-comma-in-bar')]);
    expect(told.stdout).not.toContain('A rig file names');
  });
  it('describes a log as data', async () => {
    const ended = await run(['inspect', sample('decimal-comma-in-bar'), '--json', '-']);
    expect({ code: ended.code, stderr: ended.stderr }).toEqual({ code: 0, stderr: '' });
    const inspection = inspectionSchema.parse(JSON.parse(ended.stdout));
    expect(inspection.log.dialect).toMatchObject({ delimiter: ';', decimal: ',' });
    expect(inspection.log.channels.map(({ role, unit }) => [role, unit])).toContainEqual(['pressure', 'bar']);
  });
  it('describes it in words', async () => {
    const { stdout } = await run(['inspect', sample('decimal-comma-in-bar')]);
    expect(stdout).toMatch(/semicolon, decimal comma/u);
    expect(stdout).toMatch(/pressure +bar, from the unit row/u);
  });
  it('needs no pressure column', async () => {
    const { code, stdout } = await run(['inspect', '-', '--json', '-'], {
      stdin: `time_s,room (°C)\n${Array.from({ length: 50 }, (_, t) => `${t},21.${t % 9}`).join('\n')}\n`,
    });
    expect(code).toBe(0);
    expect(inspectionSchema.parse(JSON.parse(stdout)).log.channels).toHaveLength(1);
  });
});

describe('schema', () => {
  it.each(formatNames)('of %s is a JSON Schema of its own', async (name) => {
    const { code, stdout } = await run(['schema', name]);
    expect(code).toBe(0);
    const schema = JSON.parse(stdout) as { $schema: string; title: string };
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(schema.title).toContain(name);
  });
});
