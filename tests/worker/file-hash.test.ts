import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { fileHash } from '../../src/worker/file-hash.ts';

// FIPS 180-4, SHA-256 of the three letters "abc", as its examples have it.
const OF_ABC = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';

test('the hash of a file is the same by the browser and bit by bit', async () => {
  const abc = new Blob(['abc']);
  expect(await fileHash(abc)).toBe(OF_ABC);
  expect(await fileHash(abc, 2)).toBe(OF_ABC);
  const bytes = Uint8Array.from({ length: 300_001 }, (_, i) => (i * 31) % 251);
  const expected = createHash('sha256').update(bytes).digest('hex');
  const large = new Blob([bytes]);
  expect(await fileHash(large)).toBe(expected);
  expect(await fileHash(large, 1000)).toBe(expected);
});

test('a file that went away is refused as its reading is', async () => {
  const gone = new Blob(['abc']);
  const missing = (): never => {
    throw new DOMException('changed', 'NotReadableError');
  };
  gone.arrayBuffer = missing;
  gone.stream = missing;
  await expect(fileHash(gone)).rejects.toThrow('changed');
});
