import { SetAside, type SetAsideKind } from '#formats/log.ts';
import type { Series } from '#formats/series.ts';

/** Neighbouring readings that were set aside for one reason. */
export interface SetAsideRun {
  channel: 'pressure' | 'oil';
  kind: SetAsideKind;
  /** Rows from … to (the second not included). */
  from: number;
  to: number;
  start_s: number;
  end_s: number;
}

const kindOf: readonly (SetAsideKind | null)[] = [
  null,
  'missing',
  'faultToken',
  'outOfRange',
  'stuck',
  'spike',
];

/** Why a reading was set aside, in words that stand after a count or alone, and what that is. */
export const setAsideWords: Readonly<Record<SetAsideKind, { one: string; many: string; means: string }>> = {
  missing: { one: 'missing', many: 'missing', means: 'no value in the cell' },
  faultToken: { one: 'fault token', many: 'fault tokens', means: 'a word in place of a number' },
  outOfRange: { one: 'out of range', many: 'out of range', means: 'no value that the gauge can read' },
  stuck: { one: 'stuck', many: 'stuck', means: 'one value repeated, as a frozen sensor gives' },
  spike: { one: 'spike', many: 'spikes', means: 'far off their neighbours' },
};

/** The kind behind a sample's byte; null for a kept reading. */
export const setAsideKind = (flag: number | undefined): SetAsideKind | null => kindOf[flag ?? 0] ?? null;

/** Flags in a number. */
const WORD = 8;

/** Flags eight at a time, 0 where all eight are of kept readings; none where they do not begin at a word. */
const wordsOf = (flags: Uint8Array): Float64Array =>
  flags.byteOffset % WORD === 0
    ? new Float64Array(flags.buffer, flags.byteOffset, Math.floor(flags.length / WORD))
    : new Float64Array();

/** First row from a row on that was set aside; the number of rows where there is none. Few are, of millions. */
function nextSetAside(flags: Uint8Array, words: Float64Array, from: number): number {
  let row = from;
  const pass = (to: number): void => {
    while (row < to && flags[row] === SetAside.kept) row++;
  };
  pass(Math.min(flags.length, Math.ceil(row / WORD) * WORD));
  if (row % WORD === 0) {
    let word = row / WORD;
    while (word < words.length && words[word] === 0) word++;
    row = word * WORD;
  }
  pass(flags.length);
  return row;
}

/** Everything that was set aside of pressure and oil, in order of time. */
export function setAsideOf({ time_s, pressure, oil }: Series): SetAsideRun[] {
  const runs: SetAsideRun[] = [];
  const scan = (channel: 'pressure' | 'oil', flags: Uint8Array): void => {
    const words = wordsOf(flags);
    for (let from = nextSetAside(flags, words, 0); from < flags.length;) {
      const flag = flags[from];
      let to = from + 1;
      while (to < flags.length && flags[to] === flag) to++;
      const kind = setAsideKind(flag);
      if (kind !== null)
        runs.push({ channel, kind, from, to, start_s: time_s[from] ?? 0, end_s: time_s[to - 1] ?? 0 });
      from = nextSetAside(flags, words, to);
    }
  };
  if (pressure !== null) scan('pressure', pressure.flags);
  if (oil !== null) scan('oil', oil.flags);
  return runs.sort((a, b) => a.from - b.from);
}

export const countOf = (runs: readonly SetAsideRun[]): number =>
  runs.reduce((sum, { from, to }) => sum + to - from, 0);
