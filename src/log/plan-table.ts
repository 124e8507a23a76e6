import type { Log, Role } from '#formats/log.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { Remark } from '#formats/remark.ts';
import { readUnit } from '#units/read-unit.ts';
import { unitKind, type UnitName } from '#units/unit.ts';
import { columnNames, findColumn } from './column-names.ts';
import { bytesOf } from './encoding.ts';
import { findTime } from './find-time.ts';
import type { TimePlan } from './time-plan.ts';
import { namesCommand } from './find-roles.ts';
import { readHeading, saysAbsolute } from './header-unit.ts';
import { Kind } from './column-kind.ts';
import { LogTable } from './log-table.ts';
import { cellShape } from './odd-rows.ts';
import type { PlainLayout } from './plain-rows.ts';
import type { ReadOptions } from './read-log.ts';
import { bare } from './heading-rows.ts';
import type { Layout } from './settle-layout.ts';
import { BLANKS } from './split-row.ts';
import { switchState } from './switch-words.ts';
import { unitColumns } from './unit-columns.ts';

/** Everything that is settled before the rows are read. */
export interface TableSetup {
  layout: Layout;
  names: string[];
  time: TimePlan;
  table: LogTable;
  /** What the byte reader needs; null where it cannot read this dialect. */
  plain: PlainLayout | null;
  fixedShape: (number | null)[];
  /** Unit that heading or unit row or unit column show, and where. */
  units: {
    unit: UnitName | null;
    from: 'header' | 'unit-row' | 'unit-column' | null;
    text: string | null;
    absolute: boolean;
  }[];
  /** Filled when the roles are told. */
  candidates: Log['roleCandidates'];
  remarks: Remark[];
}

/** Names columns, finds the time, lays the table out; problems of the rig's naming of columns are found here. */
export function planTable(layout: Layout, options: ReadOptions): Result<TableSetup> {
  const { rig, fileName: file } = options;
  const names = columnNames(layout.headings);
  const problems: Problem[] = [];
  // Each name is looked for once: a table may have ten thousand columns.
  const stated = new Map<number, Role>();
  for (const { column, role } of [...(options.overrides ?? []), ...(rig?.channels ?? [])]) {
    const place = findColumn(names, column);
    if (role !== undefined && !stated.has(place)) stated.set(place, role);
  }
  const asked = options.part === true ? [] : (options.overrides ?? []);
  for (const named of [...(rig?.channels ?? []), ...asked])
    if (findColumn(names, named.column) < 0)
      problems.push({ code: 'column-not-in-log', file, column: named.column, columns: names });
  const time = findTime(layout, names, rig?.time, file, options.dates1904 === true);
  if ('code' in time) problems.push(time);
  if (problems.length > 0 || 'code' in time) return { ok: false, problems };

  const kinds = new Uint8Array(layout.width).fill(Kind.number);
  const set = (column: number, kind: number): void => {
    if (column >= 0) kinds[column] = kind;
  };
  for (const column of time.otherClocks) set(column, Kind.skip);
  set(time.startColumn, Kind.skip);
  set(time.fractionColumn, Kind.fraction);
  set(time.halfColumn, Kind.half);
  if (time.source === 'clock')
    set(time.column, time.count !== null ? Kind.count : time.yearless ? Kind.yearless : Kind.clock);
  else if (time.source === 'date-and-time') {
    set(time.column, Kind.time);
    set(time.dateColumn, Kind.date);
  } else if (time.source === 'time-of-day') set(time.column, time.twoParts ? Kind.elapsed : Kind.time);
  else if (time.source === 'elapsed') set(time.column, Kind.elapsed);
  else if (time.source === 'number') set(time.column, Kind.timeNumber);

  for (const { column, kind } of time.parts) set(column, kind);

  const unitOf = unitColumns(layout, (column) => kinds[column] === Kind.number);
  const words = layout.headings.map(() => '');
  const unitBytes: (Uint8Array | null)[] = layout.headings.map(() => null);
  for (const [column, of] of unitOf.entries()) {
    if (of < 0) continue;
    kinds[column] = Kind.unit;
    const first = layout.rows.map((row) => row.cells[column] ?? '').find((cell) => cell.trim() !== '') ?? '';
    words[column] = first.trim();
    unitBytes[column] = bytesOf(first);
  }
  // The first of two unit columns beside one reading counts.
  const wordOf = new Map<number, string>();
  for (const [column, of] of unitOf.entries())
    if (of >= 0 && !wordOf.has(of)) wordOf.set(of, words[column] ?? '');
  const differing: Remark[] = [];
  function unitOfColumn(heading: string, column: number): TableSetup['units'][number] {
    const word = wordOf.get(column) ?? '';
    const row = bare(layout.unitTexts[column] ?? '');
    const fromHeading = readHeading(heading);
    const fromRow = row === '' ? null : readHeading(`x [${row}]`);
    if (word !== '') return { unit: readUnit(word), from: 'unit-column', text: word, absolute: false };
    if (
      fromRow?.unit !== null &&
      fromRow?.unit !== undefined &&
      fromHeading.unit !== null &&
      fromRow.unit !== fromHeading.unit &&
      unitKind(fromRow.unit) === unitKind(fromHeading.unit)
    ) {
      differing.push({
        code: 'units-differ',
        text: `Column "${names[column] ?? heading}": its heading says ${fromHeading.unit} and the unit row ${fromRow.unit}; which is right cannot be told, so it has no unit here. Say it in a rig file.`,
      });
      return { unit: null, from: null, text: null, absolute: false };
    }
    if (fromRow !== null && (fromRow.unit !== null || fromHeading.unit === null))
      return { unit: fromRow.unit, from: 'unit-row', text: row, absolute: fromRow.absolute };
    return {
      unit: fromHeading.unit,
      from: 'header',
      text: fromHeading.unitText,
      absolute: fromHeading.absolute,
    };
  }
  const units = layout.headings.map((heading, column) => gaugeOnly(heading, unitOfColumn(heading, column)));
  const isOfTime = (place: number): boolean =>
    place === time.column || place === time.dateColumn || time.parts.some((part) => part.column === place);
  for (const named of [...(rig?.channels ?? []), ...(options.overrides ?? [])]) {
    const place = findColumn(names, named.column);
    if (named.role === 'ignored' || !isOfTime(place)) continue;
    differing.push({
      code: 'channel-is-the-time',
      text: `Column "${named.column}" was read as the time; what is said of it as a channel was not used.`,
    });
  }
  for (const column of otherTimes(layout, time))
    differing.push({
      code: 'other-times-beside',
      text: `Column "${names[column] ?? ''}" bears other times than "${names[time.column] ?? ''}", by which all readings were taken. Readings that belong to the other times stand at wrong ones: export them on their own.`,
    });
  const marks = { decimal: layout.decimal };
  const table = new LogTable(
    kinds,
    marks,
    units.map((found) => found.unit),
    unitOf,
    words,
  );
  table.timeUnit = time.cellUnit;
  table.clockCells.count = time.count;
  for (const [column, own] of table.columns.entries())
    own.inWords = saysSwitching(layout, column, stated.get(column) ?? null);
  // Between decimal commas as delimiters nothing plain can be told; aligned columns have no single delimiter.
  const plain =
    layout.delimiter === BLANKS || layout.delimiter.length !== 1 || layout.delimiter.charCodeAt(0) > 127
      ? null
      : { delimiter: layout.delimiter.charCodeAt(0), minWidth: layout.minWidth, unitBytes };
  return {
    ok: true,
    value: {
      layout,
      names,
      time,
      table,
      plain,
      fixedShape: fixedShapes(layout),
      units,
      candidates: [],
      remarks: [...layout.remarks, ...time.remarks, ...differing],
    },
  };
}

/** Columns with the heading of the time's and other times in them, as programs write that log each channel at its own pace. */
function otherTimes(layout: Layout, time: TimePlan): number[] {
  const heading = layout.headings[time.column] ?? '';
  if (heading === '' || time.parts.length > 0) return [];
  return layout.headings.flatMap((other, column) =>
    column !== time.column &&
    column !== time.dateColumn &&
    other === heading &&
    layout.rows.some((row) => {
      const cell = (row.cells[column] ?? '').trim();
      return cell !== '' && cell !== (row.cells[time.column] ?? '').trim();
    })
      ? [column]
      : [],
  );
}

/** A gauge shows no atmosphere: where the heading says that the pressure counts from vacuum, the unit is none of ours. */
function gaugeOnly(heading: string, found: TableSetup['units'][number]): TableSetup['units'][number] {
  return found.unit !== null && unitKind(found.unit) === 'pressure' && saysAbsolute(heading)
    ? { ...found, unit: null, text: `${found.text ?? found.unit} (absolute)`, absolute: true }
    : found;
}

/**
 * A column that says on and off in words: the role is the solenoid's command, by the rig file, the user or the heading, and the head's
 * cells are such words alone. In any other column "OFF" is what a meter says in place of a reading.
 */
function saysSwitching(layout: Layout, column: number, role: Role | null): boolean {
  if (role === null ? !namesCommand(layout.headings[column] ?? '') : role !== 'solenoid-command')
    return false;
  const cells = layout.rows.flatMap((row) => {
    const found = row.classes[column] ?? 'empty';
    return found === 'empty' || found === 'fault' ? [] : [row.cells[column] ?? ''];
  });
  return cells.length > 0 && cells.every((cell) => switchState(cell) !== null);
}

/** For each column the shape that all its cells in the head share, or null. */
function fixedShapes(layout: Layout): (number | null)[] {
  return layout.headings.map((_, column) => {
    let shape: number | null = null;
    let first = true;
    for (const row of layout.rows.slice(0, -1)) {
      const cell = (row.cells[column] ?? '').trim();
      const own = cell === '' ? null : cellShape(cell);
      if (own === null) continue;
      if (first) shape = own;
      else if (own !== shape) return null;
      first = false;
    }
    return shape;
  });
}
