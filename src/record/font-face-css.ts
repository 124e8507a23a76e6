import { faces, type FontKey, type RecordFonts } from './fonts.ts';

/** Name under which the embedded faces are asked for: not that of an installed font, which may be another version. */
export const EMBEDDED_FAMILY = 'Record Sans';
/** When the faces are not embedded or not read: near ones that most systems have. */
export const FONT_FAMILY = `'${EMBEDDED_FAMILY}', 'IBM Plex Sans Condensed', 'Arial Narrow', Arial, sans-serif`;

/** Letters that each face is asked for; the first face has the rest. Blocks of Unicode. */
const ranges: Readonly<Record<(typeof faces)[number], string | null>> = {
  latin: null,
  'latin-ext': 'U+0100-02BA,U+1E00-1E9F,U+1EF2-1EFF,U+20A0-20AB',
  greek: 'U+0370-03FF',
  cyrillic: 'U+0400-045F,U+0490-0491,U+04B0-04B1,U+2116',
};

/** Rules that put the faces into the file itself, so that it needs nothing else to look as it should. */
export function fontFaceCss(fonts: RecordFonts, keys: Iterable<FontKey>): string {
  const wanted = new Set(keys);
  return faces
    .flatMap((face) =>
      ([400, 600] as const).map((weight) => ({ face, weight, key: `${face}-${weight}` as const })),
    )
    .filter(({ key }) => wanted.has(key))
    .map(({ face, weight, key }) => {
      const range = ranges[face];
      return `@font-face{font-family:'${EMBEDDED_FAMILY}';font-weight:${weight};${range === null ? '' : `unicode-range:${range};`}src:url(data:font/woff;base64,${base64(fonts[key])}) format('woff')}`;
    })
    .join('\n');
}

/** Base64 (RFC 4648) of bytes, without the whole of them on the call stack. */
export function base64(bytes: Uint8Array): string {
  let binary = '';
  for (let at = 0; at < bytes.length; at += 8192)
    binary += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return btoa(binary);
}
