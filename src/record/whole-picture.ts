import { unzlibSync } from 'fflate';
import type { Result } from '#formats/problem.ts';
import { crc32 } from './chart-png.ts';
import { cleanedLogo } from './logo.ts';
import type { Logo } from './record-input.ts';

/**
 * A shop's logo, cleaned, and only where its picture can be unpacked: what draws the record opens it far from any place that could still
 * say which file it was.
 * @param name for the sentence
 */
export function wholeLogo(bytes: Uint8Array, name: string | null): Result<Logo> {
  const cleaned = cleanedLogo(bytes, name);
  if (!cleaned.ok || cleaned.value.kind !== 'png' || isWholePng(cleaned.value.bytes)) return cleaned;
  const reason = 'its picture is damaged and cannot be unpacked; save it again from where it was drawn';
  return { ok: false, problems: [{ code: 'bad-logo', file: name, reason }] };
}

/** Colours of a pixel by colour type. Source: W3C Portable Network Graphics, clause 11.2.2 (from memory). */
const colours: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };

/** Whether the pixels of a PNG that is not interlaced unpack to what its head says, with the check sum that they were packed with. */
function isWholePng(bytes: Uint8Array): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const packed: number[] = [];
  let size = 0,
    hasPalette = false,
    asksPalette = false;
  for (let at = 8; at + 12 <= bytes.length; at += 12 + view.getUint32(at)) {
    const type = view.getUint32(at + 4);
    const data = bytes.subarray(at + 8, at + 8 + view.getUint32(at));
    // Not every unpacker minds the same damage: the chunk's own sum tells all of it.
    if (view.getUint32(at + 8 + data.length) !== crc32(bytes.subarray(at + 4, at + 8 + data.length)))
      return false;
    if (type === CHUNK.head) {
      if (data.length < 13) return false;
      const [depth = 0, colour = 0] = data.subarray(8, 10);
      const channels = colours[colour];
      if (channels === undefined || ![1, 2, 4, 8].includes(depth)) return false;
      asksPalette = colour === 3;
      size = view.getUint32(at + 12) * (1 + Math.ceil((view.getUint32(at + 8) * channels * depth) / 8));
    }
    if (type === CHUNK.palette) hasPalette = data.length > 0;
    if (type === CHUNK.data) for (const byte of data) packed.push(byte);
  }
  if (asksPalette && !hasPalette) return false;
  try {
    const pixels = unzlibSync(Uint8Array.from(packed));
    const sum = new DataView(Uint8Array.from(packed.slice(-4)).buffer).getUint32(0);
    return pixels.length === size && adler32(pixels) === sum;
  } catch {
    return false;
  }
}
/** Names of chunks as numbers: IHDR, PLTE, IDAT. */
const CHUNK = { head: 0x49484452, palette: 0x504c5445, data: 0x49444154 };

/** Source: RFC 1950, section 8.2 (from memory). */
function adler32(bytes: Uint8Array): number {
  let a = 1,
    b = 0;
  for (const byte of bytes) {
    a = (a + byte) % 65521;
    b = (b + a) % 65521;
  }
  return b * 65536 + a;
}
