import PdfDocument from 'pdfkit';
import { moved, type Drawing } from '#drawing/display-list.ts';
import { collected } from './collected.ts';
import { drawItems } from './drawing-to-pdf.ts';
import type { FontSet } from './font-set.ts';
import { LEFT, sheets } from './lay-pages.ts';

/** A drawing, and what the file says of itself. */
export interface DrawingPdfInput {
  drawing: Drawing;
  set: FontSet;
  title: string;
  /** What it shows, for those who do not see it. */
  alt: string;
  language: string;
  /** Day for the metadata, "2026-03-04"; null where none is known. */
  day: string | null;
  version: string;
}
const POINTS_PER_MM = 72 / 25.4;
const points = (mm: number): number => Math.round(mm * POINTS_PER_MM * 1000) / 1000;

/** One drawing at true size on a page of A4, tagged as a figure, its fonts embedded. The same input gives the same bytes. */
export function drawingPdf(input: DrawingPdfInput): Promise<Uint8Array> {
  const { drawing, set, title, alt } = input;
  const { width, height, top } = sheets.a4;
  // A day that nobody takes for one of issue, as in the record.
  const date = new Date(`${input.day ?? '1970-01-01'}T00:00:00Z`);
  const doc = new PdfDocument({
    size: [points(width), points(height)],
    margins: { top: 0, bottom: 0, left: 0, right: 0 },
    autoFirstPage: false,
    pdfVersion: '1.7',
    tagged: true,
    displayTitle: true,
    lang: input.language,
    font: '',
    info: {
      Title: title,
      Creator: `overdrive-bench ${input.version}`,
      Producer: 'overdrive-bench',
      CreationDate: date,
      ModDate: date,
    },
  });
  const bytes = collected(doc);
  set.register(doc);
  const root = doc.struct('Document', { title });
  doc.addStructure(root);
  doc.addPage();
  const left = Math.min(LEFT, (width - drawing.width) / 2);
  const box: { bbox: [number, number, number, number] } = {
    bbox: [points(left), points(top), points(left + drawing.width), points(top + drawing.height)],
  };
  const figure = doc.struct('Figure', { alt, ...box });
  figure.add(() => drawItems(doc, moved(drawing.items, left, top), set));
  figure.end();
  root.add(figure);
  root.end();
  doc.end();
  return bytes;
}
