import { logClock } from '#drawing/clock.ts';
import { attachedFiles } from './attached-files.ts';
import { drawItems } from './drawing-to-pdf.ts';
import { openFonts, type FontSet } from './font-set.ts';
import type { Node } from './lay.ts';
import { laidOut } from './laid-out.ts';
import { sheets } from './lay-pages.ts';
import type { RecordContent } from './content.ts';
import type { Logo, RecordInput } from './record-input.ts';
import { points, taggedPdf } from './tagged-pdf.ts';
import { vectorLogo } from './vector-logo.ts';

/**
 * The delivery record as a PDF: two sheets and as many more as its tables need, tagged, its fonts embedded, with the log, the assessment,
 * spec and rig attached. The same input gives the same bytes, wherever it is made.
 */
export async function recordPdf(input: RecordInput): Promise<Uint8Array> {
  const fonts = openFonts(input.fonts);
  const { content, pages } = laidOut(input, fonts, input.logs.length > 0);
  const { doc, root, date, bytes } = taggedPdf(
    {
      sheet: sheets[input.paper],
      title: plainTitle(content),
      language: input.language,
      version: input.assessment.program.version,
      day: dayOf(input),
      fonts,
    },
    { bufferPages: true, subset: 'PDF/A-3a' },
  );
  for (const page of pages) {
    doc.addPage();
    doc.markContent('Artifact', { type: 'Layout' });
    drawItems(doc, page.artifacts, fonts);
    doc.endMarkedContent();
    for (const node of page.nodes) root.add(element(doc, node, fonts));
  }
  root.end();
  attach(doc, input, date);
  doc.end();
  return bytes;
}

/** A tagged element; its leaves draw when it is put into the tree. */
function element(doc: PDFKit.PDFDocument, node: Node, fonts: FontSet): PDFKit.PDFStructureElement {
  const made = doc.struct(node.tag, {
    ...(node.alt === undefined ? {} : { alt: node.alt }),
    ...(node.scope === undefined ? {} : { scope: node.scope }),
    ...(node.box === undefined
      ? {}
      : {
          bbox: [
            points(node.box.x),
            points(node.box.y),
            points(node.box.x + node.box.width),
            points(node.box.y + node.box.height),
          ] as [number, number, number, number],
        }),
  });
  for (const child of node.children ?? []) made.add(element(doc, child, fonts));
  const { picture, box } = node;
  if (picture && box)
    made.add(() => {
      if (picture.kind === 'svg') return drawLogo(doc, picture, box);
      doc.image(picture.bytes.slice().buffer, points(box.x), points(box.y), {
        width: points(box.width),
        height: points(box.height),
      });
    });
  const { items } = node;
  if (items && !picture) made.add(() => drawItems(doc, items, fonts));
  made.end();
  return made;
}

/** A drawn logo as lines and areas of the page: sharp at every size. */
function drawLogo(doc: PDFKit.PDFDocument, { bytes }: Logo, box: NonNullable<Node['box']>): void {
  const drawing = vectorLogo(new TextDecoder().decode(bytes));
  if (typeof drawing === 'string') return;
  const scale = points(box.width) / drawing.width;
  doc.save();
  doc.rect(points(box.x), points(box.y), points(box.width), points(box.height)).clip();
  doc.transform(scale, 0, 0, scale, points(box.x) - drawing.x * scale, points(box.y) - drawing.y * scale);
  for (const shape of drawing.shapes) {
    const { fill, stroke } = shape;
    doc.save();
    doc.transform(...shape.matrix);
    if (fill !== null && shape.fillOpacity < 1) doc.fillOpacity(shape.fillOpacity);
    if (stroke !== null) {
      doc.lineWidth(shape.strokeWidth).lineCap(shape.cap).lineJoin(shape.join).miterLimit(shape.miterLimit);
      const [dash, space] = shape.dash;
      if (dash !== undefined) doc.dash(dash, { space: space ?? dash });
      if (shape.strokeOpacity < 1) doc.strokeOpacity(shape.strokeOpacity);
    }
    doc.path(shape.path);
    const rule = shape.evenOdd ? 'even-odd' : 'non-zero';
    if (fill !== null && stroke !== null) doc.fillAndStroke(fill, stroke, rule);
    else if (fill !== null) doc.fill(fill, rule);
    else if (stroke !== null) doc.stroke(stroke);
    doc.restore();
  }
  doc.restore();
}

/** The title without the signs that XML gives a meaning: pdfkit puts it into the metadata as it is. */
function plainTitle(content: RecordContent): string {
  return `${content.title}${content.recordNumber === null ? '' : ` ${content.recordNumber}`}`.replace(
    /[&<>]/g,
    '+',
  );
}

/** Day that the file's metadata names: the day of issue, else of the test, else of the log; null where nothing is known. */
const dayOf = (input: RecordInput): string | null =>
  input.date ??
  input.unitRecord?.issuedOn ??
  input.unitRecord?.testedOn ??
  logClock(input.assessment.log.start)?.date ??
  null;

function attach(doc: PDFKit.PDFDocument, input: RecordInput, date: Date): void {
  for (const { name, bytes, type, relationship, description } of attachedFiles(input))
    doc.file(bytes, { name, type, description, creationDate: date, modifiedDate: date, relationship });
}
