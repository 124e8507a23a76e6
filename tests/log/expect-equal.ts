import { isDeepStrictEqual } from 'node:util';
import { expect } from 'vitest';

/**
 * What `expect(actual).toEqual(expected)` demands, for values that hold long arrays: it goes through them reading by reading in a script,
 * a second for a hundred thousand of them. What Node finds strictly equal needs no such walk; of all else the walk decides, and says where.
 */
export function expectEqual(actual: unknown, expected: unknown, message?: string): void {
  if (!isDeepStrictEqual(actual, expected)) expect(actual, message).toEqual(expected);
}
