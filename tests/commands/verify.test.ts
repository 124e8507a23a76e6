import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { verificationSchema } from '#formats/verification.ts';
import { withAttachment } from '../record/altered-pdf.ts';
import { madePng } from '../record/made-picture.ts';
import { ownFolder, run, shortRun } from './run-command.ts';

const folder = ownFolder();
const place = (name: string): string => path.join(folder, name);
const json = (name: string, data: object): string => {
  writeFileSync(place(name), JSON.stringify({ version: 1, ...data }));
  return place(name);
};
const log = place('run.csv');
const record = place('record.pdf');
writeFileSync(log, shortRun(600));
writeFileSync(place('logo.png'), madePng(120, 40));
const shop = json('shop.json', {
  format: 'overdrive-bench/shop',
  name: 'Example Bench',
  logo: 'logo.png',
  paper: 'letter',
  language: 'de',
  leaveOut: ['later'],
});
const assess = ['assess', log, '--band', '400..420 psi', '--date', '2026-03-06'];
let made: Awaited<ReturnType<typeof run>>;
beforeAll(async () => {
  made = await run([...assess, '--shop', shop, '--record', record, '--record', place('chart.png')]);
});

describe('a record by the look of the shop', () => {
  it('is written, and says what it lacks', () => {
    expect(made.stderr).toBe('');
    expect(made.stdout).toContain('Before the record goes out');
    expect(made.stdout).toContain('No serial');
  });
  it('has the picture at twice the dots of a screen, and says so', () => {
    const png = readFileSync(place('chart.png'));
    expect(png.subarray(1, 4).toString('latin1')).toBe('PNG');
    const at = png.indexOf('pHYs');
    expect(png.readUInt32BE(at + 4)).toBe(Math.round((192 / 25.4) * 1000));
    expect(png.readUInt32BE(16)).toBeGreaterThan(1200);
  });
  it('is refused with a logo that is none', async () => {
    writeFileSync(place('text.png'), 'no picture');
    const other = json('other.json', { format: 'overdrive-bench/shop', logo: 'text.png' });
    const { code, stderr } = await run([...assess, '--shop', other, '--record', place('none.pdf')]);
    expect(code).toBe(3);
    expect(stderr).toContain('text.png cannot be the logo');
    expect(existsSync(place('none.pdf'))).toBe(false);
  });
});

describe('verify', () => {
  it('agrees with what it wrote (exit 0), the log beside it included', async () => {
    const { code, stdout, stderr } = await run(['verify', record, log]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toContain('Record, log and numbers agree.');
  });
  it('names what does not agree (exit 1), in words and as JSON', async () => {
    const altered = place('altered.pdf');
    writeFileSync(
      altered,
      withAttachment(new Uint8Array(readFileSync(record)), 'assessment.json', (bytes) =>
        Buffer.from(bytes.toString().replace('"value": 410', '"value": 412')),
      ),
    );
    const words = await run(['verify', altered]);
    expect(words.code).toBe(1);
    expect(words.stdout).toMatch(/DIFFERS\s+The assessment is what the log gives/u);
    expect(words.stdout.replace(/\s+/gu, ' ')).toContain('quantities.operatingPressure.value: it says 412');
    const data = await run(['verify', altered, '--json', '-']);
    expect(data.code).toBe(1);
    expect(verificationSchema.parse(JSON.parse(data.stdout)).agrees).toBe(false);
  });
  it('names another log (exit 1)', async () => {
    writeFileSync(place('other.csv'), shortRun(601));
    const { code, stdout } = await run(['verify', record, place('other.csv')]);
    expect(code).toBe(1);
    expect(stdout).toContain('other.csv, from line');
  });
  it.each([
    ['a log', () => log, 'it is no PDF file'],
    ['a file that is not there', () => place('nowhere.pdf'), 'cannot be read'],
    [
      'a record cut off',
      () => {
        writeFileSync(place('cut.pdf'), readFileSync(record).subarray(0, 40_000));
        return place('cut.pdf');
      },
      'cut off',
    ],
  ])('cannot use %s (exit 3)', async (_, name, reason) => {
    const { code, stdout, stderr } = await run(['verify', name()]);
    expect({ code, stdout }).toEqual({ code: 3, stdout: '' });
    expect(stderr).toContain(reason);
  });
  it('is called with a record (exit 4)', async () => {
    expect((await run(['verify'])).code).toBe(4);
  });
});

it('a first test goes into the record, and is held against its own log', async () => {
  writeFileSync(place('first.csv'), shortRun(600).replaceAll('41', '39'));
  const both = place('both.pdf');
  const { code } = await run([...assess, '--first-test', place('first.csv'), '--record', both]);
  expect(code).toBe(0);
  const { stdout } = await run(['verify', both, '--json', '-']);
  const { agrees, checks } = verificationSchema.parse(JSON.parse(stdout));
  expect(agrees).toBe(true);
  expect(checks.map(({ id }) => id)).toContain('first-test-assessment');
});
