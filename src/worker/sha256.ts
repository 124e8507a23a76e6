import { createSHA256 } from 'hash-wasm';

/** SHA-256 of bytes at hand, in small hexadecimal digits. */
export async function sha256Of(bytes: Uint8Array): Promise<string> {
  const hash = await createSHA256();
  hash.init();
  hash.update(bytes);
  return hash.digest('hex');
}
