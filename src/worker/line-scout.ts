import { findEncoding, textOf, toUtf8, type ToUtf8 } from '#log/encoding.ts';
import type { Encoding } from '#formats/log.ts';
import type { NumberedLine } from './excerpt.ts';

const HEAD_BYTES = 32 * 1024;
const TAIL_BYTES = 4 * 1024;
const LINE_FEED = 10,
  CARRIAGE_RETURN = 13;

/** Walks along while a file is read: keeps its first lines and its last, and counts. */
export interface LineScout {
  push(chunk: Uint8Array): void;
  end(): void;
  /** Line ends so far. */
  count(): number;
  head(): NumberedLine[];
  tail(lines: number): NumberedLine[];
}

export function createLineScout(stated: Encoding | null): LineScout {
  let decode: ToUtf8 | null = null;
  let markLength = 0;
  let lineEnd = LINE_FEED;
  let ends = 0,
    seen = 0;
  const headBytes = new Uint8Array(HEAD_BYTES);
  let headLength = 0;
  let tailBytes = new Uint8Array(0);
  let closed = false;

  const take = (bytes: Uint8Array): void => {
    ends += countOf(bytes, lineEnd);
    if (headLength < HEAD_BYTES) {
      const part = bytes.subarray(0, HEAD_BYTES - headLength);
      headBytes.set(part, headLength);
      headLength += part.length;
    }
    seen += bytes.length;
    const kept = bytes.length >= TAIL_BYTES ? bytes : joined(tailBytes, bytes);
    tailBytes = kept.slice(Math.max(0, kept.length - TAIL_BYTES));
  };

  return {
    push(chunk) {
      let bytes = chunk;
      if (decode === null) {
        const found = findEncoding(chunk.subarray(0, 64 * 1024));
        decode = toUtf8(stated ?? found.encoding);
        markLength = found.markLength;
        bytes = chunk.subarray(markLength);
        const text = decode.push(bytes);
        // Files of very old systems end their lines with a carriage return alone.
        if (!text.includes(LINE_FEED) && text.includes(CARRIAGE_RETURN)) lineEnd = CARRIAGE_RETURN;
        take(text);
        return;
      }
      take(decode.push(bytes));
    },
    end() {
      if (decode !== null && !closed) take(decode.end());
      closed = true;
    },
    count: () => ends,
    head() {
      const whole = headLength >= seen;
      const lines = linesOf(headBytes, headLength, lineEnd);
      if (!whole) lines.pop();
      return lines.map((text, index) => ({ line: index + 1, text }));
    },
    tail(wanted) {
      const lines = linesOf(tailBytes, tailBytes.length, lineEnd);
      const first = ends + 2 - lines.length;
      const complete = tailBytes.length < seen ? 1 : 0;
      return lines
        .map((text, index) => ({ line: first + index, text }))
        .slice(complete)
        .filter(({ text }) => text.trim() !== '')
        .slice(-wanted);
    },
  };
}

/**
 * How often a byte stands in a text, four bytes at a time: of a word the four are looked at one by one only where one of them may be
 * the byte. (A word has a byte of zero where word − 0x01010101 borrows into a high bit that the word has not.)
 */
export function countOf(bytes: Uint8Array, byte: number): number {
  let count = 0;
  const one = (from: number, to: number): void => {
    for (let i = from; i < to; i++) if (bytes[i] === byte) count++;
  };
  const lead = -bytes.byteOffset & 3;
  if (bytes.length < lead) {
    one(0, bytes.length);
    return count;
  }
  const words = new Uint32Array(bytes.buffer, bytes.byteOffset + lead, (bytes.length - lead) >> 2);
  const all = Math.imul(byte, 0x01010101);
  one(0, lead);
  for (let k = 0; k < words.length; k++) {
    const word = (words[k] ?? 0) ^ all;
    if (((word - 0x01010101) & ~word & 0x80808080) === 0) continue;
    const at = lead + 4 * k;
    if (bytes[at] === byte) count++;
    if (bytes[at + 1] === byte) count++;
    if (bytes[at + 2] === byte) count++;
    if (bytes[at + 3] === byte) count++;
  }
  one(lead + 4 * words.length, bytes.length);
  return count;
}

const joined = (a: Uint8Array, b: Uint8Array): Uint8Array<ArrayBuffer> => {
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
};
const linesOf = (bytes: Uint8Array, length: number, lineEnd: number): string[] =>
  textOf(bytes, 0, length)
    .split(lineEnd === LINE_FEED ? '\n' : '\r')
    .map((text) => text.replace(/\r$/u, ''));

/** Characters looked through for an example of a set-aside reading; beyond it the file is shown without one. */
const SEARCH_AT_MOST = 64 * 1024 * 1024;

/** The first line that `matches` and the one before it; null when there is none. */
export async function findLine(
  blob: Blob,
  encoding: Encoding,
  mark: string,
  matches: (text: string) => boolean,
): Promise<NumberedLine[] | null> {
  let line = 1,
    searched = 0,
    rest = '';
  let previous: NumberedLine | null = null;
  const reader = blob.stream().pipeThrough(new TextDecoderStream(encoding)).getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      const text: string = rest + (value ?? '');
      searched += value?.length ?? 0;
      // Most pieces hold no such text at all: they are only counted.
      const whole = done ? text.length : text.lastIndexOf('\n') + 1;
      const found = text.indexOf(mark);
      if (found !== -1 && found < whole) {
        const contents = text.slice(0, whole).split('\n');
        if (contents.at(-1) === '') contents.pop();
        for (const content of contents) {
          const numbered = { line, text: content.replace(/\r$/u, '') };
          if (content.includes(mark) && matches(numbered.text))
            return previous === null ? [numbered] : [previous, numbered];
          previous = numbered;
          line++;
        }
      } else {
        for (let at = text.indexOf('\n'); at !== -1 && at < whole; at = text.indexOf('\n', at + 1)) line++;
        const start = whole > 1 ? text.lastIndexOf('\n', whole - 2) + 1 : 0;
        if (whole > 0) previous = { line: line - 1, text: text.slice(start, whole).trimEnd() };
      }
      if (done || searched > SEARCH_AT_MOST) return null;
      rest = text.slice(whole);
    }
  } finally {
    await reader.cancel();
  }
}
