import PdfDocument from 'pdfkit';
import { collected } from './collected.ts';
import type { FontSet } from './font-set.ts';

/** Millimetres in the points of a PDF, to a thousandth. */
export const points = (mm: number): number => Math.round((mm / 25.4) * 72 * 1000) / 1000;

/** What a file says of itself. */
interface About {
  /** Of its pages, mm. */
  sheet: { width: number; height: number };
  title: string;
  language: string;
  /** Of the program. */
  version: string;
  /** Day for the metadata, "2026-03-04". No clock is asked: without one it is the first of 1970, which nobody takes for a day of issue. */
  day: string | null;
  fonts: FontSet;
}

/** A PDF without pages yet, tagged, with our own fonts alone; `bytes` come once it is ended. The same input gives the same bytes. */
export function taggedPdf(
  { sheet, title, language, version, day, fonts }: About,
  more: Pick<PDFKit.PDFDocumentOptions, 'bufferPages' | 'subset'> = {},
): {
  doc: PDFKit.PDFDocument;
  root: PDFKit.PDFStructureElement;
  date: Date;
  bytes: Promise<Uint8Array>;
} {
  const date = new Date(`${day ?? '1970-01-01'}T00:00:00Z`);
  const doc = new PdfDocument({
    ...more,
    size: [points(sheet.width), points(sheet.height)],
    margins: { top: 0, bottom: 0, left: 0, right: 0 },
    autoFirstPage: false,
    pdfVersion: '1.7',
    tagged: true,
    displayTitle: true,
    lang: language,
    // No default font: pdfkit's own are not in its browser build.
    font: '',
    info: {
      Title: title,
      Creator: `overdrive-bench ${version}`,
      Producer: 'overdrive-bench',
      CreationDate: date,
      ModDate: date,
    },
  });
  const bytes = collected(doc);
  fonts.register(doc);
  const root = doc.struct('Document', { title });
  doc.addStructure(root);
  return { doc, root, date, bytes };
}
