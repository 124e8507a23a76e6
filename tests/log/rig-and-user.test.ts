import { describe, expect, test } from 'vitest';
import type { Log } from '#formats/log.ts';
import { rigSchema, type Rig } from '#formats/rig.ts';
import { readLog, type ColumnOverride } from '#log/read-log.ts';

const rigOf = (parts: Partial<Rig>): Rig =>
  rigSchema.parse({ format: 'overdrive-bench/rig', version: 1, name: 'test', ...parts });
const read = (
  text: string,
  rig: Partial<Rig> | null,
  overrides: ColumnOverride[] = [],
): ReturnType<typeof readLog> =>
  readLog(new TextEncoder().encode(text), {
    fileName: 'run.csv',
    rig: rig === null ? null : rigOf(rig),
    overrides,
    sha256: null,
  });
function logOf(text: string, rig: Partial<Rig> | null, overrides: ColumnOverride[] = []): Log {
  const result = read(text, rig, overrides);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}
const problems = (text: string, rig: Partial<Rig> | null, overrides: ColumnOverride[] = []): unknown[] => {
  const result = read(text, rig, overrides);
  return result.ok ? [] : result.problems;
};
const roles = (log: Log): (string | null)[][] =>
  log.channels.map(({ column, role, unit, unitFrom }) => [column, role, unit, unitFrom]);

const two =
  'Time,P,P,Oil\n2026-03-04 08:15:00,1.5,401.5,55.0\n2026-03-04 08:15:01,2.5,402.5,55.1\n2026-03-04 08:15:02,3.5,403.5,55.2\n';

describe('the rig file says', () => {
  test('which column is what, by name, by number of the name, by place', () => {
    expect(
      roles(
        logOf(two, {
          channels: [
            { column: 'P#2', role: 'pressure', unit: 'psi' },
            { column: 'P', role: 'ignored' },
            { column: 'column 4', role: 'oil-temperature', unit: 'degC' },
          ],
        }),
      ),
    ).toEqual([
      ['P', 'ignored', null, null],
      ['P#2', 'pressure', 'psi', 'rig'],
      ['Oil', 'oil-temperature', 'degC', 'rig'],
    ]);
  });
  test('one pressure, and the other candidates are none', () => {
    const log = logOf(two, { channels: [{ column: 'P', role: 'pressure', unit: 'bar' }] });
    expect(roles(log).map((channel) => channel[1])).toEqual(['pressure', null, null]);
    expect(log.roleCandidates).toEqual([]);
  });
  test('a column that the log lacks: refused, with the columns that it has', () => {
    expect(problems(two, { channels: [{ column: 'Druck', role: 'pressure' }] })).toEqual([
      { code: 'column-not-in-log', file: 'run.csv', column: 'Druck', columns: ['Time', 'P', 'P#2', 'Oil'] },
    ]);
    expect(problems(two, { time: { column: 'Zeit' } })).toEqual([
      { code: 'column-not-in-log', file: 'run.csv', column: 'Zeit', columns: ['Time', 'P', 'P#2', 'Oil'] },
    ]);
  });
  test('a role used twice: refused; "ignored" may repeat', () => {
    expect(
      problems(two, {
        channels: [
          { column: 'P', role: 'pressure' },
          { column: 'P#2', role: 'pressure' },
        ],
      }),
    ).toEqual([{ code: 'role-used-twice', file: 'run.csv', role: 'pressure', columns: ['P', 'P#2'] }]);
    expect(
      problems(two, {
        channels: [
          { column: 'P', role: 'ignored' },
          { column: 'P#2', role: 'ignored' },
        ],
      }),
    ).toEqual([]);
  });
  test('a unit of the wrong kind: refused', () => {
    expect(problems(two, { channels: [{ column: 'P', role: 'pressure', unit: 'degC' }] })).toEqual([
      { code: 'unit-of-wrong-kind', file: 'run.csv', column: 'P', unit: 'degC', role: 'pressure' },
    ]);
  });
  test('another unit than the file: it is used, and the difference is told', () => {
    const log = logOf('t_s,p_psi\n0,27.5\n1,27.6\n', {
      channels: [{ column: 'p_psi', role: 'pressure', unit: 'bar' }],
    });
    expect(roles(log)).toEqual([['p_psi', 'pressure', 'bar', 'rig']]);
    expect(log.remarks.map((remark) => remark.code)).toEqual(['unit-differs-from-file']);
  });
  test('a signal where the file says a pressure: read as told, and the difference is told', () => {
    const log = logOf('t_s,p [bar]\n0,12\n1,20\n', {
      channels: [
        { column: 'p [bar]', role: 'pressure', unit: 'bar', signal: { kind: '4-20mA', low: 0, high: 40 } },
      ],
    });
    expect([...(log.channels[0]?.values ?? [])]).toEqual([20, 40]);
    expect(log.remarks.map((remark) => remark.code)).toEqual(['signal-not-in-file']);
  });
  test('minutes where the heading says seconds; a role for the time: told', () => {
    const log = logOf('t_s,p_psi\n0,1.5\n1,2.5\n', {
      time: { column: 't_s', form: 'elapsed-minutes' },
      channels: [{ column: 't_s', role: 'pressure' }],
    });
    expect([...log.time_s]).toEqual([0, 60]);
    expect(log.remarks.map((remark) => remark.code)).toEqual([
      'unit-differs-from-file',
      'channel-is-the-time',
    ]);
  });
  test('one column twice: refused', () => {
    expect(() =>
      rigOf({
        channels: [
          { column: 'P', unit: 'psi' },
          { column: 'P', unit: 'bar' },
        ],
      }),
    ).toThrow(/named twice/u);
  });
  test('the order of day and month', () => {
    const text = 'Time,p_psi\n03/04/2026 08:15:00,1.5\n03/04/2026 08:15:01,2.5\n';
    expect(logOf(text, { time: { dateOrder: 'day-month-year' } }).start).toBe('2026-04-03T08:15:00');
    expect(logOf(text, { time: { dateOrder: 'month-day-year' } }).start).toBe('2026-03-04T08:15:00');
    expect(logOf(text, { time: { dateOrder: 'month-day-year' } }).remarks).toEqual([]);
  });
  test('which column is the time, and its form', () => {
    const text = 'A,B,p_psi\n5,0.5,1.5\n6,1.0,2.5\n7,1.5,3.5\n';
    expect(problems(text, null)).toEqual([
      { code: 'no-usable-time', file: 'run.csv', line: null, text: null },
    ]);
    const log = logOf(text, { time: { column: 'B', form: 'elapsed-minutes' } });
    expect([...log.time_s]).toEqual([0, 30, 60]);
    expect(log.timeColumns).toEqual(['B']);
    expect(logOf(text, { time: { column: 'A', form: 'sample-number', interval_s: 0.25 } }).duration_s).toBe(
      0.5,
    );
    expect(logOf(text, { time: { interval_s: 2 } }).duration_s).toBe(4);
  });
  test('date and time in two columns', () => {
    const text = 'Clock,Day,p_psi\n08:15:00,04.03.2026,1.5\n08:15:01,04.03.2026,2.5\n';
    const log = logOf(text, { time: { column: 'Clock', dateColumn: 'Day' } });
    expect(log.start).toBe('2026-03-04T08:15:00');
    expect(logOf(text, { time: { column: 'Clock', form: 'time-of-day' } }).start).toBe('08:15:00');
  });
  test('the dialect', () => {
    const text = 'a;b\nTime;P\n2026-03-04 08:15:00;1.500\n2026-03-04 08:15:01;2.500\n';
    const pressure = (log: Log): number[] => [...(log.channels[0]?.values ?? [])];
    expect(pressure(logOf(text, null))).toEqual([1.5, 2.5]);
    // With a decimal comma 1.500 is no number, and nothing else is there.
    expect(problems(text, { dialect: { decimal: ',' } })).toMatchObject([
      { code: 'no-table', reason: expect.stringContaining('"1.500"') as string },
    ]);
    const named = logOf(text, { dialect: { headerLine: 1, delimiter: ';' } });
    expect(named.channels[0]?.column).toBe('b');
    expect(named.dialect.headerLine).toBe(1);
    expect(logOf(text, { dialect: { headerLine: null } }).channels[0]?.column).toBe('column 2');
  });
  test('what the file contradicts: the problem names what the rig file says', () => {
    const text = 'Time;P\n2026-03-04 08:15:00;1.500\n2026-03-04 08:15:01;2.500\n';
    const reason = (dialect: Rig['dialect']): unknown =>
      (problems(text, { dialect }) as { reason?: string }[])[0]?.reason;
    expect(reason({ headerLine: 40 })).toContain('line 40');
    expect(reason({ unitLine: 7 })).toContain('line 7');
    expect(reason({ delimiter: '\t' })).toContain('as the rig file says');
    expect(() => rigOf({ dialect: { delimiter: '' } })).toThrow();
  });
  test('an encoding that is stated is not assumed', () => {
    const bytes = Uint8Array.from('t_s;p_psi;Öl [°C]\n0;1,5;20\n1;2,5;20\n', (letter) =>
      letter.charCodeAt(0),
    );
    const codes = (rig: Rig | null): unknown => {
      const result = readLog(bytes, { fileName: 'run.csv', rig, sha256: null });
      return result.ok && result.value.remarks.map(({ code }) => code);
    };
    expect(codes(null)).toEqual(['encoding-assumed']);
    expect(codes(rigOf({ dialect: { encoding: 'windows-1252' } }))).toEqual([]);
  });
  test('a signal that the column cannot carry: refused; its own unit is not that of what it stands for', () => {
    const text = 't_s,U (V)\n0,1.5\n1,2.5\n';
    const pressure = { column: 'U (V)', role: 'pressure' } as const;
    const current = { kind: '4-20mA', low: 0, high: 600 } as const;
    expect(problems(text, { channels: [{ ...pressure, unit: 'psi', signal: current }] })).toEqual([
      { code: 'signal-of-wrong-kind', file: 'run.csv', column: 'U (V)', unit: 'V', signal: '4-20mA' },
    ]);
    const voltage = { kind: '0.5-4.5V', low: 0, high: 600 } as const;
    expect(roles(logOf(text, { channels: [{ ...pressure, unit: 'psi', signal: voltage }] }))).toEqual([
      ['U (V)', 'pressure', 'psi', 'rig'],
    ]);
    expect(roles(logOf(text, { channels: [{ ...pressure, signal: voltage }] }))).toEqual([
      ['U (V)', 'pressure', null, null],
    ]);
  });
});

describe('the user says', () => {
  test('role and unit of a column, over the rig file', () => {
    const rig: Partial<Rig> = { channels: [{ column: 'P', role: 'pressure', unit: 'psi' }] };
    expect(
      roles(
        logOf(two, rig, [
          { column: 'P', unit: 'bar' },
          { column: 'Oil', role: 'ambient-temperature', unit: 'degF' },
        ]),
      ),
    ).toEqual([
      ['P', 'pressure', 'bar', 'user'],
      ['P#2', null, null, null],
      ['Oil', 'ambient-temperature', 'degF', 'user'],
    ]);
  });
  test('a column that is not there, a role twice: refused as from the rig file', () => {
    expect(problems(two, null, [{ column: 'X', role: 'pressure' }]).length).toBe(1);
    expect(
      problems(two, null, [
        { column: 'P', role: 'pressure' },
        { column: 'P#2', role: 'pressure' },
      ]),
    ).toEqual([{ code: 'role-used-twice', file: 'run.csv', role: 'pressure', columns: ['P', 'P#2'] }]);
  });
});

describe('times that only the rig file can tell', () => {
  const text = (times: string[]): string =>
    `Time,p_psi\n${times.map((time, i) => `${time},${410 + i}.5\n`).join('')}`;
  test('hours and minutes without marks', () => {
    const log = logOf(text(['1030', '1031', '1032']), { time: { form: 'time-of-day' } });
    expect([log.start, ...log.time_s]).toEqual(['10:30:00', 0, 60, 120]);
    const named = logOf(text(['103000', '103001', '103002']), {
      time: { column: 'Time', form: 'time-of-day' },
    });
    expect([named.start, ...named.time_s]).toEqual(['10:30:00', 0, 1, 2]);
  });
  test('minutes and seconds that look like hours and minutes', () => {
    const log = logOf(text(['12:10', '12:11', '12:12']), { time: { form: 'elapsed-hms' } });
    expect([...log.time_s]).toEqual([0, 1, 2]);
    expect(log.remarks).toEqual([]);
  });
  test('the unit in the cells counts for a form that the rig file names', () => {
    const log = logOf(text(['0 min', '1 min', '2 min']), {
      time: { column: 'Time', form: 'elapsed-seconds' },
    });
    expect([...log.time_s]).toEqual([0, 60, 120]);
  });
  test('the year first beside a month by its name', () => {
    const log = logOf(text(['26-Mar-04 08:15:00', '26-Mar-04 08:15:01']), {
      time: { dateOrder: 'year-month-day' },
    });
    expect(log.start).toBe('2026-03-04T08:15:00');
  });
});
