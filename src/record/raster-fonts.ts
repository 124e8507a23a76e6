import { unzlibSync } from 'fflate';
import { fontKeys, type FontKey, type RecordFonts } from './fonts.ts';

/** Family under which a face is asked for by the picture's renderer: one of its own each, so that no order of files decides which is taken. */
export const rasterFamily = (key: FontKey): string => `record-${key}`;

/** Every face as the picture's renderer reads it: unpacked, and under its own name. */
export const rasterFonts = (fonts: RecordFonts): Uint8Array[] =>
  fontKeys.map((key) => renamedFont(fonts[key], rasterFamily(key)));

const HEADER = 12;
const ENTRY = 16;

/**
 * A WOFF file unpacked to the OpenType file within it, with a table of names of our own. Source: W3C WOFF File Format 1.0, clauses 4 to 6,
 * and OpenType 1.9, "name" (from memory). The renderer takes no WOFF and says nothing of it.
 * @throws RangeError for bytes that are no WOFF file: the fonts are the program's own
 */
function renamedFont(woff: Uint8Array, family: string): Uint8Array {
  const view = new DataView(woff.buffer, woff.byteOffset, woff.byteLength);
  if (view.getUint32(0) !== 0x774f4646) throw new RangeError('a font of the record is no WOFF file');
  const count = view.getUint16(12);
  const tables: { tag: number; data: Uint8Array }[] = [];
  for (let index = 0; index < count; index++) {
    const at = 44 + 20 * index;
    const tag = view.getUint32(at),
      offset = view.getUint32(at + 4),
      packed = view.getUint32(at + 8),
      length = view.getUint32(at + 12);
    const bytes = woff.subarray(offset, offset + packed);
    // 'name'
    if (tag === 0x6e616d65) tables.push({ tag, data: nameTable(family) });
    else
      tables.push({
        tag,
        data: packed < length ? unzlibSync(bytes, { out: new Uint8Array(length) }) : bytes,
      });
  }
  const padded = (length: number): number => (length + 3) & ~3;
  const size = tables.reduce((sum, { data }) => sum + padded(data.length), HEADER + ENTRY * count);
  const font = new Uint8Array(size);
  const out = new DataView(font.buffer);
  out.setUint32(0, view.getUint32(4));
  out.setUint16(4, count);
  const power = 31 - Math.clz32(count);
  out.setUint16(6, 16 << power);
  out.setUint16(8, power);
  out.setUint16(10, count * 16 - (16 << power));
  let place = HEADER + ENTRY * count;
  tables.forEach(({ tag, data }, index) => {
    const at = HEADER + ENTRY * index;
    font.set(data, place);
    out.setUint32(at, tag);
    out.setUint32(at + 4, sumOf(out, place, padded(data.length)));
    out.setUint32(at + 8, place);
    out.setUint32(at + 12, data.length);
    place += padded(data.length);
  });
  return font;
}

/** Names 1 (family), 2 (style), 4 (full name) and 6 (PostScript name), in UTF-16 for Windows. */
function nameTable(family: string): Uint8Array {
  const names: (readonly [number, string])[] = [
    [1, family],
    [2, 'Regular'],
    [4, family],
    [6, family],
  ];
  const letters = names.map(([, text]) => text).join('');
  const start = 6 + 12 * names.length;
  const table = new DataView(new ArrayBuffer(start + 2 * letters.length));
  table.setUint16(2, names.length);
  table.setUint16(4, start);
  let offset = 0;
  names.forEach(([id, text], index) => {
    const at = 6 + 12 * index;
    [3, 1, 0x409, id, 2 * text.length, offset].forEach((value, field) =>
      table.setUint16(at + 2 * field, value),
    );
    offset += 2 * text.length;
  });
  for (let i = 0; i < letters.length; i++) table.setUint16(start + 2 * i, letters.charCodeAt(i));
  return new Uint8Array(table.buffer);
}

function sumOf(view: DataView, from: number, length: number): number {
  let sum = 0;
  for (let at = from; at < from + length; at += 4) sum = (sum + view.getUint32(at)) >>> 0;
  return sum;
}
