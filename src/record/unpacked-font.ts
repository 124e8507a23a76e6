import { unzlibSync } from 'fflate';

/** Of a WOFF file: its head, and what it says of each table. */
const HEAD = 44,
  ENTRY = 20;

const known = new WeakMap<Uint8Array, Uint8Array>();

/**
 * A WOFF font with no table packed, which such a file may have too: the PDF's writer would unpack a table anew for every letter, which took
 * nearly half of a record's time. The writer makes the same bytes of both.
 * Source: W3C WOFF File Format 1.0, clauses 4 and 5: a head of 44 bytes, then 20 bytes a table (tag, offset, packed and own length, sum).
 * @param woff not changed afterwards; what was unpacked once is kept as long as it is
 */
export function unpackedFont(woff: Uint8Array): Uint8Array {
  let font = known.get(woff);
  if (font === undefined) known.set(woff, (font = withTablesUnpacked(woff)));
  return font;
}

function withTablesUnpacked(woff: Uint8Array): Uint8Array {
  const tables = new DataView(woff.buffer, woff.byteOffset, woff.byteLength),
    headLength = HEAD + ENTRY * tables.getUint16(12);
  const pieces: { at: number; bytes: Uint8Array }[] = [],
    head = woff.slice(0, headLength),
    entries = new DataView(head.buffer);
  let size = headLength;
  for (let entry = HEAD; entry < headLength; entry += ENTRY) {
    const offset = tables.getUint32(entry + 4),
      packed = tables.getUint32(entry + 8),
      length = tables.getUint32(entry + 12);
    const bytes = woff.subarray(offset, offset + packed);
    pieces.push({ at: size, bytes: packed < length ? unzlibSync(bytes) : bytes });
    entries.setUint32(entry + 4, size);
    entries.setUint32(entry + 8, length);
    // Tables begin at multiples of four bytes.
    size += (length + 3) & ~3;
  }
  entries.setUint32(8, size);
  const font = new Uint8Array(size);
  font.set(head);
  for (const { at, bytes } of pieces) font.set(bytes, at);
  return font;
}
