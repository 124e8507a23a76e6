/** Reflected polynomial of CRC-32 as zip files use it (0xEDB88320, from memory; held to the check value 0xCBF43926 of "123456789" in the tests). */
const POLYNOMIAL = 0xedb88320;

const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ POLYNOMIAL : rest >>> 1;
  return rest;
});

/** CRC-32 of bytes, going on from that of the bytes before. */
export function crc32(bytes: Uint8Array, before = 0): number {
  let rest = ~before;
  for (const byte of bytes) rest = (table[(rest ^ byte) & 255] ?? 0) ^ (rest >>> 8);
  return ~rest >>> 0;
}
