import { encode } from 'uqr';
import { BLACK, WHITE, type Item } from '#drawing/display-list.ts';

/** Size of a module: large enough for a telephone's camera on paper from an office printer. */
const MODULE_MM = 0.4;
/** Blank modules around the code. Source: ISO/IEC 18004, quiet zone of QR Code, four modules (from memory). */
const QUIET = 4;

/** A QR code as black runs, row by row. */
export function codeItems(content: string): { size: number; items: Item[] } {
  const { size, data } = encode(content, { ecc: 'M', border: 0 });
  const rings: number[][] = [];
  data.forEach((row, y) => {
    let from = -1;
    for (let x = 0; x <= size; x++) {
      const dark = row[x] === true;
      if (dark && from < 0) from = x;
      if (!dark && from >= 0) {
        const left = (from + QUIET) * MODULE_MM,
          right = (x + QUIET) * MODULE_MM,
          top = (y + QUIET) * MODULE_MM,
          bottom = top + MODULE_MM;
        rings.push([left, top, right, top, right, bottom, left, bottom]);
        from = -1;
      }
    }
  });
  const outer = (size + 2 * QUIET) * MODULE_MM;
  return {
    size: outer,
    items: [
      { kind: 'rect', x: 0, y: 0, width: outer, height: outer, fill: WHITE },
      { kind: 'area', rings, fill: BLACK },
    ],
  };
}

/** Record number and hash in letters that the code packs tightest: capitals, figures and $%*+-./: only (alphanumeric mode). */
export function codeText(recordNumber: string | null, sha256: string | null): string | null {
  if (sha256 === null) return null;
  const number = (recordNumber ?? '').toUpperCase().replace(/[^0-9A-Z $%*+\-./:]/g, '-');
  return `${number === '' ? '' : `${number}:`}${sha256.toUpperCase()}`;
}
