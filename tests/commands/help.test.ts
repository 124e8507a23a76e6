import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { commands } from '#cli/commands.ts';
import { run, type Ended } from './run-command.ts';

const asked = new Map<string, Promise<Ended>>();
/** The help of a command, asked for once. */
function helpOf(name: string): Promise<Ended> {
  const found = asked.get(name) ?? run([name, '--help']);
  asked.set(name, found);
  return found;
}

describe('help', () => {
  it('lists every command and the exit codes', async () => {
    const { code, stdout, stderr } = await run(['--help']);
    expect(code).toBe(0);
    expect(stderr).toBe('');
    for (const { name, summary } of commands) {
      expect(stdout).toContain(`  ${name} `);
      expect(stdout.replace(/\s+/gu, ' ')).toContain(summary);
    }
    expect(stdout).toContain('130');
  });
  it.each(commands.map(({ name }) => name))('of %s names every option', async (name) => {
    const { code, stdout, stderr } = await helpOf(name);
    expect(code).toBe(0);
    expect(stderr).toBe('');
    expect(stdout).toContain(`overdrive-bench ${name} `);
    const command = commands.find((each) => each.name === name);
    for (const option of Object.keys(command?.options ?? {})) expect(stdout).toContain(`--${option}`);
  });
  it('is also "help assess" and "-h"', async () => {
    const { stdout } = await helpOf('assess');
    expect((await run(['help', 'assess'])).stdout).toBe(stdout);
    expect((await run(['assess', '-h'])).stdout).toBe(stdout);
  });
  it('keeps its lines within the usual width', async () => {
    const { stdout } = await helpOf('assess');
    const running = stdout.split('\n').filter((line) => !/^(overdrive-bench| {4}\[)/u.test(line));
    expect(Math.max(...running.map((line) => line.length))).toBeLessThanOrEqual(100);
  });
  it('names the version of package.json', async () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
    expect(await run(['--version'])).toEqual({ code: 0, stdout: `${version}\n`, stderr: '' });
  });
});

describe('called wrongly (exit 4)', () => {
  const log = 'run.csv';
  it.each([
    [[], 'COMMAND'],
    [['frobnicate'], 'no command "frobnicate"'],
    [['inspect'], 'name the log'],
    [['inspect', log, log], 'one log at a time'],
    [['inspect', log, '--band', '400..420 psi'], 'no option --band'],
    [['inspect', log, '--json'], '--json needs its FILE|-'],
    [['inspect', log, '--rig', '--json', '-'], '--rig needs its FILE'],
    [['assess'], 'name the log'],
    [['assess', log, '--spce', 'x.json'], 'no option --spce'],
    [['assess', log, '-x'], 'no option -x'],
    [['assess', log, '--spec', 'a.json', '--band', '400..420 psi'], 'not both'],
    [['assess', log, '--spec', 'a.json', '--spec', 'b.json'], '--spec is given twice'],
    [['assess', log, '--record', 'run.docx'], 'the ending says what to write'],
    [['assess', log, '--record', 'run'], 'the ending says what to write'],
    [['assess', log, '--paper', 'a3'], 'there are a4 and letter'],
    [['assess', log, '--date', '2026-02-30'], 'a day of the calendar'],
    [['assess', log, '--date', '5.3.2026'], 'a day of the calendar'],
    [['assess', '-', '--spec', '-'], 'standard input (-) can be only one'],
    [['assess', log, '--json', 'out.json', '--record', './out.json'], 'the ending says'],
    [['assess', log, '--record', 'a.pdf', '--record', './a.pdf'], 'two outputs would go to'],
    [['schema'], 'name one format'],
    [['schema', 'novel'], 'no format "novel"'],
    [['schema', 'spec', 'rig'], 'name one format'],
  ])('%j', async (argv, sentence) => {
    const { code, stdout, stderr } = await run(argv);
    expect({ code, stdout }).toEqual({ code: 4, stdout: '' });
    expect(stderr).toContain(sentence);
    expect(stderr).not.toMatch(/\n\s+at /u);
  });
});
