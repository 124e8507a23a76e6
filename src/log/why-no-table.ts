import type { HeadLine } from './head-rows.ts';

/** Control characters that no log has; a single one (an old end-of-file mark) is forgiven. */
export function isNoText(text: string): boolean {
  const head = text.slice(0, 20_000);
  const damaged = head.match(/[^\P{Cc}\t\r\n\0\f\v]/gu)?.length ?? 0;
  return damaged > 3 && damaged > 0.01 * head.length;
}

const marks = [';', '\t', '|', ','] as const;

/** A heading, perhaps with its unit row, and nothing below. */
export function isHeadingOnly(lines: readonly HeadLine[]): boolean {
  const filled = lines.map((line) => line.text).filter((line) => line.trim() !== '');
  const last = filled.slice(-3);
  // Sentences have commas too.
  if (/[.!?]$/u.test((last.at(-1) ?? '').trimEnd())) return false;
  return marks.some((mark) => {
    const counts = last.map((line) => line.split(mark).filter((part) => part.trim() !== '').length);
    return (
      filled.length <= 20 &&
      (counts.at(-1) ?? 0) >= 2 &&
      (filled.length === 1 || counts.length < 3 || counts.at(-1) !== counts[0])
    );
  });
}

/** So much of a line is looked at: a pattern that begins anywhere must not run over megabytes without a line end. */
const LONGEST_LOOKED_AT = 300;

/** The reason where most lines are labels with numbers; else null. */
export function whyConsole(filled: readonly string[]): string | null {
  const labelled = filled.filter((line) =>
    // A time's own T is no label.
    /[a-z_]\w*\s*[:=]\s*-?\d/iu.test(line.slice(0, LONGEST_LOOKED_AT).replace(/\dT\d{2}:?\d{2}/gu, ' ')),
  ).length;
  return labelled > filled.length / 2
    ? 'its lines are labels with numbers, as printed on a console, and not columns under one heading'
    : null;
}

/** Why there is no table, as far as the lines tell. */
export function whyNoTable(lines: readonly HeadLine[]): string {
  const filled = lines.map((line) => line.text).filter((line) => line.trim() !== '');
  const timed = filled.filter((line) =>
    /^\W*(?:\d{1,4}[-./]\d{1,2}[-./]\d{1,4}|\d{1,2}:\d{2})/u.test(line),
  ).length;
  if (timed > filled.length / 2)
    return 'its lines are times followed by words, as in an event log, without columns of numbers';
  return whyConsole(filled) ?? 'no lines with the same number of columns of numbers were found';
}
