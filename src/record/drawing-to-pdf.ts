import { POINT_MM, type Item, type Stroke } from '#drawing/display-list.ts';
import type { FontSet } from './font-set.ts';

/** Millimetres as points, to a thousandth: finer than any printer, and short in the file. */
const pt = (mm: number): number => Math.round((mm / POINT_MM) * 1000) / 1000;

/** Draws a display list with pdfkit's calls, in its order. */
export function drawItems(doc: PDFKit.PDFDocument, items: readonly Item[], fonts: FontSet): void {
  for (const item of items)
    switch (item.kind) {
      case 'lines':
        if (item.lines.length === 0) break;
        for (const points of item.lines) trace(doc, points, false);
        stroke(doc, item.stroke);
        break;
      case 'area':
        if (item.rings.length === 0) break;
        for (const points of item.rings) trace(doc, points, true);
        paint(doc, item.fill, item.stroke);
        break;
      case 'rect':
        doc.rect(pt(item.x), pt(item.y), pt(item.width), pt(item.height));
        paint(doc, item.fill, item.stroke);
        break;
      case 'dot':
        doc.circle(pt(item.x), pt(item.y), pt(item.radius));
        doc.fill(item.fill);
        break;
      case 'text':
        write(doc, item, fonts);
        break;
      case 'clip':
        doc.save();
        doc.rect(pt(item.box.x), pt(item.box.y), pt(item.box.width), pt(item.box.height)).clip();
        drawItems(doc, item.items, fonts);
        doc.restore();
        break;
    }
}

function trace(doc: PDFKit.PDFDocument, points: readonly number[], close: boolean): void {
  for (let i = 0; i + 1 < points.length; i += 2) {
    const x = pt(points[i] ?? 0),
      y = pt(points[i + 1] ?? 0);
    if (i === 0) doc.moveTo(x, y);
    else doc.lineTo(x, y);
  }
  if (close) doc.closePath();
}

function strokeStyle(doc: PDFKit.PDFDocument, style: Stroke): void {
  doc.lineWidth(pt(style.width)).lineJoin('round').strokeColor(style.ink);
  if (style.dash) {
    const [first = 1, ...rest] = style.dash.map(pt);
    doc.dash(first, { space: rest[0] ?? first });
  } else doc.undash();
}
function stroke(doc: PDFKit.PDFDocument, style: Stroke): void {
  strokeStyle(doc, style);
  doc.stroke();
}
function paint(doc: PDFKit.PDFDocument, fill: string | undefined, style: Stroke | undefined): void {
  if (style) strokeStyle(doc, style);
  if (fill !== undefined && style) doc.fillAndStroke(fill, style.ink);
  else if (fill !== undefined) doc.fill(fill);
  else if (style) doc.stroke();
}

/** Text run by run, each in its face, on the baseline. */
function write(doc: PDFKit.PDFDocument, item: Extract<Item, { kind: 'text' }>, fonts: FontSet): void {
  const x = pt(item.x),
    y = pt(item.y);
  const total = pt(fonts.width(item.text, item.size_pt, item.weight));
  let at = item.anchor === 'start' ? x : item.anchor === 'middle' ? x - total / 2 : x - total;
  if (item.upwards === true) doc.save().rotate(-90, { origin: [x, y] });
  doc.fillColor(item.ink);
  for (const run of fonts.runs(item.text, item.weight)) {
    doc.font(run.key).fontSize(item.size_pt);
    const width = doc.widthOfString(run.text);
    doc.text(run.text, Math.round(at * 1000) / 1000, y, { lineBreak: false, baseline: 'alphabetic' });
    at += width;
  }
  if (item.upwards === true) doc.restore();
}
