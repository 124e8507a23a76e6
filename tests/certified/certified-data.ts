import { readFileSync } from 'node:fs';

/** Columns of one of the certified data files, by name; lines that start with # are its header. */
export function certifiedData(file: string): Record<string, number[]> {
  const lines = readFileSync(new URL(`data/${file}.csv`, import.meta.url), 'utf8')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'));
  const names = (lines[0] ?? '').split(',');
  const rows = lines.slice(1).map((line) => line.split(',').map(Number));
  return Object.fromEntries(names.map((name, column) => [name, rows.map((row) => row[column] ?? NaN)]));
}
