import { describe, expect, test } from 'vitest';
import type { Log } from '#formats/log.ts';
import { joinLogs } from '#log/join-logs.ts';
import { readLog } from '#log/read-log.ts';

let files = 0;
function log(text: string, fileName: string): Log {
  const result = readLog(new TextEncoder().encode(text), { fileName, rig: null, sha256: `hash ${files++}` });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}
function joined(...logs: Log[]): Log {
  const result = joinLogs(logs);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}
const clock = (from: string, values: number[], heading = 'Time,P [psi]'): string => {
  const start = Date.parse(`${from}Z`);
  return `${heading}\n${values.map((value, i) => `${new Date(start + 1000 * i).toISOString().slice(0, 19)},${value.toFixed(1)}`).join('\n')}\n`;
};

describe('files of one run', () => {
  const first = log(clock('2026-03-04T08:00:00', [1, 2, 3, 4]), 'a.csv');
  const second = log(clock('2026-03-04T08:00:04', [5, 6, 7]), 'b.csv');
  const later = log(clock('2026-03-04T08:01:00', [8, 9]), 'c.csv');

  test('a single file is itself', () => {
    expect(joined(first)).toBe(first);
  });
  test('are put in the order of their clocks, and what lies between is a gap', () => {
    const run = joined(later, first, second);
    expect([...run.time_s]).toEqual([0, 1, 2, 3, 4, 5, 6, 60, 61]);
    expect([...(run.channels[0]?.values ?? [])]).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect(run.gaps).toEqual([{ start_s: 6, end_s: 60 }]);
    expect(run.parts.map((part) => part.fileName)).toEqual(['a.csv', 'b.csv', 'c.csv']);
    expect(run.source).toEqual({
      fileName: 'a.csv',
      bytes: first.source.bytes + second.source.bytes + later.source.bytes,
      sha256: null,
    });
    expect(run.start).toBe('2026-03-04T08:00:00');
    expect(run.duration_s).toBe(61);
  });
  test('five intervals between two files are a gap, four are none', () => {
    const from = (at: string): Log => log(clock(`2026-03-04T08:00:0${at}`, [5, 6]), `${at}.csv`);
    expect(joined(first, from('8')).gaps).toEqual([{ start_s: 3, end_s: 8 }]);
    expect(joined(first, from('7')).gaps).toEqual([]);
  });
  test('parts with a tenth of a second between rows keep exact times', () => {
    const tenths = (from: number): string =>
      `Time,P [psi]\n${Array.from({ length: 5 }, (_, i) => `2026-03-04T08:00:00.${from + i},${i}.5`).join('\n')}\n`;
    expect([...joined(log(tenths(0), 'a'), log(tenths(5), 'b')).time_s]).toEqual([
      0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9,
    ]);
  });
  test('the same file twice counts once', () => {
    const run = joined(first, second, first);
    expect(run.rows).toBe(7);
    expect(run.remarks.map((remark) => remark.code)).toContain('part-twice');
  });
  test('rows that a part repeats of the one before count once, an hour of them too', () => {
    const noise = (from: number, count: number): number[] =>
      Array.from({ length: count }, (_, i) => ((from + i) * 7919) % 1000);
    const long = log(clock('2026-03-04T08:00:00', noise(0, 7200)), 'a.csv');
    const overlapping = log(clock('2026-03-04T09:00:00', noise(3600, 7200)), 'b.csv');
    const run = joined(long, overlapping);
    expect(run.rows).toBe(10_800);
    expect(run.clockSteps).toEqual([]);
    expect([...(run.channels[0]?.values ?? [])]).toEqual(noise(0, 10_800));
    expect(run.remarks.map((remark) => remark.code)).toEqual(['part-repeats']);
    // One that lies within another, whichever comes first.
    const within = log(clock('2026-03-04T08:10:00', noise(600, 100)), 'c.csv');
    expect(joined(within, long).rows).toBe(7200);
    // Other readings at the same times are another matter.
    const other = log(clock('2026-03-04T08:30:00', noise(5, 7200)), 'd.csv');
    expect(joined(long, other).clockSteps.map(({ cuts }) => cuts)).toEqual([true]);
  });
  test('a count that begins again repeats nothing', () => {
    const count = (name: string): Log => log('t_s,p_psi\n0,400\n1,400\n2,400\n', name);
    expect(joined(count('a.csv'), count('b.csv')).rows).toBe(6);
  });
  test('a column without a unit in one part is said', () => {
    const bare = log(clock('2026-03-04T08:00:04', [28, 28], 'Time,P'), 'b.csv');
    const named = log(clock('2026-03-04T08:00:00', [400, 401], 'Time,P\n,psi'), 'a.csv');
    expect(joined(named, bare).remarks.map((remark) => remark.code)).toEqual(['part-without-unit']);
  });
  test('dates that read in two orders do not place a part a month away', () => {
    const dated = (date: string, from: number, name: string): Log =>
      log(`Time,P [psi]\n${date} 23:59:${from},1.0\n${date} 23:59:${from + 1},2.0\n`, name);
    const days = joinLogs([dated('04/03/2026', 50, 'a.csv'), dated('04/05/2026', 52, 'b.csv')]);
    expect(days.ok ? [] : days.problems.map(({ code }) => code)).toEqual(['parts-do-not-join']);
    expect(joined(dated('04/03/2026', 50, 'a.csv'), dated('04/03/2026', 52, 'b.csv')).rows).toBe(4);
  });
  test('a clock set back by an hour between two files is taken out', () => {
    const back = log(clock('2026-03-04T07:00:04', [5, 6]), 'b.csv');
    // Their clocks alone would put the second first; only then is it no step at all but an hour between them.
    const run = joined(first, back);
    expect(run.parts.map((part) => part.fileName)).toEqual(['b.csv', 'a.csv']);
    expect(run.gaps.length).toBe(1);
  });
  test('files that overlap by other than hours cut the run', () => {
    const overlapping = log(clock('2026-03-04T08:00:02', [5, 6]), 'b.csv');
    const run = joined(first, overlapping);
    expect(run.clockSteps).toEqual([{ at_s: 3, step_s: -2, cuts: true }]);
    expect([...run.time_s]).toEqual([0, 1, 2, 3, 4, 5]);
  });
  test('columns are joined by name, wherever they stand; what a part lacks is missing there', () => {
    const swapped = log(
      'Time,Oil [degC],P [psi]\n2026-03-04T08:00:04,55.5,5.5\n2026-03-04T08:00:05,55.6,6.5\n',
      'b.csv',
    );
    const run = joined(first, swapped);
    expect(run.channels.map((channel) => [channel.column, channel.role])).toEqual([
      ['P [psi]', 'pressure'],
      ['Oil [degC]', 'oil-temperature'],
    ]);
    expect([...(run.channels[0]?.values ?? [])]).toEqual([1, 2, 3, 4, 5.5, 6.5]);
    expect([...(run.channels[1]?.values ?? [])]).toEqual([NaN, NaN, NaN, NaN, 55.5, 55.6]);
    expect([...(run.channels[1]?.flags ?? [])]).toEqual([1, 1, 1, 1, 0, 0]);
  });
  test('units of one kind are brought together, others are refused', () => {
    const head = (unit: string): string =>
      `Time,P,Unit\n2026-03-04T08:00:0`.replace('P', `P`) +
      `4,100.5,${unit}\n2026-03-04T08:00:05,200.5,${unit}\n`;
    const psi = log('Time,P,Unit\n2026-03-04T08:00:00,1.5,kPa\n2026-03-04T08:00:01,2.5,kPa\n', 'a.csv');
    const run = joined(psi, log(head('bar'), 'b.csv'));
    expect(run.channels[0]?.unit).toBe('kPa');
    expect([...(run.channels[0]?.values ?? [])]).toEqual([1.5, 2.5, 10050, 20050]);
    const refused = joinLogs([psi, log(head('degC'), 'b.csv')]);
    expect(refused.ok ? [] : refused.problems.map((problem) => problem.code)).toEqual(['parts-do-not-join']);
  });
  test('a local time and a time with its offset do not join', () => {
    const zoned = log(clock('2026-03-04T08:00:04', [5, 6]).replaceAll(/(T\S{8})/gu, '$1Z'), 'b.csv');
    const refused = joinLogs([first, zoned]);
    expect(refused.ok ? [] : refused.problems.map((problem) => problem.code)).toEqual(['parts-do-not-join']);
  });
  test('times of day run over midnight in the order given', () => {
    const day = (times: string[]): string =>
      `Time,P [psi]\n${times.map((time) => `${time},1.5`).join('\n')}\n`;
    const run = joined(
      log(day(['23:59:57', '23:59:58', '23:59:59']), 'a'),
      log(day(['00:00:00', '00:00:01']), 'b'),
    );
    expect([...run.time_s]).toEqual([0, 1, 2, 3, 4]);
    expect(run.clockSteps).toEqual([]);
  });
  test('a count that goes on joins, one that begins again cuts', () => {
    const count = (from: number): string =>
      `t_s,p_psi\n${[0, 1, 2].map((i) => `${from + i},${i}.5`).join('\n')}\n`;
    expect([...joined(log(count(3), 'b'), log(count(0), 'a')).time_s]).toEqual([0, 1, 2, 3, 4, 5]);
    const again = joined(log(count(0), 'a'), log(count(0), 'b'));
    expect([...again.time_s]).toEqual([0, 1, 2, 3, 4, 5]);
    expect(again.clockSteps).toEqual([{ at_s: 2, step_s: -3, cuts: true }]);
    expect(again.remarks.map((remark) => remark.code)).toContain('part-begins-again');
  });

  const monthFirst = (date: string, from: number, heading = 'Time,P [psi]'): string =>
    `${heading}\n${[0, 1, 2].map((i) => `${date} ${from < 12 ? '00' : '23'}:${from < 12 ? '00' : '59'}:${String((from < 12 ? 0 : 57) + i).padStart(2, '0')},41${i}.5`).join('\n')}\n`;
  test('a file whose dates read in two orders is read as the others show', () => {
    const run = joined(log(monthFirst('03/12/2026', 23), 'a.csv'), log(monthFirst('03/13/2026', 0), 'b.csv'));
    expect(run.parts.map((part) => part.fileName)).toEqual(['a.csv', 'b.csv']);
    expect([...run.time_s]).toEqual([0, 1, 2, 3, 4, 5]);
    expect(run.start).toBe('2026-03-12T23:59:57');
    expect(run.remarks).toEqual([]);
  });
  test('where none shows the order, the one by which they lie closer together', () => {
    const run = joined(log(monthFirst('04/03/2026', 23), 'a.csv'), log(monthFirst('04/04/2026', 0), 'b.csv'));
    expect([...run.time_s]).toEqual([0, 1, 2, 3, 4, 5]);
    expect(run.start).toBe('2026-04-03T23:59:57');
    expect(run.remarks).toEqual([]);
  });
  test('of one day alone the order stays open', () => {
    const run = joined(log(monthFirst('04/03/2026', 0), 'a.csv'), log(monthFirst('04/03/2026', 23), 'b.csv'));
    expect(run.start).toBeNull();
    expect(run.duration_s).toBe(86399);
  });
  test('a file without a heading has the columns of the one before', () => {
    const run = joined(
      first,
      log(clock('2026-03-04T08:00:04', [5, 6, 7]).split('\n').slice(1).join('\n'), 'b.csv'),
    );
    expect(run.channels.map(({ column, role, unit }) => ({ column, role, unit }))).toEqual([
      { column: 'P [psi]', role: 'pressure', unit: 'psi' },
    ]);
    expect([...(run.channels[0]?.values ?? [])]).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(run.remarks.map((remark) => remark.code)).toEqual(['part-without-heading']);
  });
  test('columns of other names that have one role are one, in one unit', () => {
    const run = joined(first, log(clock('2026-03-04T08:00:04', [700], 'Time,Pressure [kPa]'), 'b.csv'));
    expect(run.channels.map(({ column, unit }) => ({ column, unit }))).toEqual([
      { column: 'P [psi]', unit: 'psi' },
    ]);
    expect(run.channels[0]?.values[4]).toBeCloseTo(700 / 6.894757, 4);
    expect(run.remarks.map((remark) => remark.code)).toEqual(['columns-joined-by-role']);
  });
  test('counts that begin again are joined by the clock beside them', () => {
    const part = (from: number): string =>
      `Clock,t (s),P [psi]\n${[0, 1, 2].map((i) => `2026-03-04 08:00:0${from + i},${i},41${i}.5`).join('\n')}\n`;
    const run = joined(log(part(4), 'b.csv'), log(part(0), 'a.csv'));
    expect([...run.time_s]).toEqual([0, 1, 2, 4, 5, 6]);
    expect(run.clockSteps).toEqual([]);
  });
  test('numbers of samples that go on join the run', () => {
    const rig = { format: 'overdrive-bench/rig', version: 1, name: 'r', time: { interval_s: 2 } } as const;
    const part = (from: number): Log => {
      const text = `No,P [psi]\n${[0, 1, 2].map((i) => `${from + i},41${i}.5`).join('\n')}\n`;
      const read = readLog(new TextEncoder().encode(text), {
        fileName: `${from}.csv`,
        rig,
        sha256: `${from}`,
      });
      if (!read.ok) throw new Error(JSON.stringify(read.problems));
      return read.value;
    };
    expect([...joined(part(7), part(10)).time_s]).toEqual([0, 2, 4, 6, 8, 10]);
    expect(joined(part(7), part(7)).clockSteps.map(({ cuts }) => cuts)).toEqual([]);
  });
});
