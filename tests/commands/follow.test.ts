import type { ChildProcess } from 'node:child_process';
import { createHash } from 'node:crypto';
import { appendFileSync, existsSync, readFileSync, renameSync, truncateSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { assessmentSchema, type Assessment } from '#formats/assessment.ts';
import { notAnAlarm } from '#formats/so-far.ts';
import { keptInASpreadsheet } from '../log/make-workbook.ts';
import { ended, ownFolder, run, shortRun, start, type Ended } from './run-command.ts';

const folder = ownFolder();
const heading = 'time_s,pressure (psi),oil (°C)\n';
/** Rows of a run that engages after 30 s and goes on; the pressure creeps up by 3.6 psi an hour, hidden in a little noise. */
function rows(from: number, to: number): string {
  let text = '';
  for (let t = from; t < to; t++) {
    const pressure = t < 30 ? 0 : 408 + t / 1000 + (((t * 7) % 5) - 2) / 10;
    text += `${t},${pressure.toFixed(1)},${(60 + ((t * 3) % 7) / 10).toFixed(1)}\n`;
  }
  return text;
}
const spec = path.join(folder, 'spec.json');
writeFileSync(
  spec,
  JSON.stringify({
    format: 'overdrive-bench/spec',
    version: 1,
    name: 'test',
    pressureBand: { low: 400, high: 420, unit: 'psi' },
    runLength: { atLeast_h: 1 },
  }),
);

/** A command that follows, with what it has said so far. */
class Following {
  private readonly child: ChildProcess;
  private readonly end: Promise<Ended>;
  said = '';
  complained = '';

  constructor(...argv: string[]) {
    this.child = start(['assess', ...argv, '--follow', '--every', '0.2']);
    this.child.stdout?.on('data', (piece: Buffer) => (this.said += piece.toString()));
    this.child.stderr?.on('data', (piece: Buffer) => (this.complained += piece.toString()));
    this.end = ended(this.child);
  }
  /** Waits for words; generous, since the machine may be busy. */
  async hears(words: string | RegExp, of: () => string = () => this.said): Promise<void> {
    const heard = (): boolean => (typeof words === 'string' ? of().includes(words) : words.test(of()));
    for (let i = 0; i < 1200 && !heard(); i++) await new Promise((resolve) => setTimeout(resolve, 50));
    expect(of()).toMatch(words);
  }
  write(text: string): void {
    this.child.stdin?.write(text);
  }
  endInput(): void {
    this.child.stdin?.end();
  }
  stop(): Promise<Ended> {
    this.child.kill('SIGINT');
    return this.end;
  }
  ended(): Promise<Ended> {
    return this.end;
  }
}
const assessmentIn = (text: string): Assessment => assessmentSchema.parse(JSON.parse(text));

describe('assess --follow', () => {
  it('reads what a growing file gets, a line for each look, and ends at Ctrl C with the last state', async () => {
    const log = path.join(folder, 'growing.csv'),
      json = path.join(folder, 'growing.json');
    writeFileSync(log, heading + rows(0, 900));
    const following = new Following(log, '--spec', spec, '--json', json);
    await following.hears('0:14:59');
    expect(following.said).toContain(notAnAlarm);
    expect(following.said).toMatch(
      /0:14:59 {2}408\.\d psi, oil 60\.\d °C, hold; 14 min run, 46 min to go; no drift/u,
    );
    expect(assessmentIn(readFileSync(json, 'utf8'))).toMatchObject({ complete: false, log: { rows: 900 } });

    appendFileSync(log, `${rows(900, 2400)}2400,41`);
    await following.hears('0:39:59');
    expect(following.said).toMatch(
      /drift 3\.\d+ psi\/h, rising: at the end of the run 41\d\.\d psi, out of the band in 2 h \d+ min/u,
    );
    appendFileSync(log, `0.4,60.5\n`);
    await following.hears('0:40:00');

    const { code, stdout, stderr } = await following.stop();
    expect({ code, stderr }).toEqual({ code: 2, stderr: '' });
    const last = stdout.slice(stdout.lastIndexOf('0:40:00  '));
    expect(last).toContain('\nNot assessed  growing.csv\n');
    expect(last).toContain('the run is still going on');
    const assessment = assessmentIn(readFileSync(json, 'utf8'));
    expect(assessment).toMatchObject({ complete: false, verdict: 'not-assessed', log: { rows: 2401 } });
    expect(assessment.log.sha256).toBe(createHash('sha256').update(readFileSync(log)).digest('hex'));
    expect(assessment.criteria.map(({ id, verdict }) => [id, verdict])).toEqual([
      ['operating-pressure', 'not-assessed'],
      ['run-length', 'not-assessed'],
    ]);

    // The same bytes, when the run is over, are judged as a whole: but for that, nothing differs.
    const whole = assessmentIn((await run(['assess', log, '--spec', spec, '--json', '-'])).stdout);
    expect(whole).toMatchObject({
      complete: true,
      quantities: assessment.quantities,
      phases: assessment.phases,
    });
    expect(whole.verdict).toBe('fail');
  }, 180_000);

  it('with --json - gives the last state alone, and says what it is on standard error', async () => {
    const log = path.join(folder, 'data.csv');
    writeFileSync(log, heading + rows(0, 900));
    const following = new Following(log, '--spec', spec, '--json', '-');
    await following.hears(notAnAlarm, () => following.complained);
    await new Promise((resolve) => setTimeout(resolve, 500));
    appendFileSync(log, rows(900, 1000));
    const { code, stdout } = await following.stop();
    expect(code).toBe(2);
    // One more look is taken at the end.
    expect(assessmentIn(stdout)).toMatchObject({ complete: false, log: { rows: 1000 } });
  }, 180_000);

  it('says that a file was cut or replaced, and reads the new one from its start', async () => {
    const log = path.join(folder, 'replaced.csv');
    writeFileSync(log, heading + rows(0, 300));
    const following = new Following(log, '--spec', spec);
    await following.hears('0:04:59');
    const other = path.join(folder, 'new.csv');
    writeFileSync(other, heading + rows(0, 500));
    renameSync(other, log);
    await following.hears('0:08:19');
    expect(following.said).toMatch(/begun anew; what was read before is of another run[^]*0:08:19/u);
    truncateSync(log, 0);
    appendFileSync(log, heading + rows(0, 200));
    await following.hears('0:03:19');
    expect(following.said.match(/begun anew/gu)?.length).toBeGreaterThanOrEqual(2);
    expect((await following.stop()).code).toBe(2);
  }, 180_000);

  it('waits for an empty file and a heading without rows', async () => {
    const log = path.join(folder, 'early.csv');
    writeFileSync(log, '');
    const following = new Following(log, '--spec', spec);
    await following.hears('Not yet: early.csv is empty.');
    appendFileSync(log, heading);
    await following.hears('no row with a reading');
    appendFileSync(log, rows(0, 120));
    await following.hears('0:01:59');
    expect((await following.stop()).code).toBe(2);
  }, 180_000);

  it('follows what a program writes into standard input, until that ends', async () => {
    const following = new Following('-', '--spec', spec);
    following.write(heading + rows(0, 300));
    await following.hears('0:04:59');
    following.write(rows(300, 400));
    await following.hears('0:06:39');
    following.endInput();
    const { code, stdout } = await following.ended();
    expect(code).toBe(2);
    expect(stdout).toContain('Not assessed  standard input');
  }, 180_000);

  it('takes the parts that are finished once, and follows the last', async () => {
    const [first, second] = [path.join(folder, 'part-1.csv'), path.join(folder, 'part-2.csv')];
    writeFileSync(first, heading + rows(0, 600));
    writeFileSync(second, heading + rows(600, 700));
    const following = new Following(first, second, '--spec', spec);
    await following.hears('0:11:39');
    appendFileSync(second, rows(700, 800));
    await following.hears('0:13:19');
    expect((await following.stop()).code).toBe(2);
  }, 180_000);

  it('writes the record of the last state, which says that the run is still going on', async () => {
    const log = path.join(folder, 'record.csv'),
      page = path.join(folder, 'record.html');
    writeFileSync(log, heading + rows(0, 900));
    const following = new Following(log, '--spec', spec, '--record', page);
    await following.hears('0:14:59');
    expect(existsSync(page)).toBe(false);
    await following.stop();
    expect(readFileSync(page, 'utf8')).toMatch(/still (?:running|going on)/u);
  }, 180_000);

  it('ends with a reason where more rows mend nothing: a pressure without a unit', async () => {
    const log = path.join(folder, 'no-unit.csv');
    writeFileSync(log, heading.replace(' (psi)', '') + rows(0, 100));
    const following = new Following(log, '--spec', spec);
    await following.hears('Not yet:');
    appendFileSync(log, rows(100, 200));
    const { code, stderr } = await following.ended();
    expect(code).toBe(3);
    expect(stderr).toContain('has no unit in its heading');
  }, 180_000);

  it('follows no spreadsheet file, and no file that is not there', async () => {
    const book = path.join(folder, 'run.xlsx');
    writeFileSync(book, keptInASpreadsheet());
    expect(await run(['assess', book, '--spec', spec, '--follow'])).toMatchObject({
      code: 3,
      stderr: expect.stringContaining('cannot be followed') as string,
    });
    expect(await run(['assess', path.join(folder, 'none.csv'), '--spec', spec, '--follow'])).toMatchObject({
      code: 3,
      stderr: expect.stringContaining('there is no such file') as string,
    });
  }, 180_000);

  it('is called wrongly with --every alone, or never to look', async () => {
    const log = path.join(folder, 'usage.csv');
    writeFileSync(log, shortRun());
    expect((await run(['assess', log, '--every', '2'])).stderr).toContain('--every goes with --follow');
    expect((await run(['assess', log, '--follow', '--every', '0'])).code).toBe(4);
    expect((await run(['assess', log, '--follow', '--every', 'often'])).code).toBe(4);
  }, 180_000);
});
