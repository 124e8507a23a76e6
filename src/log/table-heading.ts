import type { Rig } from '#formats/rig.ts';
import { columnNames } from './column-names.ts';
import { findEncoding, textOf, toUtf8 } from './encoding.ts';
import { settleLayout } from './settle-layout.ts';

/** So much of a file settles its layout, as for the reading itself. */
const HEAD = 65536;

/**
 * The names of a table's columns, by which a logger's files are known again; null where the file has no heading, or no table that
 * can be told.
 * @param head the file's first bytes, 64 KiB or all of a shorter one
 * @param dialect as a rig states it: what a file is recognised by must be read as it was when it was remembered
 */
export function tableHeading(head: Uint8Array, dialect: Rig['dialect']): string[] | null {
  const found = findEncoding(head.subarray(0, HEAD));
  const encoding = dialect?.encoding ?? found.encoding;
  const decoder = toUtf8(encoding);
  const bytes = decoder.push(head.subarray(encoding === found.encoding ? found.markLength : 0, HEAD));
  const text = textOf(bytes, 0, bytes.length);
  // The last line of a head that is cut may be cut too.
  const whole =
    head.length < HEAD ? text : text.slice(0, Math.max(text.lastIndexOf('\n'), text.lastIndexOf('\r')) + 1);
  const settled = settleLayout(whole, dialect);
  if (!settled.ok || settled.layout.headerLine === null) return null;
  const names = columnNames(settled.layout.headings);
  return settled.layout.headings.some((heading) => heading !== '') ? names : null;
}
