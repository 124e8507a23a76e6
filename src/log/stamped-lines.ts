import { bytesOf, joined, textOf, type ToUtf8 } from './encoding.ts';

/**
 * A console that puts its own time before each line that a microcontroller prints: `08:15:00.123 -> 410.1,48.2`,
 * `[08:15:00.123] 410.1;48.2` (common practice, no source).
 */
const stamp =
  /^\s*(?:(\d{1,2}:\d{2}:\d{2}(?:[.,]\d{1,6})?)\s*(?:->|=>|>)|\[(\d{1,2}:\d{2}:\d{2}(?:[.,]\d{1,6})?)\])[ \t]*/u;
const delimiters = [';', '\t', '|', ','] as const;
/** So many of the lines bear a stamp. */
const MOST = 0.9;

/**
 * What parts the fields behind the stamps, where nearly all lines bear one; null for any other text.
 * @param head text from the file's beginning; its last line may be cut
 */
export function stampedWith(head: string): string | null {
  // A last line that is still being written says nothing yet.
  const lines = head
    .split(/\r\n|\n|\r/u)
    .slice(0, -1)
    .filter((line) => line.trim() !== '');
  const rests = lines.flatMap((line) => {
    const found = stamp.exec(line);
    return found === null ? [] : [line.slice(found[0].length)];
  });
  if (rests.length === 0 || rests.length < MOST * lines.length) return null;
  const numbers = rests.filter(isNumbers);
  const parting = delimiters.find(
    (mark) => numbers.filter((rest) => rest.includes(mark)).length > MOST * numbers.length,
  );
  if (parting !== undefined) return parting;
  return numbers.some((rest) => /\S[ \t]+\S/u.test(rest.trim())) ? ' ' : ';';
}

/** Length of the stamp before a line; 0 without one. */
export const stampLength = (line: string): number => stamp.exec(line)?.[0].length ?? 0;

/** Begins with a number, or with what stands for one; a heading or a message begins with a letter. */
const isNumbers = (rest: string): boolean => /^[^\p{L}]*\d/u.test(rest);

/** The text with each stamp as a first column of its own, headed "Time". Lines stay lines. */
export function stampsAsColumn(
  decoder: ToUtf8,
  delimiter: string,
): ToUtf8 & { take(text: Uint8Array): Uint8Array } {
  const column = (line: string): string => {
    const found = stamp.exec(line);
    if (found === null) return line;
    const rest = line.slice(found[0].length);
    return `${isNumbers(rest) ? (found[1] ?? found[2] ?? '').replace(',', '.') : 'Time'}${delimiter}${rest}`;
  };
  const rewritten = (bytes: Uint8Array): Uint8Array =>
    bytesOf(textOf(bytes, 0, bytes.length).replaceAll(/[^\r\n]+/gu, column));
  let rest: Uint8Array = new Uint8Array(0);
  // Whole lines only: neither a stamp nor a character lies across two portions.
  const take = (text: Uint8Array): Uint8Array => {
    const all = joined(rest, text);
    const end = Math.max(all.lastIndexOf(LF), all.lastIndexOf(CR)) + 1;
    rest = all.slice(end);
    return rewritten(all.subarray(0, end));
  };
  return {
    /** Text that the decoder gave already. */
    take,
    push: (bytes) => take(decoder.push(bytes)),
    end() {
      const all = joined(rest, decoder.end());
      rest = new Uint8Array(0);
      return rewritten(all);
    },
  };
}

const LF = 10,
  CR = 13;
