import { afterEach, describe, expect, it } from 'vitest';
import { dayText, runDay } from '#app/book-words.ts';
import { recall, remember } from '#app/remembered.ts';
import { startText } from '#app/run-words.ts';
import {
  dateText,
  decimalMarkOf,
  durationText,
  fieldNumber,
  fixedText,
  instruction,
  shareText,
  showAs,
  uncertainText,
} from '#app/shown-numbers.ts';
import { sinceStart } from '#app/chart/time-words.ts';
import { ambiguousText, plainNumber, typedNumber } from '#app/typed-number.ts';
import { numberStyle, uncertainText as keptText } from '#units/number-text.ts';
import type { AdviceOption } from '#formats/advice.ts';

const browser = { decimalMark: null, dateForm: null } as const;
afterEach(() => showAs(browser, 'en-GB'));

describe('numbers and dates as the reader has them', () => {
  it('follow the browser: decimal mark and order of the day', () => {
    const read = (language: string): string[] => {
      showAs(browser, language);
      return [fixedText(-425.12, 1), dateText('2026-03-04'), dateText('2026-03-04', false)];
    };
    expect(read('en-GB')).toEqual(['−425.1', '4 March 2026', '4 March']);
    expect(read('en-US')).toEqual(['−425.1', 'March 4, 2026', 'March 4']);
    expect(read('de-DE')).toEqual(['−425,1', '04.03.2026', '04.03.2026']);
    expect(read('fr-FR')).toEqual(['−425,1', '04/03/2026', '04/03/2026']);
    expect(read('sv-SE')).toEqual(['−425,1', '2026-03-04', '2026-03-04']);
    expect(read('de-CH')[0]).toBe('−425.1');
    // Their own calendars and digits would be other days than those of the log.
    expect(read('fa-IR')[1]).toBe('2026/03/04');
    expect(read('ar-EG')[1]).toMatch(/4.*3.*2026/u);
  });

  it('has the same marks as the record’s table of languages', () => {
    for (const language of ['en-GB', 'de-DE', 'de-CH', 'fr-FR', 'es-MX', 'es-ES', 'en-ZA', 'ja-JP', 'pl-PL'])
      expect([language, decimalMarkOf(language)]).toEqual([language, numberStyle(language).decimal]);
  });

  it('a choice goes before the browser, each by itself', () => {
    showAs({ decimalMark: 'comma', dateForm: 'iso' }, 'en-US');
    expect([fixedText(0.5, 2), dateText('2026-03-04')]).toEqual(['0,50', '2026-03-04']);
    showAs({ decimalMark: 'point', dateForm: 'month-day-year' }, 'de-DE');
    expect([fixedText(0.5, 2), dateText('2026-03-04')]).toEqual(['0.50', '03/04/2026']);
    showAs({ decimalMark: null, dateForm: 'day-month-year' }, 'de-DE');
    expect([fixedText(0.5, 2), dateText('2026-03-04', false)]).toEqual(['0,50', '04.03.2026']);
  });

  it('a language that Intl does not take, or none, opens the page all the same', () => {
    for (const language of ['', 'not a language', 'x', undefined]) {
      showAs(browser, language);
      expect(fixedText(1.5, 1)).toBe('1.5');
      expect(dateText('2026-03-04')).toBe('4 March 2026');
    }
  });

  it('hold in every kind of number, on the strip and on the card, and not in what is kept', () => {
    showAs({ decimalMark: 'comma', dateForm: null }, 'en-GB');
    expect(uncertainText(425.1, 3.5, 'psi')).toBe('425,1 ± 3,5 psi');
    expect(keptText(425.1, 3.5, 'psi')).toBe('425.1 ± 3.5 psi');
    expect(shareText(0.997)).toBe('99,7 %');
    expect(durationText(1.4)).toBe('1,4 s');
    expect(sinceStart(4.25, 2)).toBe('4,25\u00a0s');
    expect(fieldNumber(0.25)).toBe('0,25');
    const option = {
      leave: false,
      fit_mm: [0.5, 0.25],
      turns: null,
      change_mm: -0.7,
      predicted: { value: 410.1, standardUncertainty: 2.45, unit: 'psi' },
    } as unknown as AdviceOption;
    expect(instruction(option, [1.45])).toBe(
      'Fit 0,50 + 0,25 mm in place of 1,45 mm. That should give 410,1 ± 4,9 psi. Stop the bench and let the pressure off first.',
    );
  });

  it('hold for days of the book and the start of a run', () => {
    showAs({ decimalMark: null, dateForm: 'iso' }, 'en-GB');
    const today = new Date('2026-05-01T00:00:00Z');
    expect(dayText('2026-03-04', today)).toBe('2026-03-04');
    expect(startText('2026-03-04T08:15:00')).toBe('2026-03-04, 08:15');
    showAs(browser, 'de-DE');
    expect(
      runDay({ log: { start: '2025-12-31T08:15:00' } } as unknown as Parameters<typeof runDay>[0], today),
    ).toBe('31.12.2025');
  });

  it('are remembered; what lies there and is no choice is as the browser has it', () => {
    const kept = new Map<string, string>();
    const storage = {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => void kept.set(key, value),
    };
    remember(storage, { ...recall(storage), decimalMark: 'comma', dateForm: 'iso' });
    expect(recall(storage)).toMatchObject({ decimalMark: 'comma', dateForm: 'iso' });
    kept.set('overdrive-bench', JSON.stringify({ decimalMark: 'dash', dateForm: 3 }));
    expect(recall(storage)).toMatchObject(browser);
  });
});

describe('a typed number', () => {
  it('takes point and comma alike', () => {
    expect(['0.25', '0,25', ',5', '.5', '1,234', '10 000', '10\u00a0000,5'].map(typedNumber)).toEqual([
      0.25, 0.25, 0.5, 0.5, 1.234, 10000, 10000.5,
    ]);
    expect(typedNumber('  ')).toBeNull();
    expect(plainNumber('−2,5')).toBe('-2.5');
  });

  it('refuses in words what could be two numbers, and guesses at none', () => {
    for (const typed of ['1.234,5', '1,234.5', '1,234,567', '1.234.567', '4,2,0']) {
      expect(typedNumber(typed)).toBeNaN();
      expect(Number(plainNumber(typed))).toBeNaN();
      expect(ambiguousText('1', typed)).toBe(
        `“${typed}” has more than one decimal mark: write a number with one point or one comma, and none between thousands.`,
      );
    }
    expect(ambiguousText('0,5', '420', '')).toBeNull();
    expect(typedNumber('abc')).toBeNaN();
  });
});
