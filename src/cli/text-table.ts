import { NO_BREAK_SPACE, noBreak } from '#units/number-text.ts';
import type { Ink, Terminal } from './terminal.ts';
import { wrapped } from './wrapped.ts';

export interface Cell {
  text: string;
  ink?: Ink;
  /** Numbers stand right, so that their digits are under each other. */
  right?: boolean;
}
/** A row of a table; `under` is running text below it, set in. */
export interface Row {
  cells: readonly Cell[];
  under?: string;
}

const GAP = '  ';
const INDENT = '  ';

/**
 * Lines of a table: columns as wide as their widest cell. Where they do not fit beside each other, each row becomes a small paragraph:
 * the first cell, then the others named by their headings.
 */
export function tableLines(headings: readonly string[], rows: readonly Row[], terminal: Terminal): string[] {
  const widths = headings.map((heading, column) =>
    Math.max(heading.length, ...rows.map((row) => row.cells[column]?.text.length ?? 0)),
  );
  const whole = INDENT.length + widths.reduce((sum, width) => sum + width + GAP.length, -GAP.length);
  const under = ({ under: text }: Row): string[] =>
    text === undefined ? [] : paragraphLines(text, terminal, `${INDENT}${INDENT}`);
  if (whole > terminal.width)
    return rows.flatMap((row) => [
      ...row.cells.flatMap((cell, column) => {
        if (cell.text === '') return [];
        const heading = headings[column] ?? '';
        return [
          column === 0
            ? `${INDENT}${inked(cell, cell.text, terminal)}`
            : `${INDENT}${INDENT}${heading === '' ? '' : `${heading}: `}${inked(cell, cell.text, terminal)}`,
        ];
      }),
      ...under(row),
    ]);
  const line = (cells: readonly Cell[]): string =>
    `${INDENT}${cells
      .map((cell, column) => {
        const width = widths[column] ?? 0;
        const last = column === cells.length - 1;
        return inked(
          cell,
          cell.right === true ? cell.text.padStart(width) : last ? cell.text : cell.text.padEnd(width),
          terminal,
        );
      })
      .join(GAP)}`.trimEnd();
  const head = headings.map((text, column): Cell => ({
    text,
    ink: 'quiet',
    right: rows.some((row) => row.cells[column]?.right === true),
  }));
  return [
    ...(headings.some((heading) => heading !== '') ? [line(head)] : []),
    ...rows.flatMap((row) => [line(row.cells), ...under(row)]),
  ];
}

const inked = ({ ink }: Cell, text: string, terminal: Terminal): string =>
  ink === undefined ? text : terminal.ink(ink, text);

/** Running text, set in; the first line may begin with a mark of the same width. */
export function paragraphLines(text: string, terminal: Terminal, indent = '', first = indent): string[] {
  return wrapped(noBreak(text), terminal.width - indent.length).map(
    (line, index) => (index === 0 ? first : indent) + line.replaceAll(NO_BREAK_SPACE, ' '),
  );
}
