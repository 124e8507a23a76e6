import { expect, test } from 'vitest';
import { readFile } from '#worker/read-file.ts';
import { keptInASpreadsheet } from '../log/make-workbook.ts';

test('a spreadsheet file is read, and shown by the text of its sheet', async () => {
  const blob = new Blob([Uint8Array.from(keptInASpreadsheet())]);
  const read = await readFile(
    { key: 'k', blob, name: 'run.xlsx' },
    { rig: null, overrides: [] },
    () => undefined,
    () => false,
  );
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { log, excerpt } = read.value;
  expect(log.rows).toBe(6);
  expect(log.source.bytes).toBe(blob.size);
  expect(log.source.sha256).toMatch(/^[0-9a-f]{64}$/u);
  expect(excerpt.lines[0]).toMatchObject({
    line: 1,
    kind: 'heading',
    cells: ['Time', 'Pressure [psi]', 'Oil [°C]'],
  });
});
