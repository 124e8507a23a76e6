import type { Log } from '#formats/log.ts';
import { BLANKS } from '#log/split-row.ts';
import { stampedWith, stampLength } from '#log/stamped-lines.ts';

/** A line of the file, its own text cut at the delimiters and not changed. */
export interface ExcerptLine {
  /** From 1. */
  line: number;
  kind: 'before' | 'heading' | 'units' | 'row';
  cells: string[];
  /** Place of the cell that was set aside as no reading. */
  setAside: number | null;
}

/** A few lines of the file as they stand, so that a person sees with his own eyes what was read as what. */
export interface Excerpt {
  delimiter: string;
  /** In file order; null stands for lines left out. */
  lines: (ExcerptLine | null)[];
  /** Names of the columns by their place in the rows. */
  columns: string[];
}

export interface NumberedLine {
  line: number;
  text: string;
}

/** Cells of a line with their quotes; delimiters inside quotes do not count (RFC 4180, section 2, rule 6). */
export function verbatimCells(text: string, delimiter: string): string[] {
  if (delimiter === BLANKS) return text.trim().split(/\s+/u);
  const cells: string[] = [];
  let start = 0,
    quoted = false;
  for (let i = 0; i < text.length; i++) {
    const letter = text[i];
    if (letter === '"') quoted = !quoted;
    else if (letter === delimiter && !quoted) {
      cells.push(text.slice(start, i));
      start = i + 1;
    }
  }
  cells.push(text.slice(start));
  return cells;
}

const ROWS_AT_HEAD = 3;
/** Heading and units stand at the head of what is shown; of a long preamble only the last lines are. */
const LINES_BEFORE = 2;

/**
 * @param head the file's first lines
 * @param example a line with a fault token and the one before it
 * @param tail the file's last lines
 */
export function excerptOf(
  log: Log,
  head: NumberedLine[],
  example: { lines: NumberedLine[]; place: number } | null,
  tail: NumberedLine[],
): Excerpt {
  const { delimiter, headerLine, unitLine } = log.dialect;
  const firstRow = Math.max(headerLine ?? 0, unitLine ?? 0) + 1;
  const kindOf = (line: number): ExcerptLine['kind'] =>
    line === headerLine ? 'heading' : line === unitLine ? 'units' : line < firstRow ? 'before' : 'row';
  const written = ({ text }: NumberedLine): boolean => text.trim() !== '';
  const skipped = new Set(log.skippedRows.map((row) => row.line));
  const before = head.filter((line) => kindOf(line.line) === 'before' && written(line)).slice(-LINES_BEFORE);
  const names = head.filter((line) => kindOf(line.line) === 'heading' || kindOf(line.line) === 'units');
  const rows = head.filter((line) => kindOf(line.line) === 'row' && written(line) && !skipped.has(line.line));
  const chosen = [...before, ...names, ...rows.slice(0, ROWS_AT_HEAD)];
  const faulty = example?.lines[example.lines.length - 1]?.line ?? null;
  for (const line of [...(example?.lines ?? []), ...tail])
    if (written(line) && !chosen.some((other) => other.line === line.line)) chosen.push(line);
  chosen.sort((a, b) => a.line - b.line);

  const stamped = stampedWith(`${head.map((line) => line.text).join('\n')}\n`) !== null;
  const cellsOf = (text: string, kind: ExcerptLine['kind']): string[] => {
    const stamp = stamped ? stampLength(text) : 0;
    const cells = verbatimCells(text.slice(stamp), delimiter);
    // The stamp is a column that the file's heading does not name.
    return stamp === 0 ? cells : [kind === 'heading' ? 'Time' : text.slice(0, stamp).trim(), ...cells];
  };

  const lines: (ExcerptLine | null)[] = [];
  let previous = 0;
  for (const { line, text } of chosen) {
    if (previous > 0 && line > previous + 1 && line > firstRow) lines.push(null);
    lines.push({
      line,
      kind: kindOf(line),
      cells: kindOf(line) === 'before' ? [text] : cellsOf(text, kindOf(line)),
      setAside: line === faulty ? (example?.place ?? null) : null,
    });
    previous = line;
  }
  return { delimiter, lines, columns: columnNames(log, lines) };
}

function columnNames(log: Log, lines: (ExcerptLine | null)[]): string[] {
  const heading = lines.find((line) => line?.kind === 'heading');
  const width = Math.max(
    0,
    ...lines.map((line) => (line === null || line.kind === 'before' ? 0 : line.cells.length)),
  );
  const names = Array.from(
    { length: width },
    (_, place) => heading?.cells[place]?.trim().replace(/^"(.*)"$/u, '$1') || `column ${place + 1}`,
  );
  for (const channel of log.channels) names[channel.position] = channel.column;
  return names;
}

/** The fault token to look for in the file, with the place of its column: the pressure's own before another's. */
export function tokenToShow(log: Log): { token: string; place: number } | null {
  const channels = [...log.channels].sort(
    (a, b) => Number(b.role === 'pressure') - Number(a.role === 'pressure'),
  );
  for (const channel of channels) {
    const token = channel.faultTokens[0]?.token;
    if (token !== undefined && token.trim() !== '') return { token: token.trim(), place: channel.position };
  }
  return null;
}
