/** One file within a packed one. */
export interface PackedEntry {
  name: string;
  /** 0: as it is; 8: deflated. */
  method: number;
  packed: number;
  size: number;
  /** Where its own header begins. */
  at: number;
}

const END = 0x06054b50;
const ENTRY = 0x02014b50;
const LOCAL = 0x04034b50;
const LONGEST_COMMENT = 65_535;

/**
 * The files within a packed file, by its central directory (APPNOTE of the ZIP format, 4.3.7, 4.3.12 and 4.3.16; from memory).
 * @returns none for a file without a directory, which its reader refuses
 */
export function packedEntries(bytes: Uint8Array): PackedEntry[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  const first = Math.max(0, end - LONGEST_COMMENT);
  while (end >= first && view.getUint32(end, true) !== END) end--;
  if (end < first) return [];
  const found: PackedEntry[] = [];
  let at = view.getUint32(end + 16, true);
  while (at + 46 <= end && view.getUint32(at, true) === ENTRY) {
    const nameLength = view.getUint16(at + 28, true);
    found.push({
      name: String.fromCharCode(
        ...bytes.subarray(at + 46, Math.min(end, at + 46 + Math.min(nameLength, 1000))),
      ),
      method: view.getUint16(at + 10, true),
      packed: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      at: view.getUint32(at + 42, true),
    });
    at += 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return found;
}

/** The packed bytes of one of them; empty where its header is not there. */
export function packedBytes(bytes: Uint8Array, { at, packed }: PackedEntry): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (at + 30 > bytes.length || view.getUint32(at, true) !== LOCAL) return bytes.subarray(0, 0);
  const start = at + 30 + view.getUint16(at + 26, true) + view.getUint16(at + 28, true);
  return bytes.subarray(start, start + packed);
}
