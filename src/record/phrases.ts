import type { ChartWords } from '#drawing/chart-words.ts';
import type { CriterionId, Verdict } from '#formats/assessment.ts';
import type { CriterionName } from '#formats/criterion-names.ts';
import { numberStyle, type NumberStyle } from '#units/number-text.ts';
import { english } from './phrases-en.ts';
import { german } from './phrases-de.ts';

/** Languages that a record can be written in: a file of phrases each. */
export const languages = ['en', 'de'] as const;
export type Language = (typeof languages)[number];

/** A piece of running text; the strong ones are set heavier. */
export interface Span {
  text: string;
  strong?: boolean;
}

/**
 * Every word of a record that does not come from the shop. Numbers arrive as finished text with digits, decimal
 * mark and unit, dates in the words of the language; counts arrive as numbers where a language bends its words by them.
 */
export interface Phrases {
  chart: ChartWords;
  /** A reason or a remark of the assessment, which says them in English with its numbers in them. */
  sentence: (text: string) => string;
  chartTitle(logName: string | null): string;
  dateInWords(isoDate: string): string;
  title: string;
  subtitle: string;
  record(number: string): string;
  recordWord: string;
  issued(date: string): string;
  inPlaceOf(recordNumber: string): string;
  verdict: Record<Verdict, string>;
  criteria: Record<CriterionId, CriterionName>;
  facts: Record<'unit' | 'serial' | 'cameIn' | 'customer' | 'rebuiltBy' | 'testedOn', string>;
  /** In place of a reason that the row above gives. */
  sameReason: string;
  /** Allowed: between two limits, one limit, a size with either sign. */
  between(low: string, high: string): string;
  atMost(limit: string): string;
  atLeast(limit: string): string;
  upOrDown(allowed: string): string;
  up(size: string): string;
  down(size: string): string;
  table: Record<'tested' | 'allowed' | 'found' | 'foundAgainstAllowed' | 'result', string>;
  /** Under the table on sheet 1: names of the rest when there is one. */
  moreMet(count: number, name: string, page: number): string;
  moreRows(count: number, page: number): string;
  headline: {
    passed: string;
    passedAfter(adjustments: number): string;
    failed(count: number, clause: string): string;
    gaugeTooCoarse: string;
    tooNear: string;
    tooNearNamed(name: string): string;
    notAssessed(reason: string): string;
    notAssessedNamed(count: number, name: string): string;
    noLimits: string;
  };
  /** What a failed criterion says in the headline. */
  failure: {
    pressure(size: string, high: boolean): string;
    timeInBand(share: string): string;
    drift(size: string): string;
    settling(duration: string | null): string;
    runLength(duration: string): string;
    oil(size: string, hot: boolean): string;
    coverage(share: string): string;
    other(name: string, found: string, allowed: string): string;
  };
  body: {
    firstTest(average: string, place: string | null): string;
    firstTestPlace(size: string, above: boolean): string;
    changedShims(change: string, added: boolean): string;
    ran(duration: string, speed: string | null, again: boolean): string;
    warmAfter(duration: string, oil: boolean): string;
    /** The pressure had not come to rest by then, or not for good. */
    judgedFrom(duration: string): string;
    averaged(duration: string, value: string, uncertainty: string | null): Span[];
    hasToLie(low: string, high: string): string;
    hasToBe(allowed: string): string;
    /** After the two before: it does so with room to spare, or it just does; `both`: of two limits. */
    withRoom(both: boolean): string;
    within(both: boolean): string;
    upperLimitIs(limit: string): string;
    lowerLimitIs(limit: string): string;
    couldBeOut(uncertainty: string): string;
    othersMet(count: number): string;
    stillRunning: string;
    gaugeNotStated: string;
    concession(page: number): string;
    notReleased: string;
    releasedWithoutConcession: string;
    alsoNotMet(name: string, found: string, allowed: string): string;
    because(name: string, reason: string): string;
    noOilTemperature: string;
    nothingEngaged: string;
  };
  howToRead: { judged: string; notJudged: string; column: string; noLimits: string };
  oilNotice: {
    drained: string;
    fill: string;
    filled(quantity: string | null, grade: string): string;
    /** null: the record has no room for later readings. */
    keep(page: number | null): string;
  };
  footer(number: string | null, serial: string | null): string;
  page(number: number, of: number): string;
  endOfRecord: string;
  engineer: { head: string; tested(serial: string | null, date: string | null): string };
  sections: Record<
    | 'criteria'
    | 'budget'
    | 'setAside'
    | 'remarks'
    | 'instruments'
    | 'method'
    | 'relief'
    | 'work'
    | 'concession'
    | 'fitter'
    | 'later'
    | 'release'
    | 'howToRead',
    string
  >;
  criteriaTable: Record<
    'criterion' | 'allowed' | 'found' | 'uncertainty' | 'rule' | 'chance' | 'verdict',
    string
  >;
  notUsed: string;
  rules: Record<'guarded' | 'simple', string>;
  ruleSentence: {
    guarded: string;
    guardedFactor(factor: string): string;
    simple: string;
    uncertainty(coverage: string): string;
  };
  limitsFrom(source: string): string;
  /** Where the record shows other units than those of the limits: the band as stated, and what one unit is. */
  shownUnits: {
    band(allowed: string, shown: string): string;
    pressure(from: string, to: string): string;
    temperature(from: string, to: string): string;
  };
  noSource: string;
  chance: { almostSure: string; almostNone: string };
  budget: {
    heading(unit: string): string;
    columns: Record<'source' | 'type' | 'size' | 'takenAs' | 'u', string>;
    sources: Record<string, string>;
    distributions: Record<string, string>;
    combined(u: string, k: string, degrees: string | null): string;
    expanded(U: string): string;
    none(reason: string | null): string;
  };
  setAside: {
    columns: Record<'why' | 'count' | 'rule', string>;
    why: Record<'missing' | 'faultToken' | 'outOfRange' | 'stuck' | 'spike', string>;
    /** The same within a sentence. */
    whyPlain: Record<'missing' | 'faultToken' | 'outOfRange' | 'stuck' | 'spike', string>;
    rule: Record<'missing' | 'faultToken' | 'outOfRange' | 'stuck' | 'spike', string>;
    used(used: string, of: string): string;
    noneOf(names: string[]): string;
    otherChannel(column: string, used: string, of: string): string;
    gaps(count: number): string;
    gap(duration: string, from: string | null, to: string | null): string;
    noGap: string;
    notBridged: string;
    moreGaps(count: number): string;
    coverage(share: string): string;
    skippedRows(count: number): string;
  };
  remarks: {
    notPart: string;
    criterion(name: string, verdict: string, reason: string): string;
    choice(
      what: string,
      from: string | null,
      to: string | null,
      by: string,
      on: string | null,
      why: string,
    ): string;
    choiceKinds: Record<string, string>;
    stillRunning: string;
    lettersMissing(letters: string): string;
    replaces(recordNumber: string, reason: string): string;
    leftOut(sections: readonly string[]): string;
    clockStep(size: string, at: string): string;
    stoppedBefore(name: string): string;
  };
  instruments: {
    columns: Record<'instrument' | 'range' | 'calibrated' | 'due', string>;
    roles: Record<string, string>;
    notSet: string;
    none: string;
    ofSpan: string;
    ofReading(percent: string): string;
    interval(seconds: string, column: string | null): string;
  };
  method: {
    labels: Record<
      'smoothing' | 'judged' | 'settled' | 'drift' | 'bench' | 'oil' | 'zero' | 'behaviour',
      string
    >;
    smoothing(method: 'median' | 'mean' | 'savitzky-golay' | 'none', window: string): string;
    judged(from: string, to: string): string;
    settled(tolerance: string): string;
    drift: string;
    zero(value: string, subtracted: boolean): string;
    ambient(text: string): string;
    drained: string;
    leftIn: string;
    joined(count: number): string;
  };
  relief: {
    columns: Record<'step' | 'shims' | 'pressure' | 'verdict', string>;
    asFound: string;
    asLeft: string;
    after(number: number): string;
    notRecorded: string;
  };
  work: { done: string; renewed: string; condition: string; notes: string; warranty: string };
  concession: {
    heading: string;
    /** Values, limits, then "delivered as it is". */
    delivered(what: string): string;
    reason: string;
    agreedBy: string;
    signature: string;
    date: string;
  };
  fitter: string[];
  fitterSolenoid(current: string): string;
  later: {
    heading: string;
    columns: Record<'date' | 'distance' | 'pressure' | 'oil' | 'speed' | 'gauge' | 'readBy', string>;
    atDelivery: string;
    thisRecord: string;
  };
  release: {
    log(name: string, rows: string, firstTest: boolean | null): string;
    part(name: string): string;
    hash(hash: string): string;
    assessmentHash(hash: string): string;
    attached: string;
    contact: string;
    workedOutBy(version: string): string;
    notAttached: string;
    code: string;
    by: string;
    signature: string;
    date: string;
  };
  alt: {
    chart(pressureUnit: string, oilUnit: string | null, charged: boolean): string;
    firstTest(text: string, step: string): string;
    startsHigh: string;
    settles(duration: string): string;
    stays(value: string, duration: string): string;
    limits(low: string | null, high: string | null): string;
    noReadings(duration: string, after: string): string;
    beyond(text: string): string;
    oil(mean: string): string;
    notJudged: string;
    figures: string;
    strip(name: string, found: string, allowed: string, verdict: string): string;
    code: string;
    logo(shop: string | null): string;
  };
}

const all: Readonly<Record<Language, Phrases>> = { en: english, de: german };

/** The phrases of a language, and how it writes numbers. */
export function phrasesOf(language: Language): { phrases: Phrases; numbers: NumberStyle } {
  return { phrases: all[language], numbers: numberStyle(language) };
}

/** The language of a record for a tag such as "de-AT": the nearest there is, English otherwise. */
export function languageFor(tag: string): Language {
  const primary = tag.toLowerCase().split('-')[0];
  return languages.find((language) => language === primary) ?? 'en';
}
