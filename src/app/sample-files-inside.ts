import { packedFiles } from 'virtual:sample-runs';

/** The same from within the page, where the app is one file. */
export async function sampleFile(file: string): Promise<Response> {
  const packed = packedFiles[file];
  if (packed === undefined) return new Response(null, { status: 404 });
  const bytes = Uint8Array.from(atob(packed), (letter) => letter.codePointAt(0) ?? 0);
  const unpacked = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Response(unpacked);
}
