import { inflateSync } from 'fflate';
import { textOf } from './encoding.ts';
import { packedBytes, packedEntries } from './packed-entries.ts';

/** What a spreadsheet file says of itself beside its cells. */
export interface WorkbookFacts {
  /** Days count from 1904 and not from 1900. */
  dates1904: boolean;
  /** The flag is spelled "true", which our reader of spreadsheet files overlooks: its dates are 1462 days early. */
  overlooked1904: boolean;
  /** Names of the sheets that its program does not show. */
  hidden: ReadonlySet<string>;
}
/** Of a file that says nothing. */
export const NO_FACTS: WorkbookFacts = { dates1904: false, overlooked1904: false, hidden: new Set() };

/** A workbook's own file is a list of sheets; a larger one is no workbook. */
const LARGEST = 5_000_000;
const entities: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

/** What `xl/workbook.xml` says (ECMA-376 part 1, 18.2.19, 18.2.28 and 18.18.68, from memory). */
export function workbookFacts(bytes: Uint8Array): WorkbookFacts {
  const entry = packedEntries(bytes).find(({ name }) => name === 'xl/workbook.xml');
  if (entry === undefined || entry.size > LARGEST) return NO_FACTS;
  let xml: string;
  try {
    const packed = packedBytes(bytes, entry);
    const plain = entry.method === 0 ? packed : inflateSync(packed);
    xml = textOf(plain, 0, plain.length);
  } catch {
    return NO_FACTS;
  }
  const hidden = new Set<string>();
  for (const [tag] of xml.matchAll(/<(?:\w+:)?sheet\s(?:"[^"]*"|'[^']*'|[^>"'])*>/gu)) {
    const name = /\sname=(?:"([^"]*)"|'([^']*)')/u.exec(tag);
    if (name !== null && /\sstate=["'](?:hidden|veryHidden)["']/u.test(tag))
      hidden.add(withoutEntities(name[1] ?? name[2] ?? ''));
  }
  const flag = /<(?:\w+:)?workbookPr\s[^>]*?date1904=["'](\w+)["']/u.exec(xml)?.[1];
  return { dates1904: flag === '1' || flag === 'true', overlooked1904: flag === 'true', hidden };
}

const withoutEntities = (text: string): string =>
  text.replace(
    /&(?:#x([\da-f]{1,6})|#(\d{1,7})|(\w{2,4}));/giu,
    (all, hex?: string, digits?: string, name?: string) =>
      name === undefined
        ? String.fromCodePoint(
            Math.min(0x10ffff, hex === undefined ? Number(digits) : Number.parseInt(hex, 16)),
          )
        : (entities[name] ?? all),
  );
