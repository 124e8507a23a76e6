import { readUnit } from '#units/read-unit.ts';
import type { Layout } from './settle-layout.ts';

const unitHeading = /^(?:units?|einheit|unité|unidad|eenheid|enhet|jednotka)(?:[\s_#]*\d+)?$/iu;

/** For each column the place of the value column whose unit it holds, -1 for all others. */
export function unitColumns(layout: Layout, isValue: (column: number) => boolean): Int32Array {
  const result = new Int32Array(layout.width).fill(-1);
  for (let column = 1; column < layout.width; column++) {
    if (!isValue(column - 1) || result[column - 1] !== -1) continue;
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
    const named = unitHeading.test(layout.headings[column] ?? '');
    if (numbers === 0 && (named || (texts > 0 && known >= 0.8 * texts))) result[column] = column - 1;
  }
  return result;
}
