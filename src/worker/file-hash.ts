import { createSHA256 } from 'hash-wasm';

/** A larger file is hashed bit by bit, so that it never stands in memory whole. */
const WHOLE_AT_MOST = 256 * 2 ** 20;

/**
 * SHA-256 of a file, in small hexadecimal digits. The browser's own is several times as fast and works beside the caller; where a page
 * may not use it, or the file does not fit, the bytes go through ours.
 */
export async function fileHash(blob: Blob, wholeAtMost = WHOLE_AT_MOST): Promise<string> {
  const subtle: SubtleCrypto | undefined = (globalThis as { crypto?: Partial<Crypto> }).crypto?.subtle;
  if (subtle === undefined || blob.size > wholeAtMost) return bitByBit(blob);
  try {
    const digest = await subtle.digest('SHA-256', await blob.arrayBuffer());
    return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
  } catch {
    // No room for it, or the file went away: then this says so.
    return bitByBit(blob);
  }
}

async function bitByBit(blob: Blob): Promise<string> {
  const hash = await createSHA256();
  hash.init();
  const stream = blob.stream().getReader();
  for (;;) {
    const { done, value } = await stream.read();
    if (done) return hash.digest('hex');
    hash.update(value);
  }
}
