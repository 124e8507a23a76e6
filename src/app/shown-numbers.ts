/**
 * Numbers and dates as this page shows them: every part of the app takes them from here, so that the reader's decimal mark and date
 * form hold everywhere. What is kept or written to a file (names of rigs, notes, JSON, CSV) is made by #units/number-text.ts itself.
 */
import type { Advice, AdviceOption } from '#formats/advice.ts';
import * as advice from '#formats/advice-words.ts';
import * as criterion from '#formats/criterion-text.ts';
import type { CriterionFacts } from '#formats/criterion-text.ts';
import * as text from '#units/number-text.ts';
import type { NumberStyle } from '#units/number-text.ts';

export * from '#units/number-text.ts';
export const { verdictWords, decimalsOf } = criterion;
export type { CriterionFacts };

export const decimalMarks = ['point', 'comma'] as const;
export const dateForms = ['day-month-year', 'month-day-year', 'iso'] as const;

/** How the reader wants numbers and dates; null: as the browser's language has it. */
export interface ReadingForm {
  decimalMark: (typeof decimalMarks)[number] | null;
  dateForm: (typeof dateForms)[number] | null;
}

interface Shown {
  style: NumberStyle;
  dateForm: ReadingForm['dateForm'];
  /** BCP 47 tag, one that Intl takes. */
  language: string;
}
/** Until the page says otherwise: point, and the day before the month. */
let shown: Shown = { style: text.POINT_STYLE, dateForm: null, language: 'en-GB' };

/** The decimal mark of a language by the browser's own data; a mark that is neither point nor comma (٫) is shown as a comma. */
export function decimalMarkOf(language: string): NumberStyle['decimal'] {
  const part = new Intl.NumberFormat(language).formatToParts(1.5).find(({ type }) => type === 'decimal');
  return part === undefined || part.value === '.' ? '.' : ',';
}

/** A tag that Intl refuses, as some embedded browsers give, must not keep the page from opening. */
function soundTag(language: string | undefined): string {
  try {
    return Intl.getCanonicalLocales(language)[0] ?? 'en-GB';
  } catch {
    return 'en-GB';
  }
}

/** Sets how numbers and dates are shown from here on. The caller draws the page again. */
export function showAs(form: ReadingForm, browserLanguage: string | undefined): void {
  const language = soundTag(browserLanguage);
  const decimal =
    form.decimalMark === null ? decimalMarkOf(language) : form.decimalMark === 'comma' ? ',' : '.';
  shown = { style: { decimal }, dateForm: form.dateForm, language };
}

/** Changes when anything that is already drawn would read otherwise. */
export const shownKey = (): string => [shown.style.decimal, shown.dateForm, shown.language].join(' ');

export const fixedText = (value: number, decimals: number): string =>
  text.fixedText(value, decimals, shown.style);
export const statedText = (value: number): string => text.statedText(value, shown.style);
/** A sentence of the core, which writes a decimal point, with the reader's decimal mark; names like "run.2.csv" and "0.1.0" stay. */
export const inReadersForm = (sentence: string): string =>
  shown.style.decimal === '.'
    ? sentence
    : sentence.replace(/(?<![\w.])(\d[\d\u00a0]*)\.(\d+)(?![\w]|\.\w)/gu, `$1${shown.style.decimal}$2`);
/** A clause as a sentence, its numbers as the reader has them. */
export const asSentence = (clause: string): string => inReadersForm(text.asSentence(clause));

export const shareText = (share: number, decimals?: number): string =>
  text.shareText(share, decimals, shown.style);
export const durationText = (seconds: number, exact?: boolean): string =>
  text.durationText(seconds, exact, shown.style);
export const uncertainText = (
  value: number,
  expanded: number,
  unit: string,
  limits?: readonly (number | null)[],
): string => text.uncertainText(value, expanded, unit, limits, shown.style);

export const sizeText = (facts: CriterionFacts, size: number, tell?: number | null): string =>
  criterion.sizeText(facts, size, tell, shown.style);
export const limitText = (facts: CriterionFacts, limit: number): string =>
  criterion.limitText(facts, limit, shown.style);
export const allowedText = (facts: CriterionFacts): string => criterion.allowedText(facts, shown.style);
export const valueText = (facts: CriterionFacts): string => criterion.valueText(facts, shown.style);
export const placeText = (facts: CriterionFacts): string => criterion.placeText(facts, shown.style);
export const headlineText = (facts: CriterionFacts): string => criterion.headlineText(facts, shown.style);

export const stackText = (stack: readonly number[]): string => advice.stackText(stack, shown.style);
export const predictedText = (option: Pick<AdviceOption, 'predicted'>): string =>
  advice.predictedText(option, shown.style);
export const readingText = (given: Advice): string => advice.readingText(given, shown.style);
export const perMillimetreText = (given: Advice): string => advice.perMillimetreText(given, shown.style);
export const millimetres = (value: number): string => advice.millimetres(value, shown.style);
export const turnsText = (turns: number): string => advice.turnsText(turns, shown.style);
export const adviceTitle = (given: Advice): string => advice.adviceTitle(given, shown.style);
export const instruction = (option: AdviceOption, fitted_mm: readonly number[] | null): string =>
  advice.instruction(option, fitted_mm, shown.style);
export const earlierFigures = (earlier: NonNullable<Advice['earlier']>[number]): string =>
  advice.earlierFigures(earlier, shown.style);
export const earlierSentence = (given: Advice): string => advice.earlierSentence(given, shown.style);

/** A number's plain digits ("0.25", never grouped) with the reader's decimal mark: what stands in a field to be changed. */
export const fieldNumber = (value: number | string): string =>
  String(value).replace('.', shown.style.decimal);

/**
 * A day as the reader writes it: words where the browser speaks English ("4 March", "March 4"; the page's other words are English too),
 * else digits in that language's order.
 * @param day ISO 8601, "2026-03-04"
 * @param withYear false: the year goes without saying, where the form can do without it
 */
export function dateText(day: string, withYear = true): string {
  const [year = 0, month = 1, number = 1] = day.split('-').map(Number);
  const two = (value: number): string => String(value).padStart(2, '0');
  switch (shown.dateForm) {
    case 'iso':
      return `${String(year).padStart(4, '0')}-${two(month)}-${two(number)}`;
    case 'day-month-year':
      return `${two(number)}.${two(month)}.${year}`;
    case 'month-day-year':
      return `${two(month)}/${two(number)}/${year}`;
    case null: {
      const inWords = /^en\b/iu.test(shown.language);
      return new Intl.DateTimeFormat(shown.language, {
        // The days of the log and the book are of this calendar and in these digits, whatever the language's own are.
        calendar: 'gregory',
        numberingSystem: 'latn',
        timeZone: 'UTC',
        ...(inWords ? { day: 'numeric', month: 'long' } : { day: '2-digit', month: '2-digit' }),
        ...(withYear || !inWords ? { year: 'numeric' } : {}),
      }).format(Date.UTC(year, month - 1, number));
    }
  }
}
