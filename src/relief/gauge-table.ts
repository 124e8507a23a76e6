import type { Problem, Result } from '#formats/problem.ts';
import type { UnitName } from '#units/unit.ts';
import { convert, unitKind } from '#units/unit.ts';
import type { GaugeReadings } from './check-gauge.ts';

/** A small table as it was read, column by column. */
export interface GaugeTable {
  columns: readonly {
    column: string;
    unit: UnitName | null;
    values: ArrayLike<number>;
    texts: readonly string[];
  }[];
  /** Line of each row in the file. */
  lines: readonly number[];
}

/** In whatever unit, no gauge goes so far. */
const LARGEST = 1e9;

const directionOf = (text: string): 'up' | 'down' | null | undefined => {
  const word = text.trim().toLowerCase();
  if (word === '') return null;
  return word === 'up' || word === 'down' ? word : undefined;
};

/**
 * The pairs of a gauge check out of a table with the columns "reference" and "reading", one unit of pressure or temperature in a heading,
 * and, if it is there, "direction" (up, down). The reference is taken to the unit of the reading where both name one: the correction is
 * applied to what the gauge shows.
 * @param file for the sentences; null for what was typed in
 */
export function gaugeReadingsOf(table: GaugeTable, file: string | null): Result<GaugeReadings> {
  const refuse = (path: string, reason: string): { ok: false; problems: Problem[] } => ({
    ok: false,
    problems: [{ code: 'bad-field', file, path, reason }],
  });
  const column = (name: string): GaugeTable['columns'][number] | undefined =>
    table.columns.find((each) => each.column.trim().toLowerCase().startsWith(name));
  const [reference, reading, direction] = [column('reference'), column('reading'), column('direction')];
  if (!reference || !reading)
    return refuse(
      'the heading',
      `needs the columns reference and reading; it has ${table.columns.map((each) => `"${each.column}"`).join(', ')}`,
    );
  const unit = reading.unit ?? reference.unit;
  if (unit === null)
    return refuse('the heading', 'names no unit; write it behind the name, "reference (psi),reading (psi)"');
  const from = reference.unit ?? unit;
  if (unitKind(from) !== unitKind(unit))
    return refuse(
      'the heading',
      `names ${from} for the reference and ${unit} for the reading, which cannot be compared`,
    );
  const directions = direction?.texts.map(directionOf) ?? [];
  const odd = directions.indexOf(undefined);
  if (odd >= 0)
    return refuse(
      `line ${table.lines[odd] ?? 0}`,
      `the direction "${direction?.texts[odd] ?? ''}" is neither up nor down; correct it or leave it empty`,
    );
  for (const [row, line] of table.lines.entries()) {
    const pair = [reference.values[row] ?? NaN, reading.values[row] ?? NaN];
    const missing = pair.filter((value) => Number.isNaN(value)).length;
    // Left out without a word it would be a check over other points than were taken.
    if (missing === 1)
      return refuse(
        `line ${line}`,
        `has no number for the ${Number.isNaN(pair[0]) ? 'reference' : 'reading'}; correct it or take the line out`,
      );
    if (pair.some((value) => Math.abs(value) > LARGEST))
      return refuse(`line ${line}`, 'holds a number that no gauge shows; correct it or take the line out');
  }
  return {
    ok: true,
    value: {
      unit,
      reference: Array.from(reference.values, (value) => convert(value, from, unit)),
      reading: Array.from(reading.values),
      ...(direction ? { direction: directions.map((each) => each ?? null) } : {}),
    },
  };
}
