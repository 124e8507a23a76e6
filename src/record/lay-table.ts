import { line, type Item, type TextWidth } from '#drawing/display-list.ts';
import type { Cell, TableColumn } from './content.ts';
import {
  faceOf,
  leadingOf,
  lineItems,
  movedNode,
  rule,
  strong,
  verdictMark,
  wrapped,
  type Laid,
  type Node,
} from './lay.ts';

const GUTTER = 2;
const PAD = 0.42;
const face = faceOf.tableTwo;

/** A table in pieces: its head and its rows, so that a long one can go on on the next page under the same head. */
export interface LaidTable {
  head: Laid;
  rows: Laid[];
}

/** Tables' nodes are rows; whoever composes the section puts them under one Table tag. */
export function layTable(
  columns: readonly TableColumn[],
  rows: readonly (readonly Cell[])[],
  width: number,
  rowHeads: boolean,
  measure: TextWidth,
): LaidTable {
  const widths = columnWidths(columns, rows, width - GUTTER * (columns.length - 1), measure);
  let x = 0;
  const placesOf = columns.map((column, index) => {
    const own = widths[index] ?? 0;
    const place = { x, width: own, right: column.right === true };
    x += own + GUTTER;
    return place;
  });

  /** A text may run on over the empty cells behind it: a gauge without a stated range has a long name more often than not. */
  const roomFor = (cells: readonly Cell[], index: number): number => {
    let last = index;
    while (placesOf[index]?.right !== true && cells[last + 1] === '') last++;
    const from = placesOf[index],
      to = placesOf[last];
    return from && to ? to.x + to.width - from.x : width;
  };

  const row = (cells: readonly Cell[], head: boolean): Laid => {
    const own = head ? strong(face) : face;
    let lines = 1;
    const nodes: Node[] = cells.map((cell, index): Node => {
      const place = placesOf[index] ?? { x: 0, width, right: false };
      const tag = head || (rowHeads && index === 0) ? 'TH' : 'TD';
      const scope = head ? ({ scope: 'Column' } as const) : tag === 'TH' ? ({ scope: 'Row' } as const) : {};
      let items: Item[];
      const verdict = typeof cell === 'string' ? {} : { verdict: cell.verdict };
      if (typeof cell === 'string') {
        const wrappedLines = wrapped([{ text: cell }], own, roomFor(cells, index), measure);
        lines = Math.max(lines, wrappedLines.length);
        items = lineItems(wrappedLines, own, place.width, place.right, measure);
      } else items = verdictMark(cell.verdict, cell.word, own, measure).items;
      return movedNode({ tag, ...scope, ...verdict, items }, place.x, PAD);
    });
    const height = lines * leadingOf(own) + 2 * PAD;
    return {
      height,
      artifacts: [line(0, height, width, height, head ? rule.tableHead : rule.row)],
      nodes: [{ tag: 'TR', children: nodes }],
    };
  };
  return {
    head: row(
      columns.map(({ head }) => head),
      true,
    ),
    rows: rows.map((cells) => row(cells, false)),
  };
}

/** Widths by what stands in the columns: where all fits on a line, what is left over is shared out; else the widest give way. */
function columnWidths(
  columns: readonly TableColumn[],
  rows: readonly (readonly Cell[])[],
  room: number,
  measure: TextWidth,
): number[] {
  const of = (cell: Cell | undefined, whole: boolean): number => {
    if (cell === undefined) return 0;
    if (typeof cell !== 'string') return verdictMark(cell.verdict, cell.word, strong(face), measure).width;
    return Math.max(
      ...(whole ? [cell] : cell.split(' ')).map((words) => measure(words, face.size, face.weight)),
    );
  };
  const head = (words: string, whole: boolean): number =>
    Math.max(...(whole ? [words] : words.split(' ')).map((part) => measure(part, face.size, 600)));
  const wish = columns.map(
    (column, index) => Math.max(head(column.head, true), ...rows.map((row) => of(row[index], true))) + 0.1,
  );
  const need = columns.map(
    (column, index) => Math.max(head(column.head, false), ...rows.map((row) => of(row[index], false))) + 0.1,
  );
  const sum = (list: readonly number[]): number => list.reduce((total, value) => total + value, 0);
  const spare = room - sum(wish);
  const shares = sum(columns.map(({ share }) => share));
  if (spare >= 0) return wish.map((own, index) => own + (spare * (columns[index]?.share ?? 0)) / shares);
  // The widest columns give way first, down to a common width but never below their longest word.
  const filled = (at: (level: number) => number[]): number[] => {
    let low = 0,
      high = Math.max(...wish);
    for (let step = 0; step < 40; step++) {
      const level = (low + high) / 2;
      if (sum(at(level)) > room) high = level;
      else low = level;
    }
    return at(low);
  };
  const shrunk = filled((level) =>
    wish.map((own, index) => Math.min(own, Math.max(need[index] ?? own, level))),
  );
  // Words too long for the table are broken where they stand; the columns of short ones keep theirs whole.
  return sum(shrunk) - room > 0.01 ? filled((level) => need.map((own) => Math.min(own, level))) : shrunk;
}
