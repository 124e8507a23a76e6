import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { SetAside, type Log } from '#formats/log.ts';
import { readLog } from '#log/read-log.ts';

// Real logs under open licences, with what was counted in them by another program (plain Python csv and numpy; each folder's
// truth.json). The folder is not part of the repository: OPEN_DATA_DIR names it.
const folder = process.env['OPEN_DATA_DIR'];

interface TrueChannel {
  n: number;
  empty: number;
  bad_token_total?: number;
  bad_tokens?: Record<string, number>;
  unit?: string;
  min?: number;
  max?: number;
  mean?: number;
  median?: number;
  first?: number;
  last?: number;
}
interface TrueFile {
  header_line: number | null;
  delimiter: string;
  decimal: string;
  data_rows: number;
  encoding: string;
  time?: {
    start: string | number;
    span_s: number;
    median_interval_s: number | null;
    backward_steps: number;
    min_interval_s: number;
  };
  channels: Record<string, TrueChannel>;
}

const truths = (): { name: string; file: string; truth: TrueFile }[] =>
  folder === undefined || !existsSync(folder)
    ? []
    : readdirSync(folder)
        .filter((entry) => existsSync(path.join(folder, entry, 'truth.json')))
        .flatMap((entry) => {
          const all = JSON.parse(readFileSync(path.join(folder, entry, 'truth.json'), 'utf8')) as {
            files: Record<string, TrueFile>;
          };
          return Object.entries(all.files).map(([file, truth]) => ({
            name: `${entry}/${file}`,
            file: path.join(folder, entry, file),
            truth,
          }));
        });

/** Units as the truth files write them, where they are units of ours. */
const ourUnits: Readonly<Record<string, string>> = {
  degC: 'degC',
  degF: 'degF',
  '%': 'percent',
  mbar: 'mbar',
  cmH2O: 'cmH2O',
  mWS: 'mH2O',
};
const encodings: Readonly<Record<string, string>> = {
  'utf-8': 'utf-8',
  'utf-8 +BOM': 'utf-8',
  'utf-16-le +BOM': 'utf-16le',
  'latin-1': 'windows-1252',
};

/** The truth's "name [col 3]" in our channels. */
function channelOf(log: Log, key: string): Log['channels'][number] | undefined {
  const place = Number(/\[col (\d+)\]$/u.exec(key)?.[1]) - 1;
  return log.channels.find((channel) => channel.position === place);
}

const relative = (value: number, truth: number, share: number): void => {
  expect(Math.abs(value - truth)).toBeLessThanOrEqual(share * Math.max(Math.abs(truth), 1e-12));
};

describe.skipIf(truths().length === 0)('real logs', () => {
  test.each(truths())('$name', ({ name, file, truth }) => {
    const result = readLog(readFileSync(file), { fileName: path.basename(file), rig: null, sha256: '' });
    const trueReadings = Object.values(truth.channels).reduce((sum, channel) => sum + channel.n, 0);
    if (trueReadings === 0) {
      expect(result).toEqual({ ok: false, problems: [{ code: 'no-readings', file: path.basename(file) }] });
      return;
    }
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    const log = result.value;
    expect(log.rows).toBe(truth.data_rows);
    expect(log.dialect.delimiter).toBe(truth.delimiter);
    expect(log.dialect.decimal).toBe(truth.decimal);
    expect(log.dialect.headerLine).toBe(truth.header_line);
    expect(log.dialect.encoding).toBe(encodings[truth.encoding]);
    if (truth.time !== undefined) {
      const { time } = truth;
      // Steps back by an hour are taken out of the axis, which the truth file's span leaves in.
      const taken = log.clockSteps.reduce((sum, step) => sum + step.step_s, 0);
      expect(log.duration_s + taken).toBe(time.span_s);
      expect(log.medianInterval_s).toBe(time.median_interval_s);
      expect(log.clockSteps.length).toBe(time.backward_steps);
      if (
        typeof time.start === 'string' &&
        /^\d{4}-/u.test(time.start) &&
        !/[+-]\d{2}:\d{2}$/u.test(log.start ?? '')
      )
        expect(log.start?.slice(0, 19)).toBe(time.start);
      if (typeof time.start === 'number' && log.timeForm.startsWith('epoch'))
        expect(log.origin_s).toBe(time.start);
    }
    let compared = 0;
    for (const [key, trueChannel] of Object.entries(truth.channels)) {
      const channel = channelOf(log, key);
      if (channel === undefined) {
        // A column without a name and without a cell is left out; so is nothing else.
        expect(`${name} ${key}: ${trueChannel.n}`).toBe(`${name} ${key}: 0`);
        expect(trueChannel.bad_token_total ?? 0).toBe(0);
        continue;
      }
      compared++;
      const values = channel.values.filter((_, i) => channel.flags[i] === SetAside.kept).sort();
      expect({ key, n: values.length }).toEqual({ key, n: trueChannel.n });
      const tokens = Object.fromEntries(channel.faultTokens.map(({ token, count }) => [token, count]));
      expect(tokens).toEqual(trueChannel.bad_tokens ?? {});
      const unit = ourUnits[trueChannel.unit ?? ''];
      if (unit !== undefined && !name.startsWith('waterloop')) expect(channel.unit).toBe(unit);
      if (trueChannel.n === 0) continue;
      expect(values[0]).toBe(trueChannel.min);
      expect(values.at(-1)).toBe(trueChannel.max);
      relative(values.reduce((sum, value) => sum + value, 0) / values.length, trueChannel.mean ?? NaN, 1e-12);
      const middle = values.length >> 1;
      const median =
        values.length % 2 === 1
          ? (values[middle] ?? NaN)
          : ((values[middle - 1] ?? NaN) + (values[middle] ?? NaN)) / 2;
      relative(median, trueChannel.median ?? NaN, 1e-12);
      const kept = channel.values.filter((_, i) => channel.flags[i] === SetAside.kept);
      expect(kept[0]).toBe(trueChannel.first);
      expect(kept.at(-1)).toBe(trueChannel.last);
    }
    expect(compared).toBeGreaterThan(0);
  });
});

test.runIf(truths().length === 0)(
  'real logs: SKIPPED, since OPEN_DATA_DIR names no folder with them',
  ({ skip }) => {
    console.warn(
      'tests/log/open-data.test.ts: OPEN_DATA_DIR is not set or has no truth files; no real log was read.',
    );
    skip();
  },
);
