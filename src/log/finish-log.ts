import { SetAside, type Channel, type Encoding, type Log, type LogSource, type Role } from '#formats/log.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { Remark } from '#formats/remark.ts';
import type { RigChannel } from '#formats/rig.ts';
import { unitKind } from '#units/unit.ts';
import { findColumn } from './column-names.ts';
import { findRoles, unitFitsRole } from './find-roles.ts';
import { saysAbsolute } from './header-unit.ts';
import { Kind } from './column-kind.ts';
import type { OddRows } from './odd-rows.ts';
import type { TableSetup } from './plan-table.ts';
import { carriesSignal, scaleSignal, signalUnit } from './raw-signal.ts';
import { rawTime } from './raw-time.ts';
import type { ReadOptions } from './read-log.ts';
import { setSentinelsAside } from './sentinels.ts';
import { timeAxis } from './time-axis.ts';

/** `0FF5` among whole numbers that all have as many digits; `E02` is what a meter says of a fault. */
const isHexBeside = (token: string, shape: number | null | undefined): boolean =>
  shape === -token.length && /^(?=.*\d)(?=.*[a-f])(?!e\d+$)[\da-f]{3,8}$/iu.test(token);
/** Share of the cells in which a hexadecimal column shows a letter at least. */
const LEAST_HEX = 0.1;
/** `12.5-`: an accountant's sign, or what a meter puts behind a number that falls. */
const minusBehind = /^\d+(?:[.,]\d*)?\s?[-−–]$/u;

/** Makes the log of a table whose rows are all read. */
export function finishLog(
  setup: TableSetup,
  odd: OddRows,
  options: ReadOptions,
  source: LogSource,
  encoding: Encoding,
): Result<Log> {
  const { table, layout, names, time } = setup;
  const file = options.fileName;
  const remarks: Remark[] = [...setup.remarks];
  if (table.rows === 0) {
    const first = table.skippedRows[0];
    const text = first === undefined ? null : (/"(.*)"/u.exec(first.reason)?.[1] ?? null);
    return {
      ok: false,
      problems: [
        text === null
          ? { code: 'no-readings', file }
          : { code: 'no-usable-time', file, line: first?.line ?? null, text },
      ],
    };
  }
  const raw = rawTime(table, time, odd.firstCells[time.startColumn] ?? '');
  if (raw.fallsThroughout)
    return {
      ok: false,
      problems: [
        { code: 'time-runs-down', file, column: names[time.column] ?? names[time.dateColumn] ?? null },
      ],
    };
  remarks.push(...raw.remarks);

  let channels: (Channel & { place: number })[] = [];
  for (const [place, kind] of table.kinds.entries()) {
    if (kind !== Kind.number) continue;
    const found = setup.units[place];
    const column = table.columns[place];
    let unit = column?.unit ?? null;
    // In the cells the unit looks like a gauge's; the heading says that it is none.
    if (unit !== null && found !== undefined && column?.unitFromCell === true)
      if (unitKind(unit) === 'pressure' && saysAbsolute(layout.headings[place] ?? '')) {
        found.absolute = true;
        found.text = `${unit} (absolute)`;
        unit = null;
      }
    channels.push({
      place,
      column: names[place] ?? '',
      position: place,
      role: null,
      unit,
      unitFrom: unit === null ? null : column?.unitFromCell === true ? 'cell' : (found?.from ?? null),
      values: table.takeValues(place),
      flags: table.takeFlags(place),
      faultTokens: [],
      decimals: null,
    });
  }
  const byPlace = new Map(channels.map((channel) => [channel.place, channel]));
  const grouped = table.settleGrouped(
    (place) => byPlace.get(place)?.values ?? new Float64Array(0),
    (place) => byPlace.get(place)?.flags ?? new Uint8Array(0),
  );
  if (grouped > 0)
    remarks.push({
      code: 'thousands-separators',
      text: `${grouped} numbers were read with separators of thousands, as others in the file prove.`,
    });
  for (const channel of channels) {
    const digits = table.columns[channel.place]?.decimals ?? -1;
    channel.decimals = digits < 0 ? null : digits;
    const bearing = table.columns[channel.place]?.unitCells ?? 0;
    if (channel.unitFrom !== 'cell') continue;
    const all = channel.flags.reduce((sum, flag) => sum + (flag === SetAside.kept ? 1 : 0), 0);
    if (bearing < all)
      remarks.push({
        code: 'unit-in-some-cells',
        text: `Column "${channel.column}": ${bearing} of ${all} readings bear a unit; the others were taken to be in ${channel.unit ?? ''} too. If they are not, say the unit in a rig file.`,
      });
  }
  for (const channel of channels)
    channel.faultTokens = [...(table.columns[channel.place]?.tokens ?? [])].map(([token, count]) => ({
      token,
      count,
    }));

  for (const channel of channels) {
    const all = channel.faultTokens.filter(({ token }) => isHexBeside(token, odd.fixedShape[channel.place]));
    const [hex] = all;
    // "F012" among a thousand readings is a fault's code: of a hexadecimal count more than a third end in a letter, each another one.
    const share = all.reduce((sum, { count }) => sum + count, 0) / channel.values.length;
    // No code begins with a zero.
    const sure = all.some(({ token }) => token.startsWith('0'));
    const few = all.length < 2 && (hex?.count ?? 0) > 1;
    if (hex === undefined || (!sure && (few || share < LEAST_HEX))) continue;
    for (const [row, value] of channel.values.entries())
      if (!Number.isNaN(value)) {
        channel.values[row] = NaN;
        channel.flags[row] = SetAside.faultToken;
      }
    remarks.push({
      code: 'hexadecimal-numbers',
      text: `Column "${channel.column}" holds hexadecimal numbers, such as "${hex.token}": none of its readings was taken. Export it in decimal numbers.`,
    });
  }
  for (const { column, faultTokens } of channels) {
    const found = faultTokens.find(({ token }) => minusBehind.test(token));
    if (found !== undefined)
      remarks.push({
        code: 'minus-behind-numbers',
        text: `Column "${column}": numbers such as "${found.token}" end in a minus; whether it is their sign or a mark beside them cannot be told, so they were not read. Export them with the sign in front.`,
      });
  }

  if (raw.turned)
    for (const channel of channels) {
      channel.values.reverse();
      channel.flags.reverse();
    }

  if (raw.unusable !== null) {
    for (const { line, text } of raw.unusableLines) table.skip(line, `no such date: "${text}"`);
    table.skippedRowCount += raw.unusable.reduce((sum, flag) => sum + flag, 0) - raw.unusableLines.length;
    const keep = raw.unusable;
    raw.ticks = raw.ticks.filter((_, row) => keep[row] === 0);
    channels = channels.map((channel) => ({
      ...channel,
      values: channel.values.filter((_, row) => keep[row] === 0),
      flags: channel.flags.filter((_, row) => keep[row] === 0),
    }));
    if (raw.ticks.length === 0) {
      const first = raw.unusableLines[0];
      return {
        ok: false,
        problems: [{ code: 'no-usable-time', file, line: first?.line ?? null, text: first?.text ?? null }],
      };
    }
  }

  const record = channels.find((channel) => channel.place === time.recordColumn)?.values ?? null;
  const axis = timeAxis(raw, record);
  remarks.push(...axis.remarks);

  channels = channels.filter(
    (channel) =>
      layout.headings[channel.place] !== '' || channel.flags.some((flag) => flag !== SetAside.missing),
  );
  const problems = settleColumns(channels, setup, options, remarks);
  if (problems.length > 0) return { ok: false, problems };
  if (!channels.some((channel) => channel.values.some((value) => !Number.isNaN(value))))
    return { ok: false, problems: [whyNoNumbers(channels, file)] };

  addRemarks(remarks, setup, odd, options.rig?.dialect?.encoding === undefined ? encoding : 'utf-8');
  const rows = axis.time_s.length;
  return {
    ok: true,
    value: {
      source,
      parts: [],
      dialect: {
        encoding,
        delimiter: layout.delimiter,
        decimal: table.marks.decimal ?? '.',
        headerLine: layout.headerLine,
        unitLine: layout.unitLine,
      },
      rows,
      skippedRowCount: table.skippedRowCount,
      skippedRows: table.skippedRows,
      timeForm: raw.form,
      start: raw.start,
      origin_s: raw.origin_s,
      ...(raw.dateOrders.length === 0 ? {} : { dateOrders: raw.dateOrders }),
      duration_s: axis.time_s[rows - 1] ?? 0,
      medianInterval_s: axis.medianInterval_s,
      time_s: axis.time_s,
      gaps: axis.gaps,
      clockSteps: axis.clockSteps,
      channels: channels.map(withoutPlace),
      timeColumns: [
        ...new Set([
          time.dateColumn,
          time.column,
          time.fractionColumn,
          ...time.parts.map(({ column }) => column),
        ]),
      ]
        .filter((column) => column >= 0)
        .toSorted((a, b) => a - b)
        .map((column) => names[column] ?? ''),
      roleCandidates: setup.candidates,
      remarks,
    },
  };
}

/**
 * Rows without a single number: what stands there instead tells more than that there is none. Where the columns that bear a unit are
 * empty, a word in another one is a logger's note ("Logged").
 */
function whyNoNumbers(channels: readonly Channel[], file: string | null): Problem {
  const withUnit = channels.filter(({ unit }) => unit !== null);
  const text = (withUnit.length > 0 ? withUnit : channels).flatMap((channel) => channel.faultTokens)[0]
    ?.token;
  return text === undefined
    ? { code: 'no-readings', file }
    : {
        code: 'no-table',
        file,
        reason: `none of its readings is a number, the first says "${text}" (an open wire, or another decimal mark than the rig file says)`,
      };
}

function withoutPlace(channel: Channel & { place: number }): Channel {
  const { place, ...rest } = channel;
  return { ...rest, position: place };
}

/** Roles and units: the user's word, then the rig's, then the file's; raw signals scaled; sentinels set aside. */
function settleColumns(
  channels: (Channel & { place: number })[],
  setup: TableSetup,
  options: ReadOptions,
  remarks: Remark[],
): Problem[] {
  const { names, layout, time } = setup;
  const file = options.fileName;
  const problems: Problem[] = [];
  const rigOf = new Map<number, RigChannel>();
  for (const channel of options.rig?.channels ?? []) rigOf.set(findColumn(names, channel.column), channel);
  const userOf = new Map(
    (options.overrides ?? []).map((override) => [findColumn(names, override.column), override]),
  );
  for (const channel of channels) {
    const rig = rigOf.get(channel.place),
      user = userOf.get(channel.place);
    channel.role = user?.role ?? rig?.role ?? null;
    if (channel.place === time.recordColumn) channel.role ??= 'ignored';
    const inFile = channel.unit;
    if (rig?.signal !== undefined) {
      if (inFile !== null && !carriesSignal(inFile, rig.signal)) {
        const { column } = channel;
        problems.push({ code: 'signal-of-wrong-kind', file, column, unit: inFile, signal: rig.signal.kind });
        channel.unit = null;
        continue;
      }
      scaleChannel(channel, rig.signal, inFile, remarks);
      // What the signal was in is not what it stands for.
      if (inFile !== null && ['current', 'voltage'].includes(unitKind(inFile))) {
        channel.unit = null;
        channel.unitFrom = null;
      }
    }
    const stated = user?.unit ?? rig?.unit;
    if (stated !== undefined) {
      channel.unit = stated;
      channel.unitFrom = user?.unit === undefined ? 'rig' : 'user';
      if (inFile !== null && inFile !== stated && rig?.signal === undefined)
        remarks.push({
          code: 'unit-differs-from-file',
          text: `Column "${channel.column}": the file says ${inFile}, ${user?.unit === undefined ? 'the rig file' : 'you'} ${user?.unit === undefined ? 'says' : 'say'} ${stated}; ${stated} was used.`,
        });
    }
    const words = setup.units[channel.place];
    if (words?.absolute === true && channel.unit === null)
      remarks.push({
        code: 'absolute-pressure',
        text: `Column "${channel.column}" is in ${words.text ?? ''}, which counts from vacuum: no gauge pressure, so it has no unit here.`,
      });
    if (rig?.range === undefined && rig?.signal === undefined)
      for (const sentinel of setSentinelsAside(channel.values, channel.flags))
        remarks.push({
          code: 'sentinel',
          text: `Column "${channel.column}": ${sentinel.value} stands ${sentinel.count} times outside of all other readings; taken as "no reading" and set aside.`,
        });
  }
  const taken = new Map<Role, string[]>();
  for (const channel of channels)
    if (channel.role !== null && channel.role !== 'ignored')
      taken.set(channel.role, [...(taken.get(channel.role) ?? []), channel.column]);
  for (const [role, columns] of taken)
    if (columns.length > 1) problems.push({ code: 'role-used-twice', file, role, columns });
  const open = channels.filter((channel) => channel.role === null);
  const found = findRoles(
    open.map((channel) => ({
      heading: layout.headings[channel.place] ?? '',
      unit: channel.unit,
      unknownUnit: channel.unit === null && (setup.units[channel.place]?.text ?? null) !== null,
      empty: channel.values.every(Number.isNaN),
      switches:
        channel.values.every((value) => value === 0 || value === 1 || Number.isNaN(value)) &&
        channel.values.some((value) => !Number.isNaN(value)),
    })),
    new Set(taken.keys()),
  );
  for (const [i, channel] of open.entries()) channel.role = found.roles[i] ?? null;
  setup.candidates = found.candidates.map(({ role, places }) => ({
    role,
    columns: places.map((place) => open[place]?.column ?? ''),
  }));
  for (const channel of channels)
    if (channel.role !== null && channel.unit !== null && !unitFitsRole(channel.unit, channel.role))
      problems.push({
        code: 'unit-of-wrong-kind',
        file,
        column: channel.column,
        unit: channel.unit,
        role: channel.role,
      });
  return problems;
}

function scaleChannel(
  channel: Channel,
  signal: NonNullable<RigChannel['signal']>,
  inFile: Channel['unit'],
  remarks: Remark[],
): void {
  const carried = signalUnit(signal);
  if (inFile !== null && unitKind(inFile) !== unitKind(carried))
    remarks.push({
      code: 'signal-not-in-file',
      text: `Column "${channel.column}": the file says ${inFile}, the rig file says that it is a raw signal; its numbers were taken as ${carried} and scaled. If the logger scales them already, leave the signal out of the rig file.`,
    });
  const faults = scaleSignal(channel.values, channel.flags, signal, inFile);
  channel.decimals = null;
  if (faults.limits === null || faults.below + faults.above === 0) return;
  const { below, above, unit } = faults.limits;
  remarks.push({
    code: 'signal-faults',
    text: `Column "${channel.column}": ${faults.below} readings at or below ${below} ${unit} (wire open or sensor failed) and ${faults.above} at or above ${above} ${unit} were set aside.`,
  });
}

function addRemarks(remarks: Remark[], setup: TableSetup, odd: OddRows, encoding: Encoding): void {
  if (encoding === 'windows-1252')
    remarks.push({
      code: 'encoding-assumed',
      text: 'The file is not UTF-8; its letters were read as Windows-1252. Numbers are not touched by it.',
    });
  const [leftOut] = setup.table.skippedRows;
  if (leftOut !== undefined && setup.table.skippedRowCount > setup.table.rows)
    remarks.push({
      code: 'most-rows-left-out',
      text: `${setup.table.skippedRowCount} rows were left out and ${setup.table.rows} read: the first is line ${leftOut.line} ("${leftOut.reason.replaceAll('"', '')}").`,
    });
  if (setup.table.nulBytes > 0)
    remarks.push({
      code: 'nul-bytes',
      text: `${setup.table.nulBytes} NUL bytes stand in the rows, as a logger leaves them when its supply fails; readings with one inside were left out.`,
    });
  if (odd.headingsAgain > 0)
    remarks.push({
      code: 'heading-repeated',
      text: `The heading comes ${odd.headingsAgain} more times in the file: the logger was started again, or exports page by page.`,
    });
  if (odd.otherHeadingLine !== null)
    remarks.push({
      code: 'other-heading',
      text: `Line ${odd.otherHeadingLine} is another heading; the rows behind it were not read. Split the file there.`,
    });
  if (odd.cutReading !== null)
    remarks.push({
      code: 'last-reading-left-out',
      text: `The last line has no line end; its last reading "${odd.cutReading}" may be cut and was left out.`,
    });
}
