import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

interface Expected {
  runs: { log: string; verdict?: string }[];
}
const isExpected = (data: unknown): data is Expected =>
  typeof data === 'object' && data !== null && 'runs' in data && Array.isArray(data.runs);

describe('the table in sample-runs/README.md', () => {
  const expected: unknown = JSON.parse(readFileSync('sample-runs/expected.json', 'utf8'));
  const rows = readFileSync('sample-runs/README.md', 'utf8')
    .split('\n')
    .filter((line) => /^\| \S+\.csv/u.test(line))
    .map((line) => line.split('|').map((cell) => cell.trim()));
  it('names logs that are there, each with what expected.json says', () => {
    if (!isExpected(expected)) throw new Error('expected.json has no runs');
    expect(rows.length).toBeGreaterThan(30);
    for (const [, log = ''] of rows) {
      for (const name of log.split(/, | and | \+ /u))
        expect(existsSync(`sample-runs/logs/${name}`), name).toBe(true);
      expect(
        expected.runs.some((run) => log.startsWith(run.log)),
        log,
      ).toBe(true);
    }
  });
});
