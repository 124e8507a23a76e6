import type { Weight } from '#drawing/display-list.ts';

/**
 * Faces of the record, in the order in which they are asked for a letter. The condensed sans is the record's own; the second face
 * lends it Greek and Cyrillic for names. Licence of both: SIL Open Font License 1.1.
 */
export const faces = ['latin', 'latin-ext', 'greek', 'cyrillic'] as const;
export type Face = (typeof faces)[number];
export type FontKey = `${Face}-${Weight}`;

const plex = '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed';
const fira = '@fontsource/fira-sans-condensed/files/fira-sans-condensed';

/**
 * Font files that a record needs, by key: the caller reads them (from node_modules, or from beside a built program) and hands over
 * their bytes. WOFF, not WOFF2: pdfkit cannot read that.
 */
export const fontFiles: Readonly<Record<FontKey, string>> = {
  'latin-400': `${plex}-latin-400-normal.woff`,
  'latin-600': `${plex}-latin-600-normal.woff`,
  'latin-ext-400': `${plex}-latin-ext-400-normal.woff`,
  'latin-ext-600': `${plex}-latin-ext-600-normal.woff`,
  'greek-400': `${fira}-greek-400-normal.woff`,
  'greek-600': `${fira}-greek-600-normal.woff`,
  'cyrillic-400': `${fira}-cyrillic-400-normal.woff`,
  'cyrillic-600': `${fira}-cyrillic-600-normal.woff`,
};
export const fontKeys: readonly FontKey[] = faces.flatMap((face) => [`${face}-400`, `${face}-600`] as const);

/** Bytes of every font file, by key. */
export type RecordFonts = Readonly<Record<FontKey, Uint8Array>>;
