import type { Problem, Result } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import { readUnit } from '#units/read-unit.ts';
import { convert, unitKind, type UnitName } from '#units/unit.ts';
import { columnNames } from './column-names.ts';
import { findEncoding, textOf, toUtf8 } from './encoding.ts';
import { readHeading } from './header-unit.ts';
import { readNumber } from './read-number.ts';
import { bare } from './heading-rows.ts';
import { settleLayout } from './settle-layout.ts';
import { splitRow } from './split-row.ts';

/** One column of a table without time. */
export interface ReadingsColumn {
  column: string;
  unit: UnitName | null;
  /** One entry a row; NaN where there is no number. */
  values: Float64Array;
  /** The cells as written. */
  texts: string[];
}
/** A small table of readings: a gauge check, points of a curve. */
export interface ReadingsTable {
  columns: ReadingsColumn[];
  rows: number;
  /** Line of each row, from 1. */
  lines: number[];
  skipped: { line: number; reason: string }[];
}

/**
 * Reads a small table that has no time, in any of the dialects that a log may have. Rows without a number are skipped.
 * @returns the same problems as a log: empty-file, no-table, no-readings
 */
export function readTable(
  bytes: Uint8Array,
  options: { fileName: string | null; dialect?: Rig['dialect'] },
): Result<ReadingsTable> {
  const file = options.fileName;
  const refuse = (problem: Problem): Result<ReadingsTable> => ({ ok: false, problems: [problem] });
  const found = findEncoding(bytes.subarray(0, 65536));
  const decoder = toUtf8(options.dialect?.encoding ?? found.encoding);
  const utf8 = decoder.push(bytes.subarray(found.markLength));
  const rest = decoder.end();
  const text = textOf(utf8, 0, utf8.length) + textOf(rest, 0, rest.length);
  if (text.trim() === '') return refuse({ code: 'empty-file', file });
  const settled = settleLayout(text, options.dialect);
  if (!settled.ok)
    return refuse(
      settled.headingOnly
        ? { code: 'no-readings', file }
        : { code: 'no-table', file, reason: settled.reason },
    );
  const { layout } = settled;
  const marks = { decimal: layout.decimal };
  const names = columnNames(layout.headings);
  const units = layout.headings.map(
    (heading, i) => readUnit(bare(layout.unitTexts[i] ?? '')) ?? readHeading(heading).unit,
  );
  const numbers: number[][] = names.map(() => []);
  const texts: string[][] = names.map(() => []);
  const lines: number[] = [];
  const skipped: ReadingsTable['skipped'] = [];
  for (const [index, row] of text.split(/\r\n|\n|\r/u).entries()) {
    if (index + 1 < layout.firstDataLine || row.trim() === '') continue;
    const cells = splitRow(row, layout.delimiter);
    const values = names.map((_, i) => {
      const reading = readNumber(cells[i] ?? '', marks);
      if (reading.kind !== 'number') return NaN;
      if (reading.unit === null) return reading.value;
      const unit = (units[i] ??= reading.unit);
      return unitKind(unit) === unitKind(reading.unit) ? convert(reading.value, reading.unit, unit) : NaN;
    });
    if (values.every(Number.isNaN)) {
      skipped.push({ line: index + 1, reason: 'no number' });
      continue;
    }
    lines.push(index + 1);
    for (const [i, value] of values.entries()) {
      numbers[i]?.push(value);
      texts[i]?.push((cells[i] ?? '').trim());
    }
  }
  if (lines.length === 0) return refuse({ code: 'no-readings', file });
  return {
    ok: true,
    value: {
      columns: names.map((column, i) => ({
        column,
        unit: units[i] ?? null,
        values: Float64Array.from(numbers[i] ?? []),
        texts: texts[i] ?? [],
      })),
      rows: lines.length,
      lines,
      skipped,
    },
  };
}
