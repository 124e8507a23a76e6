import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ownFolder, run, shortRun } from './run-command.ts';

const folder = ownFolder();
const place = (name: string): string => path.join(folder, name);
for (const name of ['out', 'units']) mkdirSync(place(name));
writeFileSync(place('b-1.csv'), shortRun(600));
writeFileSync(place('b-2.csv'), shortRun(600).replaceAll('41', '43'));
writeFileSync(place('empty.csv'), '');
writeFileSync(
  place('units/b-1.json'),
  '{"format":"overdrive-bench/unit-record","version":1,"recordNumber":"R-1","unit":{"serial":"B-1"}}',
);
const into = [
  '--into',
  place('out'),
  '--units',
  place('units'),
  '--band',
  '400..420 psi',
  '--date',
  '2026-03-06',
];

describe('records', () => {
  it('writes one for each log, the same as one by one, and ends as the worst of them', async () => {
    const { code, stdout, stderr } = await run(['records', place('b-1.csv'), place('b-2.csv'), ...into]);
    expect({ code, stderr }).toEqual({ code: 1, stderr: '' });
    expect(stdout).toMatch(/b-1\.pdf: pass; \d+ things are missing/u);
    expect(stdout).toMatch(/b-2\.pdf: fail/u);
    const single = place('single.pdf');
    await run([
      'assess',
      place('b-1.csv'),
      '--band',
      '400..420 psi',
      '--unit-record',
      place('units/b-1.json'),
      '--date',
      '2026-03-06',
      '--record',
      single,
    ]);
    expect(readFileSync(place('out/b-1.pdf')).equals(readFileSync(single))).toBe(true);
  });
  it('shows the units that the shop file or the option names: the same bytes, and they verify', async () => {
    writeFileSync(
      place('shop.json'),
      '{"format":"overdrive-bench/shop","version":1,"units":{"pressure":"kgf/cm2","temperature":"degF"}}',
    );
    const written = async (...more: string[]): Promise<Buffer> => {
      const { code } = await run(['records', place('b-1.csv'), ...into, ...more]);
      expect(code).toBe(0);
      return readFileSync(place('out/b-1.pdf'));
    };
    const plain = await written();
    const byShop = await written('--shop', place('shop.json'));
    expect(byShop.equals(await written('--shown-in', 'degF,kgf/cm2'))).toBe(true);
    expect(byShop.equals(plain)).toBe(false);
    expect((await run(['verify', place('out/b-1.pdf')])).code).toBe(0);
    expect(await written('--shop', place('shop.json'), '--shown-in', 'psi,degC')).toHaveLength(
      (await written('--shown-in', 'psi,degC')).length,
    );
  });
  it('names a log that cannot be judged, and writes the others (exit 3)', async () => {
    const { code, stderr } = await run(['records', place('empty.csv'), place('b-2.csv'), ...into]);
    expect(code).toBe(3);
    expect(stderr).toContain('empty.csv is empty');
    expect(existsSync(place('out/empty.pdf'))).toBe(false);
    expect(existsSync(place('out/b-2.pdf'))).toBe(true);
  });
  it.each([
    [[], 'name the logs'],
    [['a.csv'], '--into'],
    [['a.csv', '--into', folder, '--shown-in', 'psi,bar'], 'one unit of pressure'],
    [['a.csv', '--into', folder, '--shown-in', 'furlong'], 'there are psi, bar'],
    [['a/run.csv', 'c.csv', 'b/run.csv', '--into', folder], 'a/run.csv and b/run.csv would both be'],
  ])('called wrongly: %j (exit 4)', async (given, words) => {
    const { code, stderr } = await run(['records', ...given]);
    expect(code).toBe(4);
    expect(stderr).toContain(words);
  });
});
