import {
  copyFileSync,
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ownFolder, run, shortRun, start, ended } from './run-command.ts';

const folder = ownFolder();
const place = (name: string): string => path.join(folder, name);
const log = place('run.csv');
writeFileSync(log, shortRun(300));
const assess = ['assess', log, '--band', '400..420 psi'];
/** Whatever a write leaves behind on its way. */
const leftOver = (): string[] => readdirSync(folder).filter((name) => name.includes('unfinished'));

describe('an input is never changed', () => {
  const before = readFileSync(log);
  it.each([
    ['under its name', () => log],
    ['by another path', () => `${folder}/./run.csv`],
    [
      'by a link',
      () => {
        symlinkSync(log, place('link.csv'));
        return place('link.csv');
      },
    ],
    [
      'by a second name of the same file',
      () => {
        linkSync(log, place('second.csv'));
        return place('second.csv');
      },
    ],
  ])('%s', async (_, name) => {
    const { code, stdout, stderr } = await run([...assess, '--record', name()]);
    expect({ code, stdout }).toEqual({ code: 3, stdout: '' });
    expect(stderr).toMatch(/cannot be written: it is an input of this command/u);
    expect(readFileSync(log).equals(before)).toBe(true);
  });
  it('nor is a spec or a rig', async () => {
    const spec = place('limits.json');
    writeFileSync(
      spec,
      '{"format":"overdrive-bench/spec","version":1,"name":"x","pressureBand":{"low":400,"high":420,"unit":"psi"}}',
    );
    const { code } = await run(['assess', log, '--spec', spec, '--json', spec]);
    expect(code).toBe(3);
    expect(readFileSync(spec, 'utf8')).toContain('overdrive-bench/spec');
  });
});

describe('an output that cannot be written (exit 3)', () => {
  mkdirSync(place('taken'));
  it.each([
    ['where a folder stands', place('taken'), 'a folder of that name is there'],
    ['into a folder that is not there', place('nowhere/out.json'), 'there is no folder'],
    ['below a file', `${log}/out.json`, 'a part of its path is a file'],
  ])('%s, before the work is begun', async (_, target, reason) => {
    const { code, stdout, stderr } = await run([...assess, '--json', target]);
    expect({ code, stdout }).toEqual({ code: 3, stdout: '' });
    expect(stderr).toContain(reason);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  });
  it.runIf(existsSync('/dev/full'))('on a full disk: the other file is not there either', async () => {
    const { code, stdout, stderr } = await run([
      ...assess,
      '--record',
      place('whole.svg'),
      '--json',
      '/dev/full',
    ]);
    expect({ code, stdout }).toEqual({ code: 3, stdout: '' });
    expect(stderr).toContain('/dev/full cannot be written: the disk is full');
    expect(existsSync(place('whole.svg'))).toBe(false);
    expect(leftOver()).toEqual([]);
  });
  it.runIf(existsSync('/dev/full'))('when standard output is full', async () => {
    const { execFile } = await import('node:child_process');
    const end = await new Promise<{ code: unknown; stderr: string }>((resolve) =>
      execFile(
        'sh',
        [
          '-c',
          `"${process.execPath}" bin/overdrive-bench.mjs assess "${log}" --band "400..420 psi" --json - > /dev/full`,
        ],
        (error, _, stderr) => resolve({ code: error?.code, stderr }),
      ),
    );
    expect(end.code).toBe(3);
    expect(end.stderr).toContain('standard output cannot be written: the disk is full');
  });
  it('a reader that goes away early is no matter for a stack', async () => {
    const child = start([...assess, '--json', '-']);
    child.stdout?.destroy();
    const { stderr } = await ended(child);
    expect(stderr).toBe('');
  });
});

describe('an output', () => {
  it('replaces an older one as a whole and keeps its mode', async () => {
    const target = place('older.json');
    writeFileSync(target, 'something old', { mode: 0o600 });
    expect((await run([...assess, '--json', target])).code).toBe(0);
    expect(readFileSync(target, 'utf8')).toMatch(/^\{\n {2}"format": "overdrive-bench\/assessment"/u);
    expect(statSync(target).mode & 0o777).toBe(0o600);
    expect(leftOver()).toEqual([]);
  });
  it('goes to where a link leads, and the link stays', async () => {
    copyFileSync(log, place('behind.json'));
    symlinkSync(place('behind.json'), place('front.json'));
    expect((await run([...assess, '--json', place('front.json')])).code).toBe(0);
    expect(readFileSync(place('behind.json'), 'utf8')).toContain('overdrive-bench/assessment');
    expect(statSync(place('front.json')).size).toBe(statSync(place('behind.json')).size);
  });
  it('may be a device', async () => {
    const { code } = await run([...assess, '--json', '/dev/null']);
    expect(code).toBe(0);
    expect(statSync('/dev/null').isFile()).toBe(false);
  });
});

describe('stopped by Ctrl C (exit 130)', () => {
  it('says so, and leaves nothing behind', async () => {
    const target = place('stopped.json');
    const child = start(['assess', '-', '--band', '400..420 psi', '--json', target]);
    const end = ended(child);
    // Rows enough to be read, and the input left open: the command waits for more.
    child.stdin?.write(shortRun(200));
    await new Promise((resolve) => setTimeout(resolve, 3000));
    child.kill('SIGINT');
    const { code, stdout, stderr } = await end;
    expect({ code, stdout }).toEqual({ code: 130, stdout: '' });
    expect(stderr).toBe('Stopped before the end; nothing was written.\n');
    expect(existsSync(target)).toBe(false);
    expect(leftOver()).toEqual([]);
  });
});
