import { expect, test } from 'vitest';
import { problemSentence } from '#formats/problem.ts';
import { wholeLogo } from '#record/whole-picture.ts';
import { jpegSegments, madePng } from './made-picture.ts';

const sentence = (bytes: Uint8Array): string => {
  const read = wholeLogo(bytes, 'logo.png');
  return read.ok ? '' : read.problems.map(problemSentence).join(' ');
};

test('pictures that are whole are taken', () => {
  for (const bytes of [madePng(60, 20), madePng(7, 3, { alpha: true }), jpegSegments('')])
    expect(sentence(bytes)).toBe('');
});
test('a PNG with one bit of its pixels changed, wherever it is, is refused and not drawn', () => {
  const whole = madePng(60, 20);
  const from = Buffer.from(whole).indexOf('IDAT') + 4;
  const length = new DataView(whole.buffer, whole.byteOffset).getUint32(from - 8);
  // The first two bytes say how it is packed: some of their bits change nothing.
  for (let at = from + 2; at < from + length; at++) {
    const bytes = Uint8Array.from(whole);
    bytes[at] = (bytes[at] ?? 0) ^ 4;
    expect(sentence(bytes), String(at - from)).toContain('damaged');
  }
});
test('a head that asks for more pixels than there are, or for a palette that is not there', () => {
  const taller = Uint8Array.from(madePng(60, 20));
  taller[23] = 21;
  expect(sentence(taller)).toContain('damaged');
  const indexed = Uint8Array.from(madePng(60, 20));
  indexed[25] = 3;
  expect(sentence(indexed)).toContain('damaged');
});
