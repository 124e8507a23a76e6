import { expect, test } from 'vitest';
import { expectEqual } from './expect-equal.ts';

const log = (change: (values: Float64Array) => void = () => undefined): unknown => {
  const values = Float64Array.from({ length: 1000 }, (_, i) => (i % 10 === 0 ? NaN : i - 5));
  change(values);
  return { ok: true, value: { values, names: new Map([['a', Buffer.from('bytes')]]) } };
};

test('the same readings pass, also where there is none', () => {
  expectEqual(log(), log());
});
test('what toEqual does not mind passes: a key without a value, another pattern of bits of a NaN', () => {
  expectEqual({ a: 1, b: undefined }, { a: 1 });
  expectEqual(new Float64Array(new BigUint64Array([0x7ff8000000000001n]).buffer), new Float64Array([NaN]));
});
test.each<[string, unknown]>([
  ['one reading', log((values) => (values[777] = 778))],
  ['a reading for none', log((values) => (values[10] = 10))],
  ['none for a reading', log((values) => (values[11] = NaN))],
  ['the sign of a zero', log((values) => (values[5] = -0))],
  [
    'a byte of a file',
    {
      ok: true,
      value: { ...(log() as { value: object }).value, names: new Map([['a', Buffer.from('bytEs')]]) },
    },
  ],
])('%s apart is told', (_, other) => {
  expect(() => expectEqual(other, log(), 'where it was')).toThrow(/where it was[^]*to deeply equal/u);
});
