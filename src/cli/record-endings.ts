import path from 'node:path';

/** What `--record` can write, by the ending of the file. */
export const recordEndings = ['.pdf', '.html', '.svg', '.png', '.csv'] as const;
export type RecordEnding = (typeof recordEndings)[number];

/** The ending of a record's name, null where it says nothing. */
export function recordEnding(name: string): RecordEnding | null {
  const ending = path.extname(name).toLowerCase();
  return recordEndings.find((known) => known === ending) ?? null;
}
