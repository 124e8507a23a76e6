/**
 * What a PDF file is made of. Source of all names and rules of reading: ISO 32000-1:2008, 7.2 to 7.5 (from memory; held to what our own
 * writer and qpdf write, by tests).
 */
export type PdfValue =
  | { kind: 'null' }
  | { kind: 'boolean'; value: boolean }
  | { kind: 'number'; value: number }
  | { kind: 'name'; name: string }
  | { kind: 'string'; bytes: Uint8Array }
  | { kind: 'reference'; number: number }
  | { kind: 'array'; items: PdfValue[] }
  | { kind: 'dictionary'; entries: ReadonlyMap<string, PdfValue> }
  /** An operator of a page's content, or a word of the file's frame such as `obj`. */
  | { kind: 'word'; word: string };
export type PdfDictionary = ReadonlyMap<string, PdfValue>;

/** A file that is not what it should be: caught where a file is opened, and told there. */
export class PdfFault extends Error {
  override name = 'PdfFault';
}

/** Nothing of ours nests so deep: a file that does is made to exhaust its reader. */
const DEEPEST = 60;
const isBlank = (byte: number): boolean =>
  byte === 32 || byte === 10 || byte === 13 || byte === 9 || byte === 12 || byte === 0;
/** ( ) < > [ ] { } / % */
const delimiters = new Set([40, 41, 60, 62, 91, 93, 123, 125, 47, 37]);
const isRegular = (byte: number): boolean => !isBlank(byte) && !delimiters.has(byte);
const hexDigit = (byte: number): number => {
  if (byte >= 48 && byte <= 57) return byte - 48;
  if (byte >= 65 && byte <= 70) return byte - 55;
  return byte >= 97 && byte <= 102 ? byte - 87 : -1;
};
/** Letters after a backslash in a string. */
const escapes = new Map([
  [110, 10],
  [114, 13],
  [116, 9],
  [98, 8],
  [102, 12],
]);

/** Reads values one after the other from bytes. */
export class PdfReader {
  readonly bytes: Uint8Array;
  at: number;

  constructor(bytes: Uint8Array, at = 0) {
    this.bytes = bytes;
    this.at = at;
  }

  /** Goes over blanks and comments. @returns false at the end */
  more(): boolean {
    for (; this.at < this.bytes.length; this.at++) {
      const byte = this.bytes[this.at] ?? 0;
      if (byte === 37) {
        while (this.at < this.bytes.length && this.bytes[this.at] !== 10 && this.bytes[this.at] !== 13)
          this.at++;
      } else if (!isBlank(byte)) return true;
    }
    return false;
  }

  /** The next value; references ("12 0 R") are put together. */
  value(depth = 0): PdfValue {
    if (depth > DEEPEST) throw new PdfFault('its parts are nested deeper than any record');
    if (!this.more()) throw new PdfFault('it ends in the middle of a value');
    const byte = this.bytes[this.at] ?? 0;
    switch (byte) {
      case 47:
        return this.name();
      case 40:
        return this.text();
      case 91:
        return this.array(depth);
      case 60:
        return this.bytes[this.at + 1] === 60 ? this.dictionary(depth) : this.hex();
      case 41:
      case 62:
      case 93:
      case 123:
      case 125:
        throw new PdfFault(`there is a "${String.fromCharCode(byte)}" where a value should be`);
      default:
        return this.wordOrNumber();
    }
  }

  private name(): PdfValue {
    this.at++;
    let name = '';
    for (; this.at < this.bytes.length; this.at++) {
      const byte = this.bytes[this.at] ?? 0;
      if (!isRegular(byte)) break;
      const high = hexDigit(this.bytes[this.at + 1] ?? 0),
        low = hexDigit(this.bytes[this.at + 2] ?? 0);
      if (byte === 35 && high >= 0 && low >= 0) {
        name += String.fromCharCode(high * 16 + low);
        this.at += 2;
      } else name += String.fromCharCode(byte);
    }
    return { kind: 'name', name };
  }

  private text(): PdfValue {
    const found: number[] = [];
    let open = 1;
    for (this.at++; this.at < this.bytes.length; this.at++) {
      const byte = this.bytes[this.at] ?? 0;
      if (byte === 92) {
        this.at++;
        const next = this.bytes[this.at] ?? 0;
        const octal = next >= 48 && next <= 55;
        if (octal) {
          let code = 0;
          for (let digits = 0; digits < 3; digits++, this.at++) {
            const digit = (this.bytes[this.at] ?? 0) - 48;
            if (digit < 0 || digit > 7) break;
            code = code * 8 + digit;
          }
          this.at--;
          found.push(code & 255);
        } else if (next === 13) {
          if (this.bytes[this.at + 1] === 10) this.at++;
        } else if (next !== 10) found.push(escapes.get(next) ?? next);
        continue;
      }
      if (byte === 40) open++;
      if (byte === 41 && --open === 0) {
        this.at++;
        return { kind: 'string', bytes: Uint8Array.from(found) };
      }
      found.push(byte);
    }
    throw new PdfFault('it ends in the middle of a text');
  }

  private hex(): PdfValue {
    const digits: number[] = [];
    for (this.at++; this.at < this.bytes.length; this.at++) {
      const byte = this.bytes[this.at] ?? 0;
      if (byte === 62) {
        this.at++;
        if (digits.length % 2 === 1) digits.push(0);
        const bytes = new Uint8Array(digits.length / 2);
        for (let i = 0; i < bytes.length; i++)
          bytes[i] = (digits[2 * i] ?? 0) * 16 + (digits[2 * i + 1] ?? 0);
        return { kind: 'string', bytes };
      }
      if (isBlank(byte)) continue;
      const digit = hexDigit(byte);
      if (digit < 0) throw new PdfFault('a text in hexadecimal digits holds something else');
      digits.push(digit);
    }
    throw new PdfFault('it ends in the middle of a text');
  }

  private array(depth: number): PdfValue {
    const items: PdfValue[] = [];
    for (this.at++; this.more();) {
      if (this.bytes[this.at] === 93) {
        this.at++;
        return { kind: 'array', items };
      }
      items.push(this.value(depth + 1));
    }
    throw new PdfFault('it ends in the middle of a list');
  }

  private dictionary(depth: number): PdfValue {
    const entries = new Map<string, PdfValue>();
    for (this.at += 2; this.more();) {
      if (this.bytes[this.at] === 62 && this.bytes[this.at + 1] === 62) {
        this.at += 2;
        return { kind: 'dictionary', entries };
      }
      const key = this.value(depth + 1);
      if (key.kind !== 'name') throw new PdfFault('a key is no name');
      entries.set(key.name, this.value(depth + 1));
    }
    throw new PdfFault('it ends in the middle of an object');
  }

  private wordOrNumber(): PdfValue {
    const word = this.word();
    const value = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(word) ? Number(word) : null;
    if (value === null) {
      if (word === 'true' || word === 'false') return { kind: 'boolean', value: word === 'true' };
      return word === 'null' ? { kind: 'null' } : { kind: 'word', word };
    }
    if (Number.isInteger(value) && value >= 0) {
      const back = this.at;
      if (this.more() && /^\d+$/.test(this.word()) && this.more() && this.word() === 'R')
        return { kind: 'reference', number: value };
      this.at = back;
    }
    return { kind: 'number', value };
  }

  /** Letters up to the next blank or bracket. */
  word(): string {
    const from = this.at;
    while (this.at < this.bytes.length && isRegular(this.bytes[this.at] ?? 0)) this.at++;
    if (this.at === from) return '';
    // Longer than any word or number that there is.
    if (this.at - from > 200) throw new PdfFault('it holds no values where they should be');
    return String.fromCharCode(...this.bytes.subarray(from, this.at));
  }
}
