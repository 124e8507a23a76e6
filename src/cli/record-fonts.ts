import cyrillic400 from '@fontsource/fira-sans-condensed/files/fira-sans-condensed-cyrillic-400-normal.woff?inline';
import cyrillic600 from '@fontsource/fira-sans-condensed/files/fira-sans-condensed-cyrillic-600-normal.woff?inline';
import greek400 from '@fontsource/fira-sans-condensed/files/fira-sans-condensed-greek-400-normal.woff?inline';
import greek600 from '@fontsource/fira-sans-condensed/files/fira-sans-condensed-greek-600-normal.woff?inline';
import latin400 from '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-400-normal.woff?inline';
import latin600 from '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-600-normal.woff?inline';
import latinExt400 from '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-ext-400-normal.woff?inline';
import latinExt600 from '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-ext-600-normal.woff?inline';
import type { RecordFonts } from '#record/fonts.ts';
import { carriedBytes } from './carried-bytes.ts';

/** The record's faces, carried by the program itself. */
export function recordFonts(): RecordFonts {
  return {
    'latin-400': carriedBytes(latin400),
    'latin-600': carriedBytes(latin600),
    'latin-ext-400': carriedBytes(latinExt400),
    'latin-ext-600': carriedBytes(latinExt600),
    'greek-400': carriedBytes(greek400),
    'greek-600': carriedBytes(greek600),
    'cyrillic-400': carriedBytes(cyrillic400),
    'cyrillic-600': carriedBytes(cyrillic600),
  };
}
