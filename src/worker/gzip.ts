/** A file's bytes packed with gzip, streamed. */
export const gzip = async (blob: Blob): Promise<Uint8Array> =>
  new Uint8Array(await new Response(blob.stream().pipeThrough(new CompressionStream('gzip'))).arrayBuffer());

/** @throws when the bytes are no whole gzip */
export const gunzip = async (bytes: Uint8Array): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array(
    await new Response(
      new Blob([bytes.slice()]).stream().pipeThrough(new DecompressionStream('gzip')),
    ).arrayBuffer(),
  );
