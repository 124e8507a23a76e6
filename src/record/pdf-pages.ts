import type { PdfFile } from './pdf-file.ts';
import { PdfReader, type PdfDictionary, type PdfValue } from './pdf-value.ts';

/** One page as it is drawn: its orders, and the words among them. */
export interface PdfPage {
  /** The page's orders, unpacked. */
  content: Uint8Array;
  /** Each text in the order in which it is drawn. */
  words: string[];
  /** Notes, stamps and forms that lie over the page; a record has none. */
  annotations: number;
}

const MOST_PAGES = 2000;
const DEEPEST = 20;

/** The pages of a file in their order. Source: ISO 32000-1, 7.7.3 (page tree), 9.4 (text), 9.10.3 (ToUnicode) (from memory). */
export function pdfPages(file: PdfFile): PdfPage[] {
  const catalog = file.dictionary(file.trailer.get('Root'));
  const pages: PdfPage[] = [];
  const walk = (value: PdfValue | undefined, resources: PdfDictionary | null, depth: number): void => {
    const node = file.dictionary(value);
    if (node === null || depth > DEEPEST || pages.length >= MOST_PAGES) return;
    const own = file.dictionary(node.get('Resources')) ?? resources;
    const kids = file.list(node.get('Kids'));
    if (kids.length > 0) for (const kid of kids) walk(kid, own, depth + 1);
    else pages.push(page(file, node, own));
  };
  walk(catalog?.get('Pages'), null, 0);
  return pages;
}

function page(file: PdfFile, node: PdfDictionary, resources: PdfDictionary | null): PdfPage {
  const contents = node.get('Contents');
  const list = file.list(contents);
  const parts = (list.length > 0 ? list : [contents]).map((each) => {
    const stream = file.stream(each);
    return stream === null ? new Uint8Array() : file.unpack(stream);
  });
  const content = new Uint8Array(parts.reduce((sum, part) => sum + part.length + 1, 0));
  let at = 0;
  for (const part of parts) {
    content.set(part, at);
    content[at + part.length] = 10;
    at += part.length + 1;
  }
  return {
    content,
    words: wordsOf(file, content, resources),
    annotations: file.list(node.get('Annots')).length,
  };
}

function wordsOf(file: PdfFile, content: Uint8Array, resources: PdfDictionary | null): string[] {
  const fonts = file.dictionary(resources?.get('Font'));
  const maps = new Map<string, ReadonlyMap<number, string>>();
  const mapOf = (name: string): ReadonlyMap<number, string> => {
    let map = maps.get(name);
    if (map === undefined) maps.set(name, (map = lettersOf(file, file.dictionary(fonts?.get(name)))));
    return map;
  };
  const words: string[] = [];
  const reader = new PdfReader(content);
  let operands: PdfValue[] = [];
  let letters: ReadonlyMap<number, string> = new Map();
  const shown = (value: PdfValue | undefined): string => {
    if (value?.kind !== 'string') return '';
    let text = '';
    for (let i = 0; i + 1 < value.bytes.length; i += 2)
      text += letters.get((value.bytes[i] ?? 0) * 256 + (value.bytes[i + 1] ?? 0)) ?? '\ufffd';
    return text;
  };
  while (reader.more()) {
    const value = reader.value();
    if (value.kind !== 'word') {
      operands.push(value);
      continue;
    }
    const [first] = operands;
    if (value.word === 'Tf' && first?.kind === 'name') letters = mapOf(first.name);
    if (value.word === 'Tj') words.push(shown(first));
    if (value.word === 'TJ' && first?.kind === 'array') words.push(first.items.map(shown).join(''));
    operands = [];
  }
  return words;
}

/** Which letters a font's numbers stand for, as the font itself says. */
function lettersOf(file: PdfFile, font: PdfDictionary | null): ReadonlyMap<number, string> {
  const letters = new Map<number, string>();
  const stream = file.stream(font?.get('ToUnicode'));
  if (stream === null) return letters;
  const reader = new PdfReader(file.unpack(stream));
  let operands: PdfValue[] = [];
  while (reader.more()) {
    const value = reader.value();
    if (value.kind !== 'word') {
      operands.push(value);
      continue;
    }
    if (value.word === 'endbfchar')
      for (let i = 0; i + 1 < operands.length; i += 2) {
        const [from, to] = [operands[i], operands[i + 1]];
        if (from?.kind === 'string' && to?.kind === 'string')
          letters.set(codeOf(from.bytes), unicode(to.bytes));
      }
    if (value.word === 'endbfrange')
      for (let i = 0; i + 2 < operands.length; i += 3)
        range(letters, operands[i], operands[i + 1], operands[i + 2]);
    operands = [];
  }
  return letters;
}

function range(
  letters: Map<number, string>,
  from: PdfValue | undefined,
  to: PdfValue | undefined,
  target: PdfValue | undefined,
): void {
  if (from?.kind !== 'string' || to?.kind !== 'string') return;
  const first = codeOf(from.bytes),
    last = Math.min(codeOf(to.bytes), 65535);
  if (target?.kind === 'array')
    target.items.forEach((item, index) => {
      if (item.kind === 'string' && first + index <= last) letters.set(first + index, unicode(item.bytes));
    });
  if (target?.kind === 'string') {
    const start = unicode(target.bytes).codePointAt(0) ?? 0;
    for (let code = first; code <= last; code++)
      letters.set(code, String.fromCodePoint(Math.min(start + code - first, 0x10ffff)));
  }
}

const codeOf = (bytes: Uint8Array): number => bytes.reduce((code, byte) => code * 256 + byte, 0);
const unicode = (bytes: Uint8Array): string => new TextDecoder('utf-16be').decode(bytes);
