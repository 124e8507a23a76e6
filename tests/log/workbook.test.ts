import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import readXlsx from 'read-excel-file/node';
import { describe, expect, test } from 'vitest';
import { SetAside, type Log } from '#formats/log.ts';
import { packedTooLarge } from '#log/packed-size.ts';
import { isPacked, readSheets } from '#log/sheet-rows.ts';
import { workbookFacts } from '#log/workbook-facts.ts';
import { rigSchema, type Rig } from '#formats/rig.ts';
import { keptInASpreadsheet, makeWorkbook, type MadeCell } from './make-workbook.ts';

const options = { fileName: 'run.xlsx', rig: null };
const source = { bytes: 1234, sha256: 'abc' };

test('a spreadsheet file is read: the first sheet that holds a log, its times on the step of the log', async () => {
  const bytes = keptInASpreadsheet();
  expect(isPacked(bytes)).toBe(true);
  const read = readSheets(await readXlsx(Buffer.from(bytes)), options, source);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { log } = read.value;
  expect(log.source).toEqual({ fileName: 'run.xlsx', bytes: 1234, sha256: 'abc' });
  expect(log.start).toBe('2026-03-04T08:15:00');
  expect([...log.time_s]).toEqual([0, 2, 4, 6, 8, 10]);
  expect([...(log.channels[0]?.values ?? [])]).toEqual([0.4, 120.5, 405.2, 410.1, 411, 410.6]);
  expect(log.channels[1]?.faultTokens).toEqual([{ token: 'OL', count: 1 }]);
  expect(log.channels.map(({ role, unit }) => [role, unit])).toEqual([
    ['pressure', 'psi'],
    ['oil-temperature', 'degC'],
  ]);
  expect(log.remarks.map((remark) => remark.text)).toContain('The file has 2 sheets; "Readings" was read.');
});

test('one without a log is refused by its first sheet', async () => {
  const read = readSheets(
    await readXlsx(
      Buffer.from(
        makeWorkbook({
          Notes: [
            ['nothing', 'here'],
            ['to', 'see'],
          ],
        }),
      ),
    ),
    options,
    source,
  );
  expect(read.ok).toBe(false);
  expect(readSheets([], options, source)).toEqual({
    ok: false,
    problems: [{ code: 'empty-file', file: 'run.xlsx' }],
  });
});

test('a packed file that unpacks to gigabytes is refused before it is', () => {
  const bomb = makeWorkbook({ S: [['t_s', 'p_psi']] });
  expect(packedTooLarge(bomb, 'run.xlsx')).toBeNull();
  const view = new DataView(bomb.buffer, bomb.byteOffset, bomb.byteLength);
  for (let at = 0; at + 4 < bomb.length; at++)
    if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, 600_000_000, true);
  expect(packedTooLarge(bomb, 'run.xlsx')).toMatchObject({ code: 'no-table', file: 'run.xlsx' });
  expect(packedTooLarge(new TextEncoder().encode('PK'), null)).toBeNull();
});

test('text is not taken for a packed file', () => {
  expect(isPacked(new TextEncoder().encode('PK,1,2'))).toBe(false);
  expect(isPacked(new Uint8Array(0))).toBe(false);
});

describe('what stands in spreadsheets beside plain cells', () => {
  const heading: MadeCell[] = ['Time', 'Pressure', 'Oil'];
  const units: MadeCell[] = ['', 'psi', '°C'];
  const start = Date.UTC(2026, 2, 4, 8, 15, 0);
  async function logOf(sheets: Record<string, MadeCell[][]>): Promise<Log> {
    const read = readSheets(await readXlsx(Buffer.from(makeWorkbook(sheets))), options, source);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    return read.value.log;
  }
  const values = (log: Log, column: number): (number | null)[] =>
    [...(log.channels[column]?.values ?? [])].map((value) => (Number.isNaN(value) ? null : value));

  test('a row of units, empty rows and a remark between, a line of sums at the end', async () => {
    const log = await logOf({
      Run: [
        ['Bench 2'],
        [],
        heading,
        units,
        ...[0, 1, 2].map((i): MadeCell[] => [new Date(start + 1000 * i), 410 + i, 55]),
        [],
        ['stopped for tea'],
        ...[60, 61].map((i): MadeCell[] => [new Date(start + 1000 * i), 411, 56]),
        ['Mean', 410.8, 55.4],
      ],
    });
    expect([...log.time_s]).toEqual([0, 1, 2, 60, 61]);
    expect(values(log, 0)).toEqual([410, 411, 412, 411, 411]);
    expect(log.channels.map(({ unit, unitFrom }) => [unit, unitFrom])).toEqual([
      ['psi', 'unit-row'],
      ['degC', 'unit-row'],
    ]);
    expect(log.dialect).toMatchObject({ headerLine: 3, unitLine: 4 });
    expect(log.skippedRowCount).toBe(2);
  });

  test('formulas count by their kept results, errors are no readings, yes and no are 1 and 0', async () => {
    const log = await logOf({
      Run: [
        ['t_s', 'p_psi', 'sol'],
        [0, { formula: 'A2*2', result: 410.5 }, true],
        [1, { error: '#DIV/0!' }, true],
        [2, { formula: 'TEXT(1,"0")', result: 'OL' }, false],
        [3, 411.25, false],
        [4, 411.5, false],
      ],
    });
    expect(values(log, 0)).toEqual([410.5, null, null, 411.25, 411.5]);
    expect(log.channels[0]?.faultTokens.map(({ token }) => token)).toEqual(['OL']);
    // The spreadsheet's own errors come without their word: they are missing.
    expect(log.channels[0]?.flags[1]).toBe(SetAside.missing);
    expect(values(log, 1)).toEqual([1, 1, 0, 0, 0]);
  });

  test.each([
    ['a second', 1, 1],
    ['a tenth of a second', 0.1, 10],
    ['seven seconds', 7, 1],
  ])(
    'day numbers without a date format, a row each %s: on the step of the log',
    async (_, step_s, perSecond) => {
      const days = start / 86_400_000 + 25_569;
      const log = await logOf({
        Run: [
          ['Time', 'P psi'],
          ...Array.from({ length: 200 }, (__, i): MadeCell[] => [
            days + (i * step_s) / 86_400,
            410 + (i % 3),
          ]),
        ],
      });
      expect(log.timeForm).toBe('spreadsheet-serial');
      expect(log.start?.slice(0, 19)).toBe('2026-03-04T08:15:00');
      expect([...log.time_s]).toEqual(
        Array.from({ length: 200 }, (__, i) => Math.round(i * step_s * perSecond) / perSecond),
      );
      expect(log.medianInterval_s).toBe(step_s);
    },
  );

  test('times of day without a date, over midnight', async () => {
    const log = await logOf({
      Run: [
        ['Time', 'P psi'],
        ...Array.from({ length: 6 }, (_, i): MadeCell[] => [{ clock_s: (86_397 + i) % 86_400 }, 410 + i]),
      ],
    });
    expect(log.timeForm).toBe('time-of-day');
    expect(log.start).toBe('23:59:57');
    expect([...log.time_s]).toEqual([0, 1, 2, 3, 4, 5]);
  });

  test('durations in hours that go on beyond a day', async () => {
    const log = await logOf({
      Run: [
        ['Elapsed', 'P psi'],
        ...Array.from({ length: 5 }, (_, i): MadeCell[] => [{ clock_s: 7200 * 12 * i }, 410 + i]),
      ],
    });
    expect(log.timeForm).toBe('elapsed-hms');
    expect([...log.time_s]).toEqual([0, 86_400, 172_800, 259_200, 345_600]);
  });

  test('of two sheets with logs the first is read, and said', async () => {
    const rows = (p: number): MadeCell[][] => [['t_s', 'p_psi'], ...[0, 1, 2].map((i) => [i, p + i])];
    const log = await logOf({ Monday: rows(400), Tuesday: rows(500) });
    expect(values(log, 0)).toEqual([400, 401, 402]);
    expect(log.remarks.map(({ text }) => text)).toContain('The file has 2 sheets; "Monday" was read.');
  });

  test.each([
    ['of the 1900 date system', false],
    ['of the 1904 date system', true],
  ])('date and time of day in two columns, and the time alone: %s', async (_, dates1904) => {
    const made = async (rows: MadeCell[][]): Promise<Log> => {
      const bytes = Buffer.from(makeWorkbook({ Run: rows }, { dates1904 }));
      const read = readSheets(await readXlsx(bytes), options, source);
      if (!read.ok) throw new Error(JSON.stringify(read.problems));
      return read.value.log;
    };
    const clock = (i: number): MadeCell => ({ clock_s: (86_397 + i) % 86_400 });
    const rows = [0, 1, 2, 3, 4, 5];
    const inTwo = await made([
      ['Date', 'Time', 'P psi'],
      ...rows.map((i): MadeCell[] => [new Date(Date.UTC(2026, 2, i < 3 ? 4 : 5)), clock(i), 410 + i]),
    ]);
    expect(inTwo.start).toBe('2026-03-04T23:59:57');
    expect([...inTwo.time_s]).toEqual(rows);
    const alone = await made([['Time', 'P psi'], ...rows.map((i): MadeCell[] => [clock(i), 410 + i])]);
    expect(alone.timeForm).toBe('time-of-day');
    expect([...alone.time_s]).toEqual(rows);
    expect(alone.clockSteps).toEqual([]);
  });

  test('numbers that stand as texts with a decimal comma beside numbers proper', async () => {
    const log = await logOf({
      Run: [
        ['Zeit', 'Druck [bar]', 'Öl [°C]'],
        ...Array.from({ length: 4 }, (_, i): MadeCell[] => [
          `13.03.2026 08:15:0${i}`,
          i % 2 === 0 ? `28,${i}5` : 28.5,
          55.25 + i,
        ]),
      ],
    });
    expect(values(log, 0)).toEqual([28.05, 28.5, 28.25, 28.5]);
    expect(values(log, 1)).toEqual([55.25, 56.25, 57.25, 58.25]);
    expect(log.start).toBe('2026-03-13T08:15:00');
  });

  test('a sheet with a pressure before one without, wherever it stands', async () => {
    const log = await logOf({
      Curve: [['x', 'y'], ...[0, 1, 2].map((i) => [i, 3 * i])],
      Run: [['t_s', 'p_psi'], ...[0, 1, 2].map((i) => [i, 410 + i])],
    });
    expect(values(log, 0)).toEqual([410, 411, 412]);
    expect(log.remarks.map(({ text }) => text)).toContain('The file has 2 sheets; "Run" was read.');
  });

  test('a rig that was made for text: its delimiter and decimal mark say nothing of cells', async () => {
    const bytes = Buffer.from(
      makeWorkbook({
        Run: [
          ['t_s', 'p_psi'],
          [0, 410.5],
          [1, 411.5],
        ],
      }),
    );
    const dialect = { delimiter: ';', decimal: ',', encoding: 'windows-1252' } as const;
    const rig = { format: 'overdrive-bench/rig', version: 1, name: 'r', dialect } as const;
    const read = readSheets(await readXlsx(bytes), { ...options, rig }, source);
    expect(read.ok && values(read.value.log, 0)).toEqual([410.5, 411.5]);
  });
});

describe('what a spreadsheet file says of its sheets', () => {
  const run = (first: number): MadeCell[][] => [
    ['t_s', 'p_psi'],
    ...[0, 1, 2, 3].map((i): MadeCell[] => [i, first + i]),
  ];
  const withSheet = (sheet: string | number): Rig =>
    rigSchema.parse({ format: 'overdrive-bench/rig', version: 1, name: 'r', dialect: { sheet } });
  async function read(bytes: Uint8Array, rig: Rig | null = null): Promise<ReturnType<typeof readSheets>> {
    return readSheets(await readXlsx(Buffer.from(bytes)), { ...options, rig }, source, workbookFacts(bytes));
  }
  async function logOf(bytes: Uint8Array, rig: Rig | null = null): Promise<Log> {
    const result = await read(bytes, rig);
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    return result.value.log;
  }
  const said = (log: Log): string[] => log.remarks.map(({ text }) => text);

  test('a hidden sheet does not count where a shown one holds a log', async () => {
    const sheets = { 'Old <1>': run(100), Run: run(400) };
    const log = await logOf(makeWorkbook(sheets, { hidden: ['Old <1>'] }));
    expect(log.channels[0]?.values[0]).toBe(400);
    expect(said(log)).toEqual([
      'The file has 2 sheets; "Run" was read.',
      'Hidden sheets ("Old <1>") were not looked at. Name one as "sheet" in a rig file to read it.',
    ]);
    expect((await logOf(makeWorkbook(sheets))).channels[0]?.values[0]).toBe(100);
  });
  test('it is read where none other does, and that is said', async () => {
    const log = await logOf(makeWorkbook({ Cover: [['Bench 2']], Data: run(400) }, { hidden: ['Data'] }));
    expect(log.channels[0]?.values[0]).toBe(400);
    expect(said(log)).toContain('The sheet "Data" is hidden in the file.');
  });
  test('the rig file names the sheet, or its place', async () => {
    const bytes = makeWorkbook({ A: run(100), B: run(200), C: run(300) }, { hidden: ['B'] });
    expect((await logOf(bytes, withSheet('C'))).channels[0]?.values[0]).toBe(300);
    expect((await logOf(bytes, withSheet(2))).channels[0]?.values[0]).toBe(200);
    expect(await read(bytes, withSheet('D'))).toMatchObject({
      ok: false,
      problems: [
        { code: 'no-table', reason: expect.stringContaining('"D", and the file has "A", "B", "C"') },
      ],
    });
    expect(await read(bytes, withSheet(4))).toMatchObject({ ok: false });
  });
  test.each(['1', 'true'])('days from 1904, flag "%s": formatted as dates or not', async (flag1904) => {
    const start = Date.UTC(2026, 2, 4, 8, 15, 0);
    const serial = start / 86_400_000 + 25_569 - 1462;
    const rows = (cell: (i: number) => MadeCell): MadeCell[][] => [
      ['Time', 'p_psi'],
      ...[0, 1, 2, 3].map((i): MadeCell[] => [cell(i), 410 + i]),
    ];
    for (const cell of [(i: number) => serial + i / 86_400, (i: number) => new Date(start + 1000 * i)]) {
      const log = await logOf(makeWorkbook({ Run: rows(cell) }, { dates1904: true, flag1904 }));
      expect(log.start).toBe('2026-03-04T08:15:00');
      expect([...log.time_s].map((at) => Math.round(1000 * at))).toEqual([0, 1000, 2000, 3000]);
      expect(log.remarks).toEqual([]);
    }
  });
  test('a cell far outside is refused before its reader makes a place for all before it', () => {
    const far = (row: number, cell: string): Uint8Array => {
      const files = unzipSync(makeWorkbook({ Run: run(400) }));
      const name = 'xl/worksheets/sheet1.xml';
      const xml = strFromU8(files[name] ?? new Uint8Array(0));
      const stray = `<row r="${row}"><c r="${cell}${row}"><v>1</v></c></row></sheetData>`;
      return zipSync({ ...files, [name]: strToU8(xml.replace('</sheetData>', stray)) });
    };
    const reason = (bytes: Uint8Array): unknown => packedTooLarge(bytes, 'run.xlsx');
    expect(reason(far(99_999_999, 'A'))).toMatchObject({
      code: 'no-table',
      reason: expect.stringContaining('row 99999999'),
    });
    expect(reason(far(1_048_576, 'XFD'))).toMatchObject({
      reason: expect.stringContaining('delete what stands outside'),
    });
    expect(reason(far(1_048_576, 'C'))).toBeNull();
    expect(reason(far(20, 'C'))).toBeNull();
  });
});
