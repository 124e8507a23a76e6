import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { inflateSync } from 'node:zlib';
import { fontFiles, fontKeys, type RecordFonts } from '#record/fonts.ts';

const { resolve } = createRequire(import.meta.url);
const each = (take: (file: Buffer) => Uint8Array): RecordFonts =>
  Object.fromEntries(
    fontKeys.map((key) => [key, take(readFileSync(resolve(fontFiles[key])))]),
  ) as unknown as RecordFonts;

/** The record's fonts as a command reads them. */
export const packedFonts = each((file) => new Uint8Array(file));
/**
 * The same with no table packed, which a WOFF file may have too. The PDF's writer unpacks a table for every letter, which takes nearly half
 * of a record's time; record-pdf.test.ts shows that the bytes of the record are the same.
 */
export const fontsOnDisk = each(withTablesUnpacked);

/** Source: W3C WOFF File Format 1.0, clauses 4 and 5: a head of 44 bytes, then 20 bytes a table (tag, offset, packed and own length, sum). */
function withTablesUnpacked(woff: Buffer): Uint8Array {
  const head = Buffer.from(woff.subarray(0, 44 + 20 * woff.readUInt16BE(12)));
  const pieces = [head];
  let size = head.length;
  for (let at = 44; at < head.length; at += 20) {
    const offset = woff.readUInt32BE(at + 4),
      packed = woff.readUInt32BE(at + 8),
      length = woff.readUInt32BE(at + 12);
    const bytes = woff.subarray(offset, offset + packed);
    const table = Buffer.alloc((length + 3) & ~3);
    table.set(packed < length ? inflateSync(bytes) : bytes);
    head.writeUInt32BE(size, at + 4);
    head.writeUInt32BE(length, at + 8);
    pieces.push(table);
    size += table.length;
  }
  head.writeUInt32BE(size, 8);
  return new Uint8Array(Buffer.concat(pieces));
}
