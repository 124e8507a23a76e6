import type { Result } from '#formats/problem.ts';
import type { Logo } from './record-input.ts';
import { vectorLogo, vectorLogoSvg } from './vector-logo.ts';

/** 45 mm at 300 dots an inch are 532; twice that is finer than any printer shows. */
const MOST_PIXELS = 2000;
/** So that a record stays small enough to be mailed. */
const MOST_BYTES = 150_000;

/**
 * A shop's logo without anything but its picture: notes, places, thumbnails and colour profiles that cameras and programs put into a file
 * would go out with every record.
 * @param name for the sentence
 */
export function cleanedLogo(bytes: Uint8Array, name: string | null): Result<Logo> {
  const refused = (reason: string): Result<Logo> => ({
    ok: false,
    problems: [{ code: 'bad-logo', file: name, reason }],
  });
  const cleaned = isPng(bytes)
    ? cleanedPng(bytes)
    : isJpeg(bytes)
      ? cleanedJpeg(bytes)
      : isSvg(bytes)
        ? cleanedSvg(bytes)
        : null;
  if (cleaned === null)
    return refused('it is no PNG, JPEG or SVG picture that can be read; save it as one of these');
  if (typeof cleaned === 'string') return refused(cleaned);
  if (cleaned.kind !== 'svg' && Math.max(cleaned.width, cleaned.height) > MOST_PIXELS)
    return refused(
      `it is ${cleaned.width} by ${cleaned.height} pixels; make it ${MOST_PIXELS} or less, 600 are enough`,
    );
  if (cleaned.bytes.length > MOST_BYTES)
    return refused(
      `its picture takes ${Math.ceil(cleaned.bytes.length / 1000)} kB and every record would carry it; make it smaller than ${MOST_BYTES / 1000} kB`,
    );
  return { ok: true, value: cleaned };
}

const signature = [137, 80, 78, 71, 13, 10, 26, 10];
const isPng = (bytes: Uint8Array): boolean => signature.every((byte, index) => bytes[index] === byte);
const isJpeg = (bytes: Uint8Array): boolean => bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff;
const isSvg = (bytes: Uint8Array): boolean =>
  /<(?:svg:)?svg[\s>]/u.test(new TextDecoder().decode(bytes.subarray(0, 20_000)));

/** Shapes and colours, read out of the drawing and written anew: what is not one of them cannot come along. */
function cleanedSvg(bytes: Uint8Array): Logo | string {
  const drawing = vectorLogo(new TextDecoder().decode(bytes));
  if (typeof drawing === 'string') return drawing;
  const { width, height } = drawing;
  return { kind: 'svg', bytes: new TextEncoder().encode(vectorLogoSvg(drawing)), width, height };
}

const mediaTypes: Readonly<Record<Logo['kind'], string>> = {
  png: 'image/png',
  jpeg: 'image/jpeg',
  svg: 'image/svg+xml',
};
export const logoMediaType = ({ kind }: Logo): string => mediaTypes[kind];

const u16 = (bytes: Uint8Array, at: number): number => (bytes[at] ?? 0) * 256 + (bytes[at + 1] ?? 0);
const u32 = (bytes: Uint8Array, at: number): number => u16(bytes, at) * 65536 + u16(bytes, at + 2);
const joined = (pieces: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
};

/** Chunks that make the picture; all others are notes. Source: W3C Portable Network Graphics, clause 11 (from memory). */
const kept = new Set(['IHDR', 'PLTE', 'tRNS', 'IDAT', 'IEND']);
function cleanedPng(bytes: Uint8Array): Logo | string | null {
  const pieces = [bytes.subarray(0, 8)];
  let width = 0,
    height = 0,
    data = false;
  for (let at = 8; at + 12 <= bytes.length;) {
    const length = u32(bytes, at);
    const type = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    const end = at + 12 + length;
    if (end > bytes.length) return null;
    if (type === 'IHDR') {
      width = u32(bytes, at + 8);
      height = u32(bytes, at + 12);
      if (bytes[at + 16] === 16) return 'it has 16 bits a colour; save it with 8';
      if (bytes[at + 20] !== 0) return 'it is interlaced; save it without';
    }
    if (type === 'IDAT') data = true;
    if (kept.has(type)) pieces.push(bytes.subarray(at, end));
    if (type === 'IEND')
      return data && width > 0 && height > 0 ? { kind: 'png', bytes: joined(pieces), width, height } : null;
    at = end;
  }
  return null;
}

/** Segments up to the picture's data, without the notes (APP1 to APP13, APP15, COM); APP0 and APP14 say how its colours are coded. Source: ITU-T T.81, Annex B (from memory). */
function cleanedJpeg(bytes: Uint8Array): Logo | string | null {
  const pieces = [bytes.subarray(0, 2)];
  let size: { width: number; height: number } | null = null;
  for (let at = 2; at + 4 <= bytes.length;) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) {
      at++;
      continue;
    }
    const end = at + 2 + u16(bytes, at + 2);
    if (end > bytes.length) return null;
    const frame = marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
    if (frame) {
      size = { height: u16(bytes, at + 5), width: u16(bytes, at + 7) };
      if (bytes[at + 9] === 4) return 'its colours are for a printing press (CMYK); save it as RGB';
    }
    const note = (marker >= 0xe1 && marker <= 0xef && marker !== 0xee) || marker === 0xfe;
    if (!note) pieces.push(bytes.subarray(at, end));
    if (marker === 0xda) {
      const last = lastMarker(bytes, end);
      if (size === null || size.width === 0 || size.height === 0 || last === null) return null;
      pieces.push(bytes.subarray(end, last));
      return { kind: 'jpeg', bytes: joined(pieces), ...size };
    }
    at = end;
  }
  return null;
}

/** Behind the end-of-image mark; what a camera puts after it is left out. */
function lastMarker(bytes: Uint8Array, from: number): number | null {
  for (let at = from; at + 1 < bytes.length; at++)
    if (bytes[at] === 0xff && bytes[at + 1] === 0xd9) return at + 2;
  return null;
}
