import PdfDocument from 'pdfkit';
import { POINT_MM, type TextWidth, type Weight } from '#drawing/display-list.ts';
import { LINE_ENDS } from './line-ends.ts';
import { faces, fontKeys, type FontKey, type RecordFonts } from './fonts.ts';
import { unpackedFont } from './unpacked-font.ts';

/** A piece of text in one face. */
export interface FontRun {
  key: FontKey;
  text: string;
}

/** Fonts opened for measuring and for splitting text by the letters that each face holds. */
export interface FontSet {
  /** Registers every face with a document, by key; faces that are not used are not embedded. */
  register(doc: PDFKit.PDFDocument): void;
  /** Text in canonical composition, cut where the face changes. Letters that no face holds become "?" and are noted. */
  runs(text: string, weight: Weight): FontRun[];
  width: TextWidth;
  /** Letters asked for that no face holds. */
  missing: Set<string>;
  /** Faces that were asked for a letter. */
  used: Set<FontKey>;
}

/** @param fonts bytes of every file that fonts.ts lists */
export function openFonts(fonts: RecordFonts): FontSet {
  const doc = new PdfDocument({ autoFirstPage: false, font: '' });
  const register = (target: PDFKit.PDFDocument): void => {
    for (const key of fontKeys) target.registerFont(key, unpackedFont(fonts[key]));
  };
  register(doc);
  const coverage = new Map<FontKey, ReadonlySet<number>>();
  const covers = (key: FontKey, codePoint: number): boolean => {
    let set = coverage.get(key);
    if (!set) coverage.set(key, (set = characterSet(doc, key)));
    return set.has(codePoint);
  };
  const missing = new Set<string>();
  const used = new Set<FontKey>();
  const runs = (text: string, weight: Weight): FontRun[] => {
    const result: FontRun[] = [];
    // The faces' no-break space is an empty glyph at the very end of the outlines, which pdfkit's font reader stumbles over; lines are
    // broken before text is drawn, so that the plain blank, as wide, stands for it.
    for (const letter of text.normalize('NFC').replace(LINE_ENDS, ' ').replaceAll('\u00a0', ' ')) {
      const codePoint = letter.codePointAt(0) ?? 0;
      const face = faces.find((name) => covers(`${name}-${weight}`, codePoint));
      if (face === undefined) missing.add(letter);
      const key: FontKey = `${face ?? 'latin'}-${weight}`;
      used.add(key);
      const shown = face === undefined ? '?' : letter;
      const last = result[result.length - 1];
      if (last?.key === key) last.text += shown;
      else result.push({ key, text: shown });
    }
    return result;
  };
  const known = new Map<string, number>();
  const width: TextWidth = (text, size_pt, weight) => {
    const id = `${weight}${text}`;
    let per1000 = known.get(id);
    if (per1000 === undefined) {
      per1000 = 0;
      for (const run of runs(text, weight))
        per1000 += doc.font(run.key).fontSize(1000).widthOfString(run.text);
      known.set(id, per1000);
    }
    return (per1000 / 1000) * size_pt * POINT_MM;
  };
  return { register, runs, width, missing, used };
}

/** True coverage of a face. pdfkit keeps the opened font in a private field and has no public way to ask. */
function characterSet(doc: PDFKit.PDFDocument, key: FontKey): ReadonlySet<number> {
  doc.font(key);
  const holder: unknown = doc;
  if (hasFont(holder)) return new Set(holder['_font'].font.characterSet);
  throw new TypeError('pdfkit no longer keeps the opened font where it did');
}
function hasFont(value: unknown): value is { _font: { font: { characterSet: number[] } } } {
  if (typeof value !== 'object' || value === null || !('_font' in value)) return false;
  const font = value['_font'];
  if (typeof font !== 'object' || font === null || !('font' in font)) return false;
  const inner = font.font;
  return (
    typeof inner === 'object' &&
    inner !== null &&
    'characterSet' in inner &&
    Array.isArray(inner.characterSet)
  );
}
