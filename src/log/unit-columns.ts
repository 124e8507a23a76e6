import { readUnit } from '#units/read-unit.ts';
import type { Layout } from './settle-layout.ts';

const unitHeading = /^(?:units?|einheit|unité|unidad|eenheid|enhet|jednotka)(?:[\s_#]*\d+)?$/iu;

/**
 * For each column the place of the value column whose unit it holds, -1 for all others. Units stand behind their values; where the first
 * of them has no value in front of it, all stand before.
 */
export function unitColumns(layout: Layout, isValue: (column: number) => boolean): Int32Array {
  const result = new Int32Array(layout.width).fill(-1);
  const holds = Array.from(
    { length: layout.width },
    (_, column) => isValue(column) && holdsUnits(layout, column),
  );
  const isReading = (column: number): boolean =>
    column >= 0 && column < layout.width && isValue(column) && holds[column] === 'no';
  const first = holds.findIndex((found) => found === 'units');
  const before = first >= 0 && !isReading(first - 1) && isReading(first + 1);
  for (let column = 0; column < layout.width; column++) {
    const of = before ? column + 1 : column - 1;
    if (holds[column] !== 'no' && holds[column] !== false && isReading(of)) result[column] = of;
  }
  return result;
}

/** Whether a column holds texts that are units, or is headed so. */
function holdsUnits(layout: Layout, column: number): 'units' | 'named' | 'no' {
  let texts = 0,
    known = 0,
    numbers = 0;
  for (const row of layout.rows) {
    const cell = (row.cells[column] ?? '').trim();
    if (cell === '') continue;
    const found = row.classes[column];
    if (found !== 'other' && found !== 'fault') numbers++;
    else {
      texts++;
      if (readUnit(cell) !== null) known++;
    }
  }
  if (numbers > 0) return 'no';
  if (texts > 0 && known >= 0.8 * texts) return 'units';
  return unitHeading.test(layout.headings[column] ?? '') ? 'named' : 'no';
}
