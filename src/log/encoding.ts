import type { Encoding } from '#formats/log.ts';

// Part of the Encoding standard that Node and browsers share; this room sees neither's types.
declare const TextDecoder: new (
  label: string,
  options?: { fatal?: boolean; ignoreBOM?: boolean },
) => { decode(bytes?: Uint8Array, options?: { stream?: boolean }): string };
declare const TextEncoder: new () => { encode(text: string): Uint8Array };

/** What the first bytes say about how the text is written. */
export interface EncodingFound {
  encoding: Encoding;
  /** Bytes of the byte order mark, 0 without. */
  markLength: number;
}

/**
 * Tells the encoding from the head of a file: byte order mark; else the NUL pattern of UTF-16; else UTF-8 if it decodes (a few
 * damaged characters among good ones do not count against it); else Windows-1252.
 * @param head the first bytes, 64 KiB at most; may end within a character
 */
export function findEncoding(head: Uint8Array): EncodingFound {
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) return { encoding: 'utf-8', markLength: 3 };
  if (head[0] === 0xff && head[1] === 0xfe) return { encoding: 'utf-16le', markLength: 2 };
  if (head[0] === 0xfe && head[1] === 0xff) return { encoding: 'utf-16be', markLength: 2 };
  const pairs = head.length >> 1;
  let even = 0,
    odd = 0;
  for (let i = 0; i < pairs; i++) {
    if (head[2 * i] === 0) even++;
    if (head[2 * i + 1] === 0) odd++;
  }
  // A table in UTF-16 is nearly all below U+0100: one byte of each pair is 0, the other hardly ever.
  if (pairs >= 4 && odd > 0.6 * pairs && even < 0.05 * pairs) return { encoding: 'utf-16le', markLength: 0 };
  if (pairs >= 4 && even > 0.6 * pairs && odd < 0.05 * pairs) return { encoding: 'utf-16be', markLength: 0 };
  const { good, bad } = utf8Sequences(head);
  return { encoding: bad === 0 || good > bad ? 'utf-8' : 'windows-1252', markLength: 0 };
}

/** Counts well-formed multi-byte sequences (RFC 3629, section 4) and bytes that belong to none; a sequence cut at the end counts as neither. */
function utf8Sequences(bytes: Uint8Array): { good: number; bad: number } {
  let good = 0,
    bad = 0,
    i = 0;
  while (i < bytes.length) {
    const lead = bytes[i] ?? 0;
    if (lead < 0x80) {
      i++;
      continue;
    }
    const length =
      lead >= 0xc2 && lead <= 0xdf
        ? 2
        : lead >= 0xe0 && lead <= 0xef
          ? 3
          : lead >= 0xf0 && lead <= 0xf4
            ? 4
            : 0;
    let follow = 1;
    while (follow < length && i + follow < bytes.length && ((bytes[i + follow] ?? 0) & 0xc0) === 0x80)
      follow++;
    if (length > 0 && follow === length) {
      good++;
      i += length;
    } else if (length > 0 && i + follow === bytes.length) i = bytes.length;
    else {
      bad++;
      i++;
    }
  }
  return { good, bad };
}

/** Turns the file's bytes into UTF-8 as they come; UTF-8 passes untouched. */
export interface ToUtf8 {
  push(bytes: Uint8Array): Uint8Array;
  /** What was held back at the end (half of a pair). */
  end(): Uint8Array;
}

const nothing = new Uint8Array(0);

/** A converter from the log's encoding to UTF-8 bytes, piece by piece; UTF-8 passes unchanged. */
export function toUtf8(encoding: Encoding): ToUtf8 {
  if (encoding === 'utf-8') return { push: (bytes) => bytes, end: () => nothing };
  const decoder = new TextDecoder(encoding, { ignoreBOM: true });
  const encoder = new TextEncoder();
  return {
    push: (bytes) => encoder.encode(decoder.decode(bytes, { stream: true })),
    end: () => encoder.encode(decoder.decode()),
  };
}

let utf8: InstanceType<typeof TextDecoder> | null = null;
/** Text of a piece of UTF-8; damaged characters become U+FFFD. */
export function textOf(bytes: Uint8Array, from: number, to: number): string {
  if (to - from <= 24) {
    let text = '';
    let i = from;
    for (; i < to; i++) {
      const code = bytes[i] ?? 0;
      if (code >= 0x80) break;
      text += String.fromCharCode(code);
    }
    if (i === to) return text;
  }
  utf8 ??= new TextDecoder('utf-8', { ignoreBOM: true });
  return utf8.decode(bytes.subarray(from, to));
}
/** UTF-8 bytes of a text. */
export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Both, in bytes of their own: the caller may use the second again. */
export function joined(a: Uint8Array, b: Uint8Array): Uint8Array {
  const result = new Uint8Array(a.length + b.length);
  result.set(a);
  result.set(b, a.length);
  return result;
}
