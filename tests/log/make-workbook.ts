import { strToU8, zipSync } from 'fflate';

/** A cell of a made workbook; a Date becomes a day number in a date format, as spreadsheets keep it. */
export type MadeCell =
  | string
  | number
  | boolean
  | Date
  | null
  /** A formula with the result that the spreadsheet kept. */
  | { formula: string; result: number | string }
  /** "#DIV/0!" */
  | { error: string }
  /** Seconds since midnight, in a format of time alone. */
  | { clock_s: number };

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
const letter = (column: number): string => String.fromCharCode(65 + column);
const DAY_MS = 86_400_000;
/** 1970-01-01 in the 1900 date system; in the 1904 system days count from four years and a day later. */
const EPOCH = 25_569;
const FROM_1904 = 1462;

function cellXml(cell: MadeCell, at: string, epoch: number): string {
  if (cell === null) return '';
  if (cell instanceof Date) return `<c r="${at}" s="1"><v>${cell.getTime() / DAY_MS + epoch}</v></c>`;
  if (typeof cell === 'number') return `<c r="${at}"><v>${cell}</v></c>`;
  if (typeof cell === 'boolean') return `<c r="${at}" t="b"><v>${cell ? 1 : 0}</v></c>`;
  if (typeof cell === 'object') {
    if ('error' in cell) return `<c r="${at}" t="e"><v>${escaped(cell.error)}</v></c>`;
    if ('clock_s' in cell) return `<c r="${at}" s="2"><v>${cell.clock_s / 86_400}</v></c>`;
    const { formula, result } = cell;
    return `<c r="${at}"${typeof result === 'string' ? ' t="str"' : ''}><f>${escaped(formula)}</f><v>${typeof result === 'string' ? escaped(result) : result}</v></c>`;
  }
  return `<c r="${at}" t="inlineStr"><is><t>${escaped(cell)}</t></is></c>`;
}

/** The least .xlsx (ECMA-376) that a spreadsheet program would open: sheets of inline texts, numbers and dates. */
export function makeWorkbook(
  sheets: Record<string, MadeCell[][]>,
  {
    dates1904 = false,
    flag1904 = '1',
    hidden = [],
  }: { dates1904?: boolean; flag1904?: string; hidden?: readonly string[] } = {},
): Uint8Array {
  const head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>';
  const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
  const relations = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
  const names = Object.keys(sheets);
  const files: Record<string, Uint8Array> = {
    '[Content_Types].xml': strToU8(
      `${head}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>`,
    ),
    '_rels/.rels': strToU8(
      `${head}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${relations}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    ),
    'xl/workbook.xml': strToU8(
      `${head}<workbook xmlns="${main}" xmlns:r="${relations}">${dates1904 ? '<workbookPr date1904="' + flag1904 + '"/>' : ''}<sheets>${names.map((name, i) => `<sheet name="${escaped(name)}"${hidden.includes(name) ? ' state="hidden"' : ''} sheetId="${i + 1}" r:id="rId${i + 1}"/>`).join('')}</sheets></workbook>`,
    ),
    'xl/_rels/workbook.xml.rels': strToU8(
      `${head}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${names.map((_, i) => `<Relationship Id="rId${i + 1}" Type="${relations}/worksheet" Target="worksheets/sheet${i + 1}.xml"/>`).join('')}<Relationship Id="rId${names.length + 1}" Type="${relations}/styles" Target="styles.xml"/></Relationships>`,
    ),
    // Format 22 is a date with its time of day, 21 a time of day alone.
    'xl/styles.xml': strToU8(
      `${head}<styleSheet xmlns="${main}"><fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="3"><xf numFmtId="0"/><xf numFmtId="22" applyNumberFormat="1"/><xf numFmtId="21" applyNumberFormat="1"/></cellXfs></styleSheet>`,
    ),
  };
  for (const [i, name] of names.entries())
    files[`xl/worksheets/sheet${i + 1}.xml`] = strToU8(
      `${head}<worksheet xmlns="${main}"><sheetData>${(sheets[name] ?? []).map((row, r) => `<row r="${r + 1}">${row.map((cell, c) => cellXml(cell, `${letter(c)}${r + 1}`, dates1904 ? EPOCH - FROM_1904 : EPOCH)).join('')}</row>`).join('')}</sheetData></worksheet>`,
    );
  return zipSync(files);
}

/** A run as somebody kept it in a spreadsheet: a cover, then the readings, one every two seconds. */
export const keptInASpreadsheet = (): Uint8Array =>
  makeWorkbook({
    Cover: [['Bench 2'], ['Run of the day']],
    Readings: [
      ['Time', 'Pressure [psi]', 'Oil [°C]'],
      ...Array.from({ length: 6 }, (_, i): MadeCell[] => [
        new Date(Date.UTC(2026, 2, 4, 8, 15, 2 * i)),
        [0.4, 120.5, 405.2, 410.1, 411, 410.6][i] ?? null,
        i === 4 ? 'OL' : 55.5,
      ]),
    ],
  });
