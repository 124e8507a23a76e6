import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { phrasesOf } from '#record/phrases.ts';
import { recordContent } from '#record/record-content.ts';
import { saidIn } from '#record/said-in.ts';
import { cases } from './cases.ts';

const german = phrasesOf('de').phrases;
const sentence = (text: string): string => german.sentence(text);
/** Reasons and remarks as the tests of analysis, decision and log, and the sample runs, brought them forth: one of each wording. */
const sentences = readFileSync('tests/record/sentences.txt', 'utf8').trim().split('\n');
const english = /\b(?:the|of|and|is|are|at|with|for|it|no|not|to|log|hold|pressure|reading)\b/iu;
const names = /[„"][^“"]*[“"]/gu;
/** Every number of a text; where a mark stands in it is the language's. */
const numbersIn = (text: string): string[] =>
  (text.match(/\d+(?:[.,]\d+)*/gu) ?? []).map((number) => number.replace(',', '.')).sort();

describe('every sentence of an assessment is German in a German record', () => {
  test.each(sentences)('%s', (given) => {
    const said = sentence(given);
    expect(said.replace(names, ''), said).not.toMatch(english);
    expect(said).not.toBe(given);
    expect(numbersIn(said)).toEqual(numbersIn(given));
    expect(said.replace(names, '').replace('JCGM 106, 8.2', ''), 'decimal comma').not.toMatch(/\d\.\d/u);
    expect(said.endsWith('.')).toBe(given.endsWith('.'));
  });
});

test('what the list does not hold stays as it was said, the sentences beside it do not', () => {
  expect(sentence('A wording that nobody has made.')).toBe('A wording that nobody has made.');
  expect(sentence('Correct their roles. A wording that nobody has made.')).toBe(
    'Ihre Rollen sind zu berichtigen. A wording that nobody has made.',
  );
});

describe('a list of sayings', () => {
  const say = saidIn(
    [
      ['the {t1} is {c1}', '{c1} ist {t1}'],
      ['{q1} to {q2}', '{q1} bis {q2}'],
      ['{c1}, and {c2}', '{c1} und {c2}'],
    ],
    ',',
  );
  test.each([
    ['the gauge is 1.5 to 2.5 psi', '1,5 bis 2,5 psi ist gauge'],
    ['The gauge is 1 psi.', '1 psi ist gauge.'],
    ['1 psi, and the is is 2 to 3 h 4 min', '1 psi und 2 bis 3 h 4 min ist is'],
    ['the gauge is wide', 'the gauge is wide'],
    ['2026-03-05 to 2026-04-05', '2026-03-05 bis 2026-04-05'],
  ])('%s', (text, said) => expect(say(text)).toBe(said));
});

test.each(['pass', 'undecided', 'not-assessed', 'all-criteria', 'nothing-met'] as const)(
  'a German record says no English word of its own: %s',
  (name) => {
    const input = { ...cases[name](), language: 'de' as const };
    const { criteria, remarks } = input.assessment;
    const content = recordContent(
      {
        ...input,
        unitRecord: null,
        assessment: {
          ...input.assessment,
          rig: null,
          spec: input.assessment.spec && { ...input.assessment.spec, source: 'Beispiel' },
          criteria: criteria.map((criterion) => ({
            ...criterion,
            // The cases are made without the decisions: their reasons are nobody's.
            reason:
              criterion.id === 'operating-pressure'
                ? '411.2 ± 2.2 psi, band 400 to 420 psi: clear of the nearer limit by 8.8 psi'
                : 'this log does not show it',
          })),
          remarks: remarks.filter(({ text }) => text !== 'as made'),
        },
      },
      {
        howToRead: [],
        missingLetters: [],
        attached: true,
        pageOf: () => 2,
        assessmentSha256: null,
        code: null,
        leaveOut: [],
      },
    );
    const texts: string[] = [];
    const gather = (value: unknown, key = ''): void => {
      if (
        typeof value === 'string' &&
        !['key', 'kind', 'place', 'id', 'criterion', 'verdict', 'language'].includes(key)
      )
        texts.push(value);
      else if (Array.isArray(value)) value.forEach((each) => gather(each, key));
      else if (typeof value === 'object' && value !== null && key !== 'criterion')
        for (const [own, each] of Object.entries(value)) gather(each, own);
    };
    gather(content);
    expect(texts.length).toBeGreaterThan(50);
    for (const text of texts.filter((each) => each !== 'not-assessed'))
      expect(text).not.toMatch(/\b(?:the|of|and|is|with|for|it|not)\b/u);
  },
);
