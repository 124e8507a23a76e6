import PdfDocument from 'pdfkit';
import { expect, test } from 'vitest';
import { fontKeys } from '#record/fonts.ts';
import { unpackedFont } from '#record/unpacked-font.ts';
import { fontsOnDisk } from './fonts-on-disk.ts';

const TEXT = 'Delivery record 2026-0417: 409.3 psi ± 2.1 psi, fi ffl, Ω, ß, ł; Давление, Πίεση';

/** A page with one text, as the PDF's writer makes it. */
async function pageIn(font: Uint8Array): Promise<Buffer> {
  const doc = new PdfDocument({ font: '', info: { CreationDate: new Date(0) } }),
    pieces: Buffer[] = [];
  doc.on('data', (piece: Buffer) => pieces.push(piece));
  const ended = new Promise((resolve) => doc.on('end', resolve));
  doc.registerFont('face', font).font('face').fontSize(20).text(TEXT);
  doc.end();
  await ended;
  return Buffer.concat(pieces);
}

test.each(fontKeys)('%s: larger, and the PDF made with it is the same to the byte', async (key) => {
  const packed = fontsOnDisk[key],
    unpacked = unpackedFont(packed);
  expect(unpacked.length).toBeGreaterThan(1.2 * packed.length);
  const [one, other] = [await pageIn(packed), await pageIn(unpacked)] as const;
  expect(one.length).toBeGreaterThan(1000);
  expect(other.equals(one)).toBe(true);
});

test('an unpacked font stays as it is, and each is unpacked once', () => {
  const packed = fontsOnDisk['latin-400'],
    once = unpackedFont(packed);
  expect(unpackedFont(packed)).toBe(once);
  expect(Buffer.from(unpackedFont(once)).equals(Buffer.from(once))).toBe(true);
});
