import type { Problem } from '#formats/problem.ts';

const END = 0x06054b50;
const ENTRY = 0x02014b50;
const LONGEST_COMMENT = 65_535;

/** Larger sheets are beyond what a text can hold, and what a page can. */
const MOST_UNPACKED = 500_000_000;

/**
 * How many bytes a packed file says that it unpacks to, by its central directory (APPNOTE of the ZIP format, 4.3.12 and 4.3.16; from
 * memory): a file of a megabyte may hold gigabytes of blanks.
 * @returns 0 for a file without a directory, which its reader refuses
 */
export function unpackedSize(bytes: Uint8Array): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  const first = Math.max(0, end - LONGEST_COMMENT);
  while (end >= first && view.getUint32(end, true) !== END) end--;
  if (end < first) return 0;
  let at = view.getUint32(end + 16, true),
    size = 0;
  while (at + 46 <= end && view.getUint32(at, true) === ENTRY) {
    size += view.getUint32(at + 24, true);
    at += 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return size;
}

/** Why a packed file is not unpacked at all; null where it may be. */
export function packedTooLarge(bytes: Uint8Array, file: string | null): Problem | null {
  const size = unpackedSize(bytes);
  return size <= MOST_UNPACKED
    ? null
    : {
        code: 'no-table',
        file,
        reason: `it is a packed file that unpacks to ${Math.round(size / 1e6)} MB, more than is read of one`,
      };
}
