import { moved, type Drawing } from '#drawing/display-list.ts';
import { drawItems } from './drawing-to-pdf.ts';
import type { FontSet } from './font-set.ts';
import { LEFT, sheets } from './lay-pages.ts';
import { points, taggedPdf } from './tagged-pdf.ts';

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

/** One drawing at true size on a page of A4, tagged as a figure, its fonts embedded. The same input gives the same bytes. */
export function drawingPdf(input: DrawingPdfInput): Promise<Uint8Array> {
  const { drawing, set, alt } = input;
  const { width, top } = sheets.a4;
  const { doc, root, bytes } = taggedPdf({ ...input, sheet: sheets.a4, fonts: set });
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
