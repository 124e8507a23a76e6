import greek400 from '@fontsource/fira-sans-condensed/files/fira-sans-condensed-greek-400-normal.woff?url';
import greek600 from '@fontsource/fira-sans-condensed/files/fira-sans-condensed-greek-600-normal.woff?url';
import cyrillic400 from '@fontsource/fira-sans-condensed/files/fira-sans-condensed-cyrillic-400-normal.woff?url';
import cyrillic600 from '@fontsource/fira-sans-condensed/files/fira-sans-condensed-cyrillic-600-normal.woff?url';
import latin400 from '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-400-normal.woff?url';
import latin600 from '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-600-normal.woff?url';
import latinExt400 from '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-ext-400-normal.woff?url';
import latinExt600 from '@fontsource/ibm-plex-sans-condensed/files/ibm-plex-sans-condensed-latin-ext-600-normal.woff?url';
import { fontKeys, type FontKey, type RecordFonts } from '#record/fonts.ts';

const addresses: Readonly<Record<FontKey, string>> = {
  'latin-400': latin400,
  'latin-600': latin600,
  'latin-ext-400': latinExt400,
  'latin-ext-600': latinExt600,
  'greek-400': greek400,
  'greek-600': greek600,
  'cyrillic-400': cyrillic400,
  'cyrillic-600': cyrillic600,
};

async function fontAt(address: string): Promise<Uint8Array> {
  const response = await fetch(address);
  if (!response.ok)
    throw new Error(`the record's letters could not be loaded (${address}: ${response.status})`);
  return new Uint8Array(await response.arrayBuffer());
}

let loaded: Promise<RecordFonts> | null = null;

/** The record's faces, from beside the program: they are part of it, nothing is fetched from elsewhere. */
export function recordFonts(): Promise<RecordFonts> {
  loaded ??= load().catch((error: unknown) => {
    loaded = null;
    throw error;
  });
  return loaded;
}

async function load(): Promise<RecordFonts> {
  const bytes = await Promise.all(fontKeys.map(async (key) => [key, await fontAt(addresses[key])] as const));
  return Object.fromEntries(bytes) as Record<FontKey, Uint8Array>;
}
