import type { Log } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';
import type { ReadOptions } from '#log/read-log.ts';
import { packedTooLarge } from '#log/packed-size.ts';
import { readSheets, type Sheet } from '#log/sheet-rows.ts';
import { workbookFacts } from '#log/workbook-facts.ts';

/** Reads a log out of a spreadsheet file (.xlsx); its reader is loaded only here. */
export async function readWorkbook(
  bytes: Buffer,
  options: ReadOptions,
  sha256: string,
): Promise<Result<Log>> {
  const tooLarge = packedTooLarge(bytes, options.fileName);
  if (tooLarge !== null) return { ok: false, problems: [tooLarge] };
  const { default: unpack } = await import('read-excel-file/node');
  let sheets: Sheet[];
  try {
    sheets = await unpack(bytes);
  } catch {
    // Whatever its reader stumbled over: the file is packed and holds no sheets.
    const reason = 'it is a packed file and no spreadsheet (.xlsx) that can be read';
    return { ok: false, problems: [{ code: 'no-table', file: options.fileName, reason }] };
  }
  const read = readSheets(sheets, options, { bytes: bytes.length, sha256 }, workbookFacts(bytes));
  return read.ok ? { ok: true, value: read.value.log } : read;
}
