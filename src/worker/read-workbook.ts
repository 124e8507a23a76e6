import type { Log } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';
import type { ReadOptions } from '#log/read-log.ts';
import { packedTooLarge } from '#log/packed-size.ts';
import { readSheets, textsOfSheets, type Sheet } from '#log/sheet-rows.ts';
import { workbookFacts } from '#log/workbook-facts.ts';

/**
 * Reads a log out of a spreadsheet file (.xlsx); its reader is loaded only here.
 * @returns the log and the text that stands for its sheet
 */
export async function readWorkbook(
  blob: Blob,
  options: ReadOptions,
  sha256: string | null,
): Promise<Result<{ log: Log; text: Uint8Array }>> {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  const tooLarge = packedTooLarge(bytes, options.fileName);
  if (tooLarge !== null) return { ok: false, problems: [tooLarge] };
  const sheets = await sheetsOf(blob);
  if (sheets === null) {
    const reason = 'it is a packed file and no spreadsheet (.xlsx) that can be read';
    return { ok: false, problems: [{ code: 'no-table', file: options.fileName, reason }] };
  }
  return readSheets(sheets, options, { bytes: blob.size, sha256 }, workbookFacts(bytes));
}

/** The texts that stand for a spreadsheet file's sheets; none of a packed file that is no spreadsheet. */
export async function workbookTexts(blob: Blob): Promise<Uint8Array[]> {
  return textsOfSheets((await sheetsOf(blob)) ?? []);
}

async function sheetsOf(blob: Blob): Promise<Sheet[] | null> {
  const { default: unpack } = await import('read-excel-file/web-worker');
  try {
    return await unpack(blob);
  } catch {
    // Whatever its reader stumbled over: the file is packed and holds no sheets.
    return null;
  }
}
