/** Central directory file header and end of central directory record (APPNOTE 4.3.12 and 4.3.16, from memory). */
const ENTRY_SIGNATURE = 0x02014b50,
  END_SIGNATURE = 0x06054b50;
const ENTRY_SIZE = 46,
  END_SIZE = 22;

/**
 * What a zip's own table says of its files: the CRC-32 of each, by path. null where the table is not whole within these bytes.
 * @param end the zip's last bytes, with the record of its end (no comment behind it)
 */
export function zipDirectory(end: Uint8Array): Map<string, number> | null {
  const view = new DataView(end.buffer, end.byteOffset, end.byteLength);
  const last = end.length - END_SIZE;
  if (last < 0 || view.getUint32(last, true) !== END_SIGNATURE) return null;
  const size = view.getUint32(last + 12, true);
  const sums = new Map<string, number>();
  let at = last - size;
  if (at < 0) return null;
  while (at + ENTRY_SIZE <= last && view.getUint32(at, true) === ENTRY_SIGNATURE) {
    const name = view.getUint16(at + 28, true),
      extra = view.getUint16(at + 30, true),
      comment = view.getUint16(at + 32, true);
    const path = new TextDecoder().decode(end.subarray(at + ENTRY_SIZE, at + ENTRY_SIZE + name));
    sums.set(path, view.getUint32(at + 16, true));
    at += ENTRY_SIZE + name + extra + comment;
  }
  return at === last ? sums : null;
}
