import { Unzlib } from 'fflate';
import { PdfFault, PdfReader, type PdfDictionary, type PdfValue } from './pdf-value.ts';

/** A stream of a PDF file: what is said of it, and its bytes as they lie in the file. */
export interface PdfStream {
  dictionary: PdfDictionary;
  raw: Uint8Array;
}
type Place = { at: number } | { within: number; index: number };

const TAIL = 2048;
/** More than any log: a stream that unpacks to more is made to fill the memory. */
const UNPACKED_AT_MOST = 1024 * 1024 * 1024;
const MOST_OBJECTS = 1_000_000;

/**
 * A PDF file opened by its table of objects: the classic one that our own writer makes, and the packed one that other programs write when
 * they save a record again. Nothing is guessed: a file whose table is damaged is refused with a PdfFault.
 */
export class PdfFile {
  readonly trailer: PdfDictionary;
  private readonly bytes: Uint8Array;
  private readonly places = new Map<number, Place>();
  private readonly unpacked = new Map<number, Map<number, PdfValue>>();

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
    if (latin(bytes.subarray(0, 1024)).indexOf('%PDF-') < 0) throw new PdfFault('it is no PDF file');
    const tail = latin(bytes.subarray(Math.max(0, bytes.length - TAIL)));
    const start = /startxref\s+(\d+)\s+%%EOF\s*$/.exec(tail);
    if (start === null)
      throw new PdfFault(
        tail.includes('startxref') ? 'something follows its end' : 'it is cut off: its end is missing',
      );
    this.trailer = this.tables(Number(start[1]));
    if (this.trailer.has('Encrypt')) throw new PdfFault('it is locked with a password');
  }

  /** Reads the tables from the newest to the oldest: what a newer one names stands. */
  private tables(from: number): PdfDictionary {
    let newest: PdfDictionary | null = null;
    const seen = new Set<number>();
    const waiting = [from];
    for (let at = waiting.shift(); at !== undefined; at = waiting.shift()) {
      if (seen.has(at)) continue;
      seen.add(at);
      const trailer: PdfDictionary = this.table(at);
      newest ??= trailer;
      for (const key of ['XRefStm', 'Prev']) {
        const next = trailer.get(key);
        if (next?.kind === 'number') waiting.push(next.value);
      }
    }
    if (newest === null) throw new PdfFault('its table of objects is missing');
    return newest;
  }

  private table(at: number): PdfDictionary {
    const reader = new PdfReader(this.bytes, at);
    if (!reader.more()) throw new PdfFault('its table of objects is missing');
    const back = reader.at;
    if (reader.word() !== 'xref') {
      const stream = this.objectAt(back, null);
      if (!('raw' in stream)) throw new PdfFault('its table of objects is damaged');
      this.packedTable(stream);
      return stream.dictionary;
    }
    for (;;) {
      reader.more();
      const first = reader.word();
      if (first === 'trailer') break;
      reader.more();
      const count = reader.word();
      if (!/^\d+$/.test(first) || !/^\d+$/.test(count)) throw new PdfFault('its table of objects is damaged');
      if (Number(count) > MOST_OBJECTS) throw new PdfFault('its table of objects is damaged');
      for (let index = 0; index < Number(count); index++) {
        reader.more();
        const offset = reader.word();
        reader.more();
        reader.word();
        reader.more();
        const state = reader.word();
        if (!/^\d+$/.test(offset) || (state !== 'n' && state !== 'f'))
          throw new PdfFault('its table of objects is damaged');
        if (state === 'n') this.place(Number(first) + index, { at: Number(offset) });
      }
    }
    const trailer = reader.value();
    if (trailer.kind !== 'dictionary') throw new PdfFault('its table of objects has no end');
    return trailer.entries;
  }

  private packedTable(stream: PdfStream): void {
    const { dictionary } = stream;
    const widths = numbersIn(dictionary.get('W'));
    const size = numberOf(dictionary.get('Size')) ?? 0;
    const index = numbersIn(dictionary.get('Index'));
    const [typeWidth, fieldWidth, lastWidth] = widths;
    if (typeWidth === undefined || fieldWidth === undefined || lastWidth === undefined)
      throw new PdfFault('its table of objects is damaged');
    const data = this.unpack(stream);
    const length = typeWidth + fieldWidth + lastWidth;
    const read = (at: number, width: number): number => {
      let value = 0;
      for (let i = 0; i < width; i++) value = value * 256 + (data[at + i] ?? 0);
      return value;
    };
    const ranges = index.length > 0 ? index : [0, size];
    let at = 0;
    for (let range = 0; range + 1 < ranges.length; range += 2)
      for (let i = 0; i < (ranges[range + 1] ?? 0); i++) {
        if (at + length > data.length || length === 0) break;
        const type = typeWidth === 0 ? 1 : read(at, typeWidth);
        const field = read(at + typeWidth, fieldWidth);
        const last = read(at + typeWidth + fieldWidth, lastWidth);
        const number = (ranges[range] ?? 0) + i;
        if (type === 1) this.place(number, { at: field });
        if (type === 2) this.place(number, { within: field, index: last });
        at += length;
      }
  }

  private place(number: number, place: Place): void {
    if (!this.places.has(number)) this.places.set(number, place);
  }

  /** The value itself, or what a reference leads to; nothing there is null, as the standard has it. */
  resolve(value: PdfValue | undefined): PdfValue {
    let found: PdfValue = value ?? { kind: 'null' };
    for (let steps = 0; found.kind === 'reference'; steps++) {
      if (steps > 20) throw new PdfFault('its objects lead in a circle');
      const object = this.object(found.number);
      found = 'raw' in object ? { kind: 'dictionary', entries: object.dictionary } : object;
    }
    return found;
  }

  /** The dictionary that a value is or leads to; null where it is something else. */
  dictionary(value: PdfValue | undefined): PdfDictionary | null {
    const found = this.resolve(value);
    return found.kind === 'dictionary' ? found.entries : null;
  }
  /** The list that a value is or leads to; empty where it is something else. */
  list(value: PdfValue | undefined): readonly PdfValue[] {
    const found = this.resolve(value);
    return found.kind === 'array' ? found.items : [];
  }

  /** The stream that a reference leads to; null where there is none. */
  stream(value: PdfValue | undefined): PdfStream | null {
    if (value?.kind !== 'reference') return null;
    const object = this.object(value.number);
    return 'raw' in object ? object : null;
  }

  private object(number: number): PdfValue | PdfStream {
    const place = this.places.get(number);
    if (place === undefined) return { kind: 'null' };
    if ('at' in place) return this.objectAt(place.at, number);
    return this.packedObjects(place.within).get(number) ?? { kind: 'null' };
  }

  /** @param number that the object must have; null for a table of objects, which is no part of any table */
  private objectAt(at: number, number: number | null): PdfValue | PdfStream {
    const reader = new PdfReader(this.bytes, at);
    reader.more();
    const own = reader.word();
    reader.more();
    reader.word();
    reader.more();
    if (reader.word() !== 'obj' || !/^\d+$/.test(own) || (number !== null && Number(own) !== number))
      throw new PdfFault(
        number === null
          ? 'its table of objects is not where its end says'
          : `its table names a place for object ${number} where there is none`,
      );
    const value = reader.value();
    if (value.kind !== 'dictionary') return value;
    reader.more();
    if (reader.word() !== 'stream') return value;
    if (this.bytes[reader.at] === 13) reader.at++;
    if (this.bytes[reader.at] === 10) reader.at++;
    const length = numberOf(this.resolve(value.entries.get('Length')));
    if (length === null || reader.at + length > this.bytes.length)
      throw new PdfFault('a stream is longer than the file');
    return { dictionary: value.entries, raw: this.bytes.subarray(reader.at, reader.at + length) };
  }

  private packedObjects(number: number): Map<number, PdfValue> {
    const known = this.unpacked.get(number);
    if (known) return known;
    const found = new Map<number, PdfValue>();
    // Set before it is read: a pack within itself would never end.
    this.unpacked.set(number, found);
    const stream = this.object(number);
    if (!('raw' in stream)) throw new PdfFault('a pack of objects is missing');
    const data = this.unpack(stream);
    const first = numberOf(stream.dictionary.get('First')) ?? 0;
    const count = numberOf(stream.dictionary.get('N')) ?? 0;
    const heads = new PdfReader(data);
    for (let index = 0; index < count; index++) {
      heads.more();
      const own = Number(heads.word());
      heads.more();
      const offset = Number(heads.word());
      if (!Number.isInteger(own) || !Number.isInteger(offset))
        throw new PdfFault('a pack of objects is damaged');
      found.set(own, new PdfReader(data, first + offset).value());
    }
    return found;
  }

  /** Bytes of a stream as they were before they were packed. */
  unpack({ dictionary, raw }: PdfStream): Uint8Array {
    const filter = this.resolve(dictionary.get('Filter'));
    const names = (filter.kind === 'array' ? filter.items : [filter]).map((each) => this.resolve(each));
    const given = this.resolve(dictionary.get('DecodeParms'));
    const [parameters] = given.kind === 'array' ? given.items : [given];
    let bytes = raw;
    for (const name of names) {
      if (name.kind === 'null') continue;
      if (name.kind !== 'name' || name.name !== 'FlateDecode' || names.length > 1)
        throw new PdfFault(
          `a part is packed in a way that no record is (${name.kind === 'name' ? name.name : '?'})`,
        );
      bytes = inflated(bytes);
      const predictor = this.dictionary(parameters);
      if (predictor !== null && (numberOf(predictor.get('Predictor')) ?? 1) > 1)
        bytes = unpredicted(bytes, numberOf(predictor.get('Columns')) ?? 1);
    }
    return bytes;
  }
}

const latin = (bytes: Uint8Array): string => {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return text;
};
export const numberOf = (value: PdfValue | undefined): number | null =>
  value?.kind === 'number' ? value.value : null;
const numbersIn = (value: PdfValue | undefined): number[] =>
  value?.kind === 'array' ? value.items.flatMap((item) => numberOf(item) ?? []) : [];

/** zlib data (RFC 1950) unpacked, up to the most that is believed. Its own checksum is not looked at: what counts is held to a SHA-256. */
function inflated(bytes: Uint8Array): Uint8Array {
  const pieces: Uint8Array[] = [];
  let total = 0;
  const unpacker = new Unzlib((piece) => {
    total += piece.length;
    if (total > UNPACKED_AT_MOST) throw new PdfFault('a part unpacks to more than 1 GiB');
    pieces.push(piece.slice());
  });
  try {
    const STEP = 65536;
    for (let at = 0; at < bytes.length; at += STEP)
      unpacker.push(bytes.subarray(at, at + STEP), at + STEP >= bytes.length);
  } catch (error) {
    if (error instanceof PdfFault) throw error;
    throw new PdfFault('a packed part is damaged');
  }
  const whole = new Uint8Array(total);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/** Undoes the row filters of PNG (W3C PNG, clause 9), which packed tables of objects use; one byte a column. */
function unpredicted(bytes: Uint8Array, columns: number): Uint8Array {
  const rows = Math.floor(bytes.length / (columns + 1));
  const result = new Uint8Array(rows * columns);
  for (let row = 0; row < rows; row++) {
    const filter = bytes[row * (columns + 1)] ?? 0;
    for (let i = 0; i < columns; i++) {
      const left = i > 0 ? (result[row * columns + i - 1] ?? 0) : 0;
      const up = row > 0 ? (result[(row - 1) * columns + i] ?? 0) : 0;
      const upLeft = i > 0 && row > 0 ? (result[(row - 1) * columns + i - 1] ?? 0) : 0;
      const guess =
        filter === 1
          ? left
          : filter === 2
            ? up
            : filter === 3
              ? (left + up) >> 1
              : filter === 4
                ? paeth(left, up, upLeft)
                : 0;
      result[row * columns + i] = ((bytes[row * (columns + 1) + 1 + i] ?? 0) + guess) & 255;
    }
  }
  return result;
}
function paeth(left: number, up: number, upLeft: number): number {
  const guess = left + up - upLeft;
  const a = Math.abs(guess - left),
    b = Math.abs(guess - up),
    c = Math.abs(guess - upLeft);
  return a <= b && a <= c ? left : b <= c ? up : upLeft;
}
