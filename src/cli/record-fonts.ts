import cyrillic400 from '@fontsource/fira-sans-condensed/files/fira-sans-condensed-cyrillic-400-normal.woff?inline';
import cyrillic600 from '@fontsource/fira-sans-condensed/files/fira-sans-condensed-cyrillic-600-normal.woff?inline';
import greek400 from '@fontsource/fira-sans-condensed/files/fira-sans-condensed-greek-400-normal.woff?inline';
import greek600 from '@fontsource/fira-sans-condensed/files/fira-sans-condensed-greek-600-normal.woff?inline';
import latin400 from '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-400-normal.woff?inline';
import latin600 from '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-600-normal.woff?inline';
import latinExt400 from '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-ext-400-normal.woff?inline';
import latinExt600 from '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-ext-600-normal.woff?inline';
import type { RecordFonts } from '#record/fonts.ts';

/** Bytes of a data: address, as which the build puts a font into the one file. */
const bytesOf = (address: string): Uint8Array =>
  new Uint8Array(Buffer.from(address.slice(address.indexOf(',') + 1), 'base64'));

/** The record's faces, carried by the program itself. */
export function recordFonts(): RecordFonts {
  return {
    'latin-400': bytesOf(latin400),
    'latin-600': bytesOf(latin600),
    'latin-ext-400': bytesOf(latinExt400),
    'latin-ext-600': bytesOf(latinExt600),
    'greek-400': bytesOf(greek400),
    'greek-600': bytesOf(greek600),
    'cyrillic-400': bytesOf(cyrillic400),
    'cyrillic-600': bytesOf(cyrillic600),
  };
}
