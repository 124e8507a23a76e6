import path from 'node:path';

/** What `--record` can write, by the ending of the file. */
export const recordEndings = ['.pdf', '.html', '.svg', '.png', '.csv', '.results.csv'] as const;
export type RecordEnding = (typeof recordEndings)[number];

/** The ending of a record's name, null where it says nothing. */
export function recordEnding(name: string): RecordEnding | null {
  const bare = name.toLowerCase();
  // The longer one first: it ends in the shorter. A name that is nothing else is the run's.
  const ending = bare.endsWith('.results.csv') ? '.results.csv' : path.extname(bare);
  return recordEndings.find((known) => known === ending) ?? null;
}
