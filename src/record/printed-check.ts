import type { RecordDifference } from '#formats/verification.ts';
import type { PdfFile } from './pdf-file.ts';
import { pdfPages, type PdfPage } from './pdf-pages.ts';
import { PdfFault } from './pdf-value.ts';
import type { RecordInput } from './record-input.ts';
import { inFours } from './release-section.ts';

/**
 * Holds the pages of a record against those that are made of its log now.
 * @param madeBy version that made the record, where it is another one: its pages may be laid out otherwise, and then only the printed
 *   hashes are looked for; null for this version, whose pages must be the same to the last stroke
 */
export function printedCheck(
  record: PdfFile,
  remade: PdfFile,
  madeBy: string | null,
  input: RecordInput,
): { differences: RecordDifference[]; reason?: string } {
  let pages: PdfPage[];
  try {
    pages = pdfPages(record);
  } catch (error) {
    if (!(error instanceof PdfFault)) throw error;
    return { differences: [{ where: 'the pages', recorded: error.message, found: null }] };
  }
  const expected = pdfPages(remade);
  const differences: RecordDifference[] = pages.flatMap(({ annotations }, index) =>
    annotations === 0
      ? []
      : [
          {
            where: `page ${index + 1}`,
            recorded: `${annotations} notes or stamps that lie over it`,
            found: null,
          },
        ],
  );
  const drawn = pageDifferences(pages, expected);
  if (drawn.length === 0 || madeBy === null) return { differences: [...differences, ...drawn] };
  // Words of a paragraph are drawn in several pieces, with and without blanks.
  const all = pages.map(({ words }) => words.join('').replace(/\s/g, '')).join('');
  for (const hash of [input.assessment.log.sha256, input.assessmentSha256 ?? null])
    if (hash !== null && !all.includes(hash))
      differences.push({ where: 'the pages', recorded: null, found: `SHA-256 ${inFours(hash)}` });
  return {
    differences,
    reason: `version ${madeBy} laid the pages out, and this one does so otherwise: the hashes printed on them agree, all else was not compared`,
  };
}

function pageDifferences(pages: readonly PdfPage[], expected: readonly PdfPage[]): RecordDifference[] {
  const differences: RecordDifference[] = [];
  if (pages.length !== expected.length)
    differences.push({
      where: 'the pages',
      recorded: `${pages.length} pages`,
      found: `${expected.length} pages`,
    });
  pages.forEach((page, index) => {
    const other = expected[index];
    if (!other || sameBytes(page.content, other.content)) return;
    const where = `page ${index + 1}`;
    const words = wordDifferences(page.words, other.words, where);
    differences.push(
      ...(words.length > 0
        ? words
        : [{ where, recorded: 'the same words, but drawn otherwise than its log gives', found: null }]),
    );
  });
  return differences;
}

/** Texts that differ, one by one where the pages have as many; else the first. */
function wordDifferences(
  recorded: readonly string[],
  found: readonly string[],
  where: string,
): RecordDifference[] {
  const differences: RecordDifference[] = [];
  const length = Math.max(recorded.length, found.length);
  for (let i = 0; i < length; i++) {
    if (recorded[i] === found[i]) continue;
    differences.push({ where, recorded: recorded[i]?.trim() ?? null, found: found[i]?.trim() ?? null });
    if (recorded.length !== found.length) break;
  }
  return differences;
}

const sameBytes = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, index) => byte === b[index]);
