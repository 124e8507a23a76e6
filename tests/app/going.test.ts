import { describe, expect, it } from 'vitest';
import { goingBy, leftText, shareText } from '#app/going.ts';
import { broughtBackSentence } from '#app/book-words.ts';
import { nothingMerged } from '#book/merge.ts';

/** A clock that is set by hand, in seconds. */
function clock(): { now: () => Date; at: (s: number) => void } {
  let ms = 0;
  return { now: () => new Date(ms), at: (s) => void (ms = s * 1000) };
}

describe('the time that is left', () => {
  it('is told from how long it took until now, once there is something to tell it from', () => {
    const { now, at } = clock();
    const going = goingBy(now);
    const part = (bytesDone: number) => going({ stage: 'copying', bytesDone, bytesTotal: 100 });
    expect(part(0).left_s).toBeNull();
    at(0.5);
    expect(part(10).left_s).toBeNull();
    at(2);
    expect(part(20)).toEqual({ stage: 'copying', done: 20, total: 100, left_s: 8 });
    // It goes slower: it is told anew.
    at(10);
    expect(part(50).left_s).toBe(10);
    expect(part(100).left_s).toBe(0);
  });
  it('is told for each stage by itself, from where it was first heard of', () => {
    const { now, at } = clock();
    const going = goingBy(now);
    going({ stage: 'reading', bytesDone: 0, bytesTotal: 10 });
    at(100);
    expect(going({ stage: 'checking', bytesDone: 4, bytesTotal: 10 }).left_s).toBeNull();
    at(103);
    expect(going({ stage: 'checking', bytesDone: 7, bytesTotal: 10 }).left_s).toBe(3);
  });
  it.each([
    [null, ''],
    [0.4, ''],
    [1.2, ', about 2 s left'],
    [9.5, ', about 10 s left'],
    [11, ', about 15 s left'],
    [89, ', about 90 s left'],
    [91, ', about 2 min left'],
    [3700, ', about 62 min left'],
  ])('%s', (left_s, words) => {
    expect(leftText({ left_s }).replaceAll('\u00a0', ' ')).toBe(words);
  });
  it('a share of nothing is nothing', () => {
    expect(shareText({ stage: 'reading', done: 0, total: 0, left_s: null })).toBe('0 %');
    expect(shareText({ stage: 'reading', done: 1, total: 3, left_s: null })).toBe('33 %');
  });
});

describe('what bringing a copy back came to', () => {
  it.each([
    [{ ...nothingMerged(0), added: 2 }, 'Copy brought back: a.zip. 2 entries came in.'],
    [
      { ...nothingMerged(0), added: 1, replaced: 2, joined: 1, mended: 1 },
      'Copy brought back: a.zip. 1 entry came in, 2 took the place of an older one, 1 is kept with what both held, 1 that was damaged or missing here is whole again.',
    ],
    [nothingMerged(0), 'Everything in a.zip is in the book already.'],
    [nothingMerged(3), 'Stopped. Nothing of a.zip was brought back.'],
    [
      { ...nothingMerged(3), added: 1 },
      'Stopped. Of a.zip 1 entry came in; 3 entries were not brought back. What came is whole, and can be taken back.',
    ],
    [
      { ...nothingMerged(1, { code: 'no-room' }), added: 2 },
      /is full\..* Before that, of a\.zip 2 entries came in; 1 entry was not brought back\./u,
    ],
    [
      { ...nothingMerged(0), added: 2, twice: ['A-1', 'B-2'] },
      'Copy brought back: a.zip. 2 entries came in. A-1, B-2 now stand on two units: each book had made one of its own.',
    ],
  ])('%#', (merged, words) => {
    expect(broughtBackSentence('a.zip', { twice: [], ...merged })).toMatch(words);
  });
});
