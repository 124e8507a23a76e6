import { readUnit } from '#units/read-unit.ts';
import { isWord } from './cell-class.ts';
import { refitted } from './fit-heading.ts';
import { commentMark, type HeadRow } from './head-rows.ts';

/** The rows of the head that name the columns. */
export interface HeadingRows {
  names: HeadRow[];
  units: HeadRow | null;
  /** Aggregation rows and the like. */
  others: HeadRow[];
}

const aggregations =
  /^(?:avg|average|mean|smp|sample|samples|min|max|minimum|maximum|std|sd|stdev|tot|total|sum|med|median|last|first|inst|raw|rms|cnt|count)$/iu;
/** What stands in a unit row without being a unit of ours. */
const unitLike =
  /^(?:ts|rn|[µμu]s|-+|%.*|[hms]{1,2}(?::[hms]{1,2}){1,2}(?:[.,]\w+)?|[ymdj]{1,4}[-./][ymdj]{1,2}[-./][ymdj]{1,4}.*|[µumkcd]?[a-zω°]{1,4}(?:[/*·][a-z0-9²³]{1,4})+|n\/?a)$/iu;

/** The rows above the first row of readings that name its columns: one to three of names, a unit row, an aggregation row. */
export function headingAbove(
  rows: readonly HeadRow[],
  first: number,
  width: number,
  delimiter: string,
): HeadingRows {
  const result: HeadingRows = { names: [], units: null, others: [] };
  let blanks = 0;
  for (let i = first - 1; i >= 0 && result.names.length < 3; i--) {
    const row = rows[i];
    if (row === undefined) break;
    const filled = row.classes.filter((found) => found !== 'empty').length;
    if (filled === 0) {
      if (++blanks > 1 || result.names.length > 0) break;
      continue;
    }
    const lowest = result.names[0];
    const fits =
      lowest === undefined
        ? (row.cells.length <= width + 1 && row.cells.length >= Math.max(1, width / 2)) ||
          refitted(row, width, delimiter) !== null
        : row.cells.length === lowest.cells.length && width > 2;
    // A unit row may bear one unit; a single text otherwise is a title.
    // Behind a blank line fewer fields than the table has are a remark or a setting above it.
    if (blanks > 0 && row.cells.length < width) break;
    const enough =
      width === 1 || (lowest === undefined && (width === 2 || (row.cells.length >= width && isUnits(row))))
        ? 1
        : 2;
    if (!fits || filled < enough || (lowest !== undefined && row.data)) break;
    // Units may stand above the names, too.
    if (lowest !== undefined && result.units === null && allUnits(row)) {
      result.units = row;
      break;
    }
    if (lowest === undefined && isUnits(row)) {
      if (result.units !== null) break;
      result.units = row;
    } else if (lowest === undefined && isAggregation(row)) result.others.push(row);
    else if (row.data && !row.classes.some((found) => found === 'other')) break;
    // A comment above the names is a remark, even where its commas make as many fields.
    else if (lowest !== undefined && (!tellsNames(row) || commentMark.test(row.cells[0] ?? ''))) break;
    else result.names.unshift(row);
  }
  // Single letters may be units or names; without a row of names above, they are the names.
  if (result.names.length === 0 && result.units !== null) {
    result.names = [result.units];
    result.units = null;
  }
  return result;
}

/** An upper row of a heading is text in two or more fields, none a number or a time. */
const tellsNames = (row: HeadRow): boolean =>
  row.classes.filter(isWord).length >= 2 &&
  row.classes.every((found) => isWord(found) || found === 'empty' || found === 'fault');

function isUnits(row: HeadRow): boolean {
  let known = 0,
    like = 0,
    filled = 0;
  for (const cell of row.cells) {
    const text = bare(cell);
    if (text === '') continue;
    filled++;
    if (readUnit(text) !== null) known++;
    else if (unitLike.test(text)) like++;
  }
  return (
    known + like > 0 && known + like >= 0.6 * filled && (known > 0 || like === filled) && !isAggregation(row)
  );
}
/** Units and nothing else, in two columns or more. */
const allUnits = (row: HeadRow): boolean => {
  const filled = row.cells.map(bare).filter((text) => text !== '');
  return filled.length >= 2 && filled.every((text) => readUnit(text) !== null);
};
function isAggregation(row: HeadRow): boolean {
  const filled = row.cells.map((cell) => cell.trim()).filter((cell) => cell !== '');
  return (
    filled.length > 0 &&
    filled.every((cell) => aggregations.test(cell)) &&
    !filled.every((cell) => readUnit(cell) !== null)
  );
}
/** A unit as it stands in its row, brackets taken off. */
export const bare = (cell: string): string => {
  const text = cell.trim();
  return text.length > LONGEST_NAME ? text : text.replace(/^[[({<]\s*(.*?)\s*[\])}>]$/u, '$1');
};

/** The heading where the rig file says that it stands. */
export function statedHeading(
  rows: readonly HeadRow[],
  first: number,
  line: number | null,
  unitLine: number | null,
): HeadingRows {
  const start = rows[first]?.line ?? 0;
  const names = line === null ? [] : rows.filter((row) => row.line === line);
  const between = line === null ? [] : rows.filter((row) => row.line > line && row.line < start);
  const units = rows.find((row) => row.line === unitLine) ?? between.find(isUnits) ?? null;
  return { names, units, others: between.filter((row) => row !== units) };
}

/** The lowest name that each column has of its own. */
export function lowestNames(rows: readonly HeadRow[], width: number): string[] {
  const byRow = rows.map((row) => joinedNames([row], width)).toReversed();
  return Array.from({ length: width }, (_, i) => byRow.find((names) => names[i] !== '')?.[i] ?? '');
}
/** A longer name is damage or a sentence; it is cut, so that the patterns of units and roles never run over it for long. */
const LONGEST_NAME = 200;

/** Names of the columns: upper rows spread to the right over blanks (merged cells), then the parts are joined. */
export function joinedNames(rows: readonly HeadRow[], width: number): string[] {
  const names = Array.from({ length: width }, () => '');
  for (const [level, row] of rows.entries()) {
    let carried = '';
    for (let i = 0; i < width; i++) {
      const whole = (row.cells[i] ?? '').trim();
      const own = (whole.length > LONGEST_NAME ? `${whole.slice(0, LONGEST_NAME)}…` : whole)
        .replace(/^\uFEFF/u, '')
        .replace(/^=?"(.*)"$/u, '$1');
      const text = i === 0 ? own.replace(commentMark, '') : own;
      if (text !== '') carried = text;
      const part = level < rows.length - 1 && text === '' ? carried : text;
      const name = names[i] ?? '';
      if (part !== '' && part !== name) names[i] = name === '' ? part : `${name} ${part}`;
    }
  }
  return names;
}
