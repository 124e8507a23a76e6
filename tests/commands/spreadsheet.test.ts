import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { keptInASpreadsheet, makeWorkbook } from '../log/make-workbook.ts';
import { run, ownFolder } from './run-command.ts';

test('a spreadsheet file is inspected like a text', async () => {
  const file = path.join(ownFolder(), 'run.xlsx');
  writeFileSync(file, keptInASpreadsheet());
  const { code, stdout, stderr } = await run(['inspect', file, '--json', '-']);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  const { log } = JSON.parse(stdout) as { log: { rows: number; start: string; medianInterval_s: number } };
  expect(log).toMatchObject({
    fileName: 'run.xlsx',
    rows: 6,
    start: '2026-03-04T08:15:00',
    medianInterval_s: 2,
  });
});

test('a packed file that is no spreadsheet is refused in words', async () => {
  const file = path.join(ownFolder(), 'photos.zip');
  writeFileSync(file, Uint8Array.of(0x50, 0x4b, 0x03, 0x04, 1, 2, 3, 4, 5));
  const { code, stderr } = await run(['inspect', file]);
  expect(code).toBe(3);
  expect(stderr).toContain('photos.zip has no table of readings: it is a packed file and no spreadsheet');
});

test('a hidden sheet is left out, and read where the rig file names it', async () => {
  const folder = ownFolder();
  const file = path.join(folder, 'run.xlsx'),
    rig = path.join(folder, 'rig.json');
  const sheet = (first: number): (string | number)[][] => [
    ['t_s', 'p_psi'],
    ...[0, 1, 2, 3].map((i) => [i, first + i]),
  ];
  writeFileSync(file, makeWorkbook({ Old: sheet(100), Run: sheet(400) }, { hidden: ['Old'] }));
  writeFileSync(
    rig,
    JSON.stringify({ format: 'overdrive-bench/rig', version: 1, name: 'r', dialect: { sheet: 'Old' } }),
  );
  const read = async (...more: string[]): Promise<string> =>
    (await run(['inspect', file, '--json', '-', ...more])).stdout;
  expect(await read()).toContain('\\"Run\\" was read');
  expect(await read('--rig', rig)).toContain('\\"Old\\" was read');
});
