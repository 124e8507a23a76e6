import type { HeadRow } from './head-rows.ts';

/**
 * The decimal mark. Cells that cannot be digits in threes (`12,5`, `0,25`) decide; where there are none, a comma is a decimal
 * comma (`100,000` is one hundred). Between commas as delimiters only quoted numbers can show a decimal comma.
 */
export function decimalMark(rows: readonly HeadRow[], delimiter: string): '.' | ',' | null {
  let points = 0,
    commas = 0,
    surePoints = 0,
    sureCommas = 0;
  for (const row of rows)
    for (const [i, found] of row.classes.entries()) {
      if (found !== 'point' && found !== 'comma' && found !== 'grouped' && found !== 'with-unit') continue;
      const cell = (row.cells[i] ?? '').trim();
      const mark = /[.,](?=[^.,]*$)/u.exec(cell)?.[0];
      if (mark === undefined) continue;
      const couldBeGroups = /^[^\d]?[1-9]\d{0,2}[.,]\d{3}$/u.test(cell);
      const both = cell.includes('.') && cell.includes(',');
      const twice = !both && cell.indexOf(mark) !== cell.lastIndexOf(mark);
      if (twice) continue;
      if (mark === '.') {
        points++;
        if (!couldBeGroups || both) surePoints++;
      } else {
        commas++;
        if (!couldBeGroups || both) sureCommas++;
      }
    }
  if (surePoints !== sureCommas) return surePoints > sureCommas ? '.' : ',';
  if (points !== commas) return points > commas ? '.' : ',';
  return delimiter === ',' ? '.' : null;
}
