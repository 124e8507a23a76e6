import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Criterion, Verdict } from '#formats/assessment.ts';
import { allowedWords, beyondBy, foundWords, valueAlone } from '#record/criterion-words.ts';
import { openFonts } from '#record/font-set.ts';
import { languageFor, languages, phrasesOf } from '#record/phrases.ts';
import { recordContent } from '#record/record-content.ts';
import { codeItems, codeText } from '#record/square-code.ts';
import type { RecordContent } from '#record/content.ts';
import type { RecordInput } from '#record/record-input.ts';
import { cases, recordOf } from './cases.ts';
import { fontsOnDisk } from './fonts-on-disk.ts';
import { concession, fullUnitRecord } from './unit-records.ts';

const extras = {
  howToRead: [],
  missingLetters: [],
  attached: true,
  pageOf: () => 2,
  assessmentSha256: null,
  code: null,
  leaveOut: [],
};
const contentOf = (input: RecordInput): RecordContent => recordContent(input, extras);
const bodyOf = (content: RecordContent): string => content.body.map(({ text }) => text).join('');
const { phrases, numbers } = phrasesOf('en');
const criterion = (changes: Partial<Criterion>): Criterion => ({
  id: 'operating-pressure',
  value: 411.2,
  unit: 'psi',
  expandedUncertainty: 2.2,
  limits: { low: 400, high: 420 },
  decisionRule: 'guarded',
  probabilityOfConformity: 0.9,
  verdict: 'pass',
  reason: 'as made',
  ...changes,
});

describe('numbers of a criterion', () => {
  test('U to two digits, the value to the same decimal, the unit on both', () => {
    expect(foundWords(criterion({}), phrases, numbers)).toBe('411.2\u00a0psi\u00a0±\u00a02.2\u00a0psi');
    expect(foundWords(criterion({ expandedUncertainty: 11.6 }), phrases, numbers)).toBe(
      '411\u00a0psi\u00a0±\u00a012\u00a0psi',
    );
  });
  test('a value just outside is never written as the limit itself', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-4, max: 0.5, noNaN: true }),
        fc.constantFrom(0.5, 2.2, 12),
        fc.boolean(),
        (beyond, expandedUncertainty, above) => {
          const value = above ? 420 + beyond : 400 - beyond;
          const shown = Number(
            valueAlone(criterion({ value, expandedUncertainty }), numbers).replace(/[^\d.]/g, ''),
          );
          expect(above ? shown > 420 : shown < 400).toBe(true);
        },
      ),
    );
  });
  test('a share just short is never written as reaching', () => {
    const share = criterion({
      id: 'time-in-band',
      unit: '1',
      value: 0.97996,
      expandedUncertainty: null,
      limits: { low: 0.98, high: null },
    });
    expect(foundWords(share, phrases, numbers)).not.toBe('98.0\u00a0%');
  });
  test('a run a few seconds short of six hours is not written as six hours', () => {
    const run = criterion({
      id: 'run-length',
      unit: 'h',
      value: 5.999,
      expandedUncertainty: null,
      limits: { low: 6, high: null },
    });
    expect(foundWords(run, phrases, numbers)).not.toMatch(/^6\u00a0h/);
  });
  test('drift: the size with its direction', () => {
    const drift = criterion({
      id: 'drift',
      value: -2.1,
      limits: { low: -5, high: 5 },
      expandedUncertainty: null,
    });
    expect(foundWords(drift, phrases, numbers)).toMatch(/^2\.1\u00a0psi down$/);
    expect(allowedWords(drift, phrases, numbers)).toBe('at most 5\u00a0psi');
  });
  test('how far beyond', () => {
    expect(beyondBy(criterion({ value: 425.1 }), numbers)).toEqual({ size: '5.1\u00a0psi', high: true });
    expect(beyondBy(criterion({ value: 411 }), numbers)).toBeNull();
  });
  test('decimal comma in German', () => {
    const german = phrasesOf('de');
    expect(foundWords(criterion({}), german.phrases, german.numbers)).toBe(
      '411,2\u00a0psi\u00a0±\u00a02,2\u00a0psi',
    );
  });
});

describe('headlines, one pattern each', () => {
  test('pass', () => {
    expect(contentOf(cases.pass()).headline).toBe('The unit met every limit of the test.');
  });
  test('pass after an adjustment', () => {
    expect(contentOf(cases['re-test']()).headline).toBe('After one adjustment the unit met every limit.');
    expect(bodyOf(contentOf(cases['re-test']()))).toContain('We added 0.75\u00a0mm of shims');
  });
  test('fail: by how much and which way', () => {
    expect(contentOf(recordOf({ level: 425.8 })).headline).toMatch(
      /^Two limits were not met: the pressure is \d\.\d\u00a0psi too high\.$/,
    );
    expect(contentOf(recordOf({ level: 390 })).headline).toMatch(/psi too low\.$/);
  });
  test('undecided: a coarse gauge, or too near', () => {
    expect(contentOf(cases.undecided()).headline).toBe('Undecided: the gauge is too coarse to tell.');
    expect(contentOf(recordOf({ level: 419.5 })).headline).toBe('Undecided: too near to the limit to tell.');
  });
  test('not assessed: why', () => {
    expect(contentOf(cases['not-assessed']()).headline).toMatch(/^Not assessed: /);
  });
});

describe('never kinder than the numbers', () => {
  const kind = /with room to spare|met every limit/;
  const verdictOf = (content: RecordContent): Verdict => content.verdict;
  test.each(Object.entries(cases))('%s', (_, made) => {
    const content = contentOf(made());
    if (verdictOf(content) !== 'pass' && content.language === 'en') {
      expect(content.headline).not.toMatch(kind);
      expect(bodyOf(content)).not.toMatch(kind);
    }
  });
  test('a concession does not change the word of the verdict, and its sentence stands in the body', () => {
    const content = contentOf(cases['fail-with-concession']());
    expect(content.verdictWord).toBe('fail');
    expect(bodyOf(content)).toContain('does not turn the result into a pass');
    expect(content.sections.find(({ key }) => key === 'concession')?.mark?.word).toBe('fail');
  });
  test('a concession on a unit that passes is left out: there is nothing to concede', () => {
    const content = contentOf(recordOf({}, { unitRecord: { ...fullUnitRecord, concession } }));
    expect(content.sections.some(({ key }) => key === 'concession')).toBe(false);
  });
  test('a failed unit without release or concession is said not to be released', () => {
    const { releasedBy: _, ...unreleased } = fullUnitRecord;
    expect(bodyOf(contentOf(recordOf({ level: 426 }, { unitRecord: unreleased })))).toContain(
      'It has not been released.',
    );
    expect(bodyOf(contentOf(recordOf({ level: 426 })))).toContain('without a concession on record');
  });
  test('"no oil" is said only where the record says that it was drained', () => {
    const oil = (leftIn: boolean | undefined): string | null =>
      contentOf(
        recordOf(
          {},
          {
            unitRecord: {
              ...fullUnitRecord,
              oil: { grade: 'SAE 30', ...(leftIn === undefined ? {} : { leftIn }) },
            },
          },
        ),
      ).oilNotice.strong;
    expect(oil(false)).toBe('NO OIL IN THIS UNIT.');
    expect(oil(true)).toBeNull();
    expect(oil(undefined)).toBeNull();
  });
  test('failed rows come first', () => {
    const rows = contentOf(recordOf({ level: 426 })).table.rows.map(({ result }) => result);
    expect(rows.slice(0, 2)).toEqual(['fail', 'fail']);
    expect(rows.indexOf('pass')).toBeGreaterThan(rows.lastIndexOf('fail'));
  });
  test('other sections always end what was not tested', () => {
    const remarks = contentOf(cases.pass()).sections.find(({ key }) => key === 'remarks');
    const [block] = remarks?.blocks ?? [];
    expect(block?.kind === 'bullets' ? block.items.at(-1) : '').toBe(
      'Not part of this test: driving load, gear noise, fit in the vehicle.',
    );
  });
});

describe('languages', () => {
  test('no phrase of any language is empty or left in English by mistake', () => {
    const texts = (value: unknown): string[] =>
      typeof value === 'string'
        ? [value]
        : typeof value === 'object' && value !== null
          ? Object.values(value).flatMap(texts)
          : [];
    for (const language of languages)
      expect(texts(phrasesOf(language).phrases).filter((text) => text.trim() === '')).toEqual([]);
    const english = new Set(texts(phrasesOf('en').phrases));
    const same = texts(phrasesOf('de').phrases).filter((text) => english.has(text) && text.length > 4);
    // Words that are the same in both.
    expect(new Set(same)).toEqual(
      new Set(['Drift', 'normal', 'Temperatur', 'SHA-256'].filter((word) => same.includes(word))),
    );
  });
  test('the nearest language to a tag', () => {
    expect(['de-AT', 'DE', 'en-GB', 'pl', ''].map(languageFor)).toEqual(['de', 'de', 'en', 'en', 'en']);
  });
});

describe('type', () => {
  const fonts = openFonts(fontsOnDisk);
  test('a text is cut where the face changes, in canonical composition', () => {
    expect(fonts.runs('Łódź Αθήνα', 400).map(({ key, text }) => [key, text])).toEqual([
      ['latin-ext-400', 'Ł'],
      ['latin-400', 'ód'],
      ['latin-ext-400', 'ź'],
      ['latin-400', ' '],
      ['greek-400', 'Αθήνα'],
    ]);
    expect(fonts.runs('u\u0308', 400)).toEqual([{ key: 'latin-400', text: 'ü' }]);
  });
  test('all figures are of one width, so that columns stand', () => {
    const widths = Array.from('0123456789', (figure) => fonts.width(figure, 9, 400));
    expect(new Set(widths.map((w) => w.toFixed(6))).size).toBe(1);
  });
  test('a letter that no face holds is noted', () => {
    const set = openFonts(fontsOnDisk);
    set.runs('日', 400);
    expect([...set.missing]).toEqual(['日']);
  });
  test('every sign that the phrases use is in the faces', () => {
    const set = openFonts(fontsOnDisk);
    for (const made of Object.values(cases)) {
      const input = made();
      const content = contentOf({ ...input, unitRecord: null });
      for (const text of JSON.stringify(content)) set.runs(text, 400);
    }
    expect([...set.missing]).toEqual([]);
  });
});

describe('square code', () => {
  test('number and hash in letters that it packs tightest', () => {
    const text = codeText('B-0417 2', 'ab12'.repeat(16));
    expect(text).toBe(`B-0417 2:${'AB12'.repeat(16)}`);
    expect(text).toMatch(/^[0-9A-Z $%*+\-./:]+$/);
    expect(codeText('№ 7', 'ab')).toBe('- 7:AB');
    expect(codeText('x', null)).toBeNull();
  });
  test('modules of 0.4 mm with four blank ones around', () => {
    const { size, items } = codeItems(`2026-0417:${'0F'.repeat(32)}`);
    expect(Math.round(size / 0.4)).toBe(33 + 8);
    const area = items.find((item) => item.kind === 'area');
    if (area?.kind !== 'area') throw new Error('no code');
    const xs = area.rings.flat().filter((_, index) => index % 2 === 0);
    expect(Math.min(...xs)).toBeCloseTo(1.6, 9);
    expect(Math.max(...xs)).toBeCloseTo(size - 1.6, 9);
  });
});
