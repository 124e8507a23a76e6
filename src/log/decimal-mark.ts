import type { HeadRow } from './head-rows.ts';

/**
 * The decimal mark. Cells that cannot be digits in threes (`12,5`, `0,25`) decide; where there are none, a comma is a decimal
 * comma (`100,000` is one hundred). Between commas as delimiters only quoted numbers can show a decimal comma.
 */
export function decimalMark(rows: readonly HeadRow[], delimiter: string): '.' | ',' | null {
  const groups = new GroupsByColumn();
  const firstTwice = new Map<number, string>();
  let points = 0,
    commas = 0,
    surePoints = 0,
    sureCommas = 0,
    twicePoints = 0,
    twiceCommas = 0;
  for (const row of rows)
    for (const [i, found] of row.classes.entries()) {
      if (found === 'integer') groups.whole(i, row.cells[i] ?? '');
      if (found !== 'point' && found !== 'comma' && found !== 'grouped' && found !== 'with-unit') continue;
      const cell = (row.cells[i] ?? '').trim();
      const mark = /[.,](?=[^.,]*$)/u.exec(cell)?.[0];
      if (mark === undefined) continue;
      const couldBeGroups = /^[^\d]?[1-9]\d{0,2}[.,]\d{3}$/u.test(cell);
      const both = cell.includes('.') && cell.includes(',');
      const twice = !both && cell.indexOf(mark) !== cell.lastIndexOf(mark);
      // "2.826.540": a mark that stands twice in a number parts thousands. The same in all rows may be a version.
      if (twice && found === 'grouped') {
        const before = firstTwice.get(i);
        if (before === undefined) firstTwice.set(i, cell);
        else if (before !== cell && mark === '.') twicePoints++;
        else if (before !== cell) twiceCommas++;
      }
      if (twice) continue;
      if (couldBeGroups) groups.marked(i);
      if (mark === '.') {
        points++;
        if (!couldBeGroups || both) surePoints++;
      } else {
        commas++;
        if (!couldBeGroups || both) sureCommas++;
      }
    }
  if (surePoints !== sureCommas) return surePoints > sureCommas ? '.' : ',';
  if (surePoints === 0 && twicePoints > 0 && twiceCommas === 0) return ',';
  if (surePoints === 0 && twiceCommas > 0 && twicePoints === 0) return '.';
  // 998, 999, 1.000, 1.001 in one column: the mark parts thousands. Unproven it is no number, and as the other mark it is none.
  if (surePoints === 0 && (points === 0) !== (commas === 0) && groups.likely()) return points > 0 ? ',' : '.';
  if (points !== commas) return points > commas ? '.' : ',';
  return delimiter === ',' ? '.' : null;
}

/** Columns in which whole numbers below a thousand stand among numbers that may have a separator of thousands. */
class GroupsByColumn {
  private readonly largest = new Map<number, number>();
  private readonly withMark = new Set<number>();

  whole(column: number, cell: string): void {
    const size = Math.abs(Number(cell.trim().replace(/^[−–]/u, '-')));
    this.largest.set(column, Math.max(this.largest.get(column) ?? 0, size));
  }
  marked(column: number): void {
    this.withMark.add(column);
  }
  likely(): boolean {
    return [...this.withMark].some((column) => {
      const largest = this.largest.get(column) ?? 0;
      return largest >= 100 && largest < 1000;
    });
  }
}
