import { PdfFault, type PdfValue } from './pdf-value.ts';
import type { PdfFile } from './pdf-file.ts';

/** A file within a PDF file; `fault` where its bytes cannot be taken out. */
export interface PdfAttachment {
  name: string;
  bytes: Uint8Array | null;
  fault: string | null;
}

const MOST_ATTACHMENTS = 1000;
const DEEPEST = 20;

/** Every file that is attached, by the names of the file's own list. Source: ISO 32000-1, 7.9.6 (name trees) and 7.11.4 (from memory). */
export function pdfAttachments(file: PdfFile): PdfAttachment[] {
  const catalog = file.dictionary(file.trailer.get('Root'));
  const names = file.dictionary(catalog?.get('Names'));
  const found: PdfAttachment[] = [];
  const walk = (value: PdfValue | undefined, depth: number): void => {
    const node = file.dictionary(value);
    if (node === null || depth > DEEPEST) return;
    for (const kid of file.list(node.get('Kids'))) walk(kid, depth + 1);
    const pairs = file.list(node.get('Names'));
    for (let at = 0; at + 1 < pairs.length && found.length < MOST_ATTACHMENTS; at += 2)
      found.push(attachment(file, pairs[at], pairs[at + 1]));
  };
  walk(names?.get('EmbeddedFiles'), 0);
  return found;
}

function attachment(file: PdfFile, key: PdfValue | undefined, value: PdfValue | undefined): PdfAttachment {
  let name = textOf(file.resolve(key)) ?? '';
  try {
    const specification = file.dictionary(value);
    name =
      textOf(file.resolve(specification?.get('UF'))) ?? textOf(file.resolve(specification?.get('F'))) ?? name;
    const embedded = file.dictionary(specification?.get('EF'));
    const stream = file.stream(embedded?.get('F') ?? embedded?.get('UF'));
    if (stream === null) return { name, bytes: null, fault: 'its bytes are missing' };
    return { name, bytes: file.unpack(stream), fault: null };
  } catch (error) {
    if (!(error instanceof PdfFault)) throw error;
    return { name, bytes: null, fault: error.message };
  }
}

/** Text strings: UTF-16 with its mark, UTF-8 with its mark, or one byte a letter (7.9.2.2; the letters above 127 as Latin-1). */
function textOf(value: PdfValue): string | null {
  if (value.kind !== 'string') return null;
  const { bytes } = value;
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) return new TextDecoder().decode(bytes);
  return new TextDecoder('latin1').decode(bytes);
}
