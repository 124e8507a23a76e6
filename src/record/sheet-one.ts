import { gaugeIsStated, pressureWasJudged, steadyFromHoldOn, warmFromHoldOn } from '#drawing/judged-facts.ts';
import { clockAt, logClock } from '#drawing/clock.ts';
import type { Assessment, Criterion } from '#formats/assessment.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import {
  decimalsForUncertainty,
  decimalsToTell,
  durationText,
  fixedText,
  noBreak,
  statedText,
  unitLabel,
  withUnit,
  type NumberStyle,
} from '#units/number-text.ts';
import type { FactLine, FoundRow } from './content.ts';
import {
  allowedWords,
  beyondBy,
  bound,
  capital,
  clause,
  driftInterval,
  failureClause,
  foundWords,
} from './criterion-words.ts';
import type { Phrases, Span } from './phrases.ts';
import type { RecordedTest } from './record-input.ts';

/** What every sentence needs. */
export interface Telling {
  assessment: Assessment;
  unitRecord: UnitRecord | null;
  earlier: RecordedTest | null;
  /** The assessment as it was judged, where the record shows other units. */
  stated: Assessment | null;
  phrases: Phrases;
  numbers: NumberStyle;
}

const isText = (value: string | null | undefined): value is string =>
  value !== null && value !== undefined && value.trim() !== '';
export const joinTexts = (parts: readonly (string | null | undefined)[], between = ', '): string =>
  parts.filter(isText).join(between);

/** Day of the test: the shop's, else the log's. */
export function testedOn({
  assessment,
  unitRecord,
}: Pick<Telling, 'assessment' | 'unitRecord'>): string | null {
  return unitRecord?.testedOn ?? logClock(assessment.log.start)?.date ?? null;
}

/** Two columns of facts; what is unknown is left out and the next moves up. */
export function factLines(telling: Telling): [FactLine[], FactLine[]] {
  const { assessment, unitRecord, phrases } = telling;
  const date = (iso: string | null | undefined): string | null =>
    iso === null || iso === undefined ? null : noBreak(phrases.dateInWords(iso));
  const shop = unitRecord?.shop;
  const line = (label: string, value: string): FactLine[] => (value === '' ? [] : [{ label, value }]);
  const { facts } = phrases;
  return [
    [
      ...line(facts.unit, joinTexts([unitRecord?.unit?.type])),
      ...line(facts.serial, joinTexts([unitRecord?.unit?.serial])),
      ...line(facts.cameIn, joinTexts([date(unitRecord?.unit?.receivedOn), unitRecord?.unit?.complaint])),
    ],
    [
      ...line(facts.customer, joinTexts([unitRecord?.customer])),
      ...line(
        facts.rebuiltBy,
        joinTexts([isText(shop?.name) ? shop.name : unitRecord?.builtBy, shop?.address]),
      ),
      ...line(facts.testedOn, joinTexts([date(testedOn(telling)), assessment.rig?.name])),
    ],
  ];
}

const order = { fail: 0, undecided: 1, 'not-assessed': 2, pass: 3 } as const;

/** Rows of sheet 1: every fail, then undecided, then not assessed, then the order of the spec. */
export function foundRows({ assessment, phrases, numbers }: Telling): FoundRow[] {
  return assessment.criteria
    .map((criterion, place) => ({ criterion, place }))
    .sort((a, b) => order[a.criterion.verdict] - order[b.criterion.verdict] || a.place - b.place)
    .map(({ criterion }, index, sorted) => {
      const before = sorted[index - 1]?.criterion;
      const name = capital(phrases.criteria[criterion.id].plain);
      const allowed = allowedWords(criterion, phrases, numbers);
      const found = foundWords(criterion, phrases, numbers);
      const resultWord = phrases.verdict[criterion.verdict];
      return {
        criterion,
        name,
        allowed,
        interval: driftInterval(criterion, assessment),
        found,
        reason: !reasonInstead(criterion)
          ? null
          : before && reasonInstead(before) && before.reason === criterion.reason
            ? phrases.sameReason
            : clause(criterion.reason),
        result: criterion.verdict,
        resultWord,
        stripAlt: phrases.alt.strip(name, found, allowed, resultWord),
      };
    });
}

const reasonInstead = ({ verdict, value }: Criterion): boolean =>
  verdict === 'not-assessed' || value === null;

export function headlineOf(telling: Telling): string {
  const { assessment, phrases, numbers, unitRecord, earlier } = telling;
  const { headline } = phrases;
  const of = (verdict: Criterion['verdict']): Criterion[] =>
    assessment.criteria.filter((criterion) => criterion.verdict === verdict);
  const plain = (criterion: Criterion): string => phrases.criteria[criterion.id].plain;
  switch (assessment.verdict) {
    case 'pass': {
      const steps = unitRecord?.adjustments?.length ?? (earlier ? 1 : 0);
      return steps > 0 ? headline.passedAfter(steps) : headline.passed;
    }
    case 'fail': {
      const failed = of('fail');
      const [first] = failed;
      return first
        ? headline.failed(failed.length, failureClause(first, phrases, numbers))
        : headline.noLimits;
    }
    case 'undecided': {
      const [first] = of('undecided');
      if (!first) return headline.tooNear;
      if (first.id !== 'operating-pressure') return headline.tooNearNamed(plain(first));
      return clearPartLeft(assessment, first) ? headline.tooNear : headline.gaugeTooCoarse;
    }
    case 'not-assessed': {
      const missing = of('not-assessed');
      const [first] = missing;
      if (!first) return headline.noLimits;
      return first.id === 'operating-pressure'
        ? headline.notAssessed(clause(first.reason))
        : headline.notAssessedNamed(missing.length, plain(first));
    }
  }
}

/** Whether limits and gauge leave an opening in which a reading could pass. */
function clearPartLeft({ settings }: Assessment, { limits, expandedUncertainty }: Criterion): boolean {
  if (limits.low === null || limits.high === null || expandedUncertainty === null) return true;
  return 2 * settings.guardFactor * expandedUncertainty < limits.high - limits.low;
}

/** The value of the operating pressure and its uncertainty, as text; null where it has none or was not judged. */
export function averageText(
  assessment: Assessment,
  numbers: NumberStyle,
): { value: string; uncertainty: string | null } | null {
  const { value, expandedUncertainty: expanded, unit } = assessment.quantities.operatingPressure;
  if (value === null || !pressureWasJudged(assessment)) return null;
  const band = assessment.spec?.pressureBand;
  const asked = expanded !== null && expanded > 0 ? decimalsForUncertainty(expanded) : 1;
  const decimals = decimalsToTell(value, [band?.low ?? null, band?.high ?? null], asked);
  return {
    value: noBreak(withUnit(fixedText(value, decimals, numbers), unit)),
    uncertainty:
      expanded === null || expanded <= 0
        ? null
        : noBreak(withUnit(fixedText(expanded, asked, numbers), unit)),
  };
}

/** Length of the run and of its judged part, gaps left out of the latter. */
export function lengths(assessment: Assessment): {
  run_s: number | null;
  judged_s: number;
  warm_s: number | null;
} {
  const { start_s, end_s } = assessment.judged;
  const holds = assessment.phases.filter((phase) => phase.kind === 'hold');
  return {
    run_s:
      assessment.quantities.runLength?.length_s ??
      (start_s === null || end_s === null ? null : end_s - start_s),
    judged_s: holds.reduce((sum, hold) => sum + hold.end_s - hold.start_s, 0),
    warm_s: holds[0] && start_s !== null ? holds[0].start_s - start_s : null,
  };
}

/**
 * The customer's text beside the verdict: how long, when warm, what came out, what it has to be.
 * @param concessionPage where the concession stands
 */
export function bodyOf(telling: Telling, concessionPage: number): Span[] {
  const { assessment, unitRecord, phrases, numbers } = telling;
  const { body } = phrases;
  const duration = (seconds: number): string => noBreak(durationText(seconds, false, numbers));
  const { run_s, judged_s, warm_s } = lengths(assessment);
  const sentences: Span[][] = [];
  const say = (text: string): void => void sentences.push([{ text }]);
  const first = firstTestWords(telling);
  if (run_s === null) say(body.nothingEngaged);
  else say(first + body.ran(duration(run_s), speedOf(unitRecord), first !== ''));
  if (warm_s !== null && pressureWasJudged(assessment))
    say(
      steadyFromHoldOn(assessment)
        ? body.warmAfter(duration(warm_s), warmFromHoldOn(assessment))
        : body.judgedFrom(duration(warm_s)),
    );
  const average = averageText(assessment, numbers);
  if (average && judged_s > 0)
    sentences.push(body.averaged(duration(judged_s), average.value, average.uncertainty));
  const operating = assessment.criteria.find(({ id }) => id === 'operating-pressure');
  if (operating && average && operating.verdict !== 'not-assessed')
    sentences.push([{ text: pressureAgainstLimits(telling, operating) }]);
  sentences.push(...otherSentences(telling, concessionPage).map((text) => [{ text }]));
  return sentences.flatMap((spans, index) => (index === 0 ? spans : [{ text: ' ' }, ...spans]));
}

const speedOf = (unitRecord: UnitRecord | null): string | null =>
  isText(unitRecord?.shaftSpeed) ? noBreak(unitRecord.shaftSpeed.trim()) : null;

/** "In the first test … We added 0.75 mm of shims under the relief spring", to which the re-test is joined; empty without one. */
function firstTestWords({ earlier, unitRecord, phrases, numbers }: Telling): string {
  const step = unitRecord?.adjustments?.[unitRecord.adjustments.length - 1];
  if (!earlier || !step) return '';
  const average = averageText(earlier.assessment, numbers);
  const operating = earlier.assessment.criteria.find(({ id }) => id === 'operating-pressure');
  const beyond = operating ? beyondBy(operating, numbers) : null;
  const sum = (shims: readonly number[]): number => shims.reduce((total, shim) => total + shim, 0);
  const change = Number((sum(step.after_mm) - sum(step.before_mm)).toPrecision(12));
  const changed = phrases.body.changedShims(`${statedText(Math.abs(change), numbers)}\u00a0mm`, change >= 0);
  if (!average) return changed;
  const place = beyond ? phrases.body.firstTestPlace(beyond.size, beyond.high) : null;
  return `${phrases.body.firstTest(average.value, place)} ${changed}`;
}

function pressureAgainstLimits({ phrases, numbers, assessment }: Telling, operating: Criterion): string {
  const { body } = phrases;
  const { low, high } = operating.limits;
  const unit = unitLabel(operating.unit);
  const limit = (value: number): string => noBreak(`${statedText(value, numbers)} ${unit}`);
  const beyond = beyondBy(operating, numbers);
  if (operating.verdict === 'fail' && beyond) {
    const broken = beyond.high ? high : low;
    if (broken !== null)
      return beyond.high ? body.upperLimitIs(limit(broken)) : body.lowerLimitIs(limit(broken));
  }
  const both = low !== null && high !== null;
  const hasToBe = both
    ? body.hasToLie(limit(low), limit(high))
    : body.hasToBe(allowedWords(operating, phrases, numbers));
  const average = averageText(assessment, numbers);
  if (operating.verdict === 'undecided' && average?.uncertainty)
    return `${hasToBe}${body.couldBeOut(average.uncertainty)}`;
  if (operating.verdict !== 'pass') return `${hasToBe}.`;
  return `${hasToBe}${operating.decisionRule === 'guarded' && assessment.verdict === 'pass' ? body.withRoom(both) : body.within(both)}`;
}

/** Remarks that tell what gauge would decide: they belong beside an undecided verdict. */
const gaugeRemarks = new Set(['no-reading-can-pass', 'gauge-that-would-decide']);

function otherSentences(
  { assessment, unitRecord, phrases, numbers }: Telling,
  concessionPage: number,
): string[] {
  const { body } = phrases;
  const result: string[] = [];
  // A reason that the headline gives already is not said again.
  const said = assessment.criteria.find(({ id }) => id === 'operating-pressure')?.reason;
  const of = (verdict: Criterion['verdict']): Criterion[] =>
    assessment.criteria.filter((criterion) => criterion.verdict === verdict);
  if (assessment.verdict === 'undecided')
    result.push(
      ...assessment.remarks.filter(({ code }) => gaugeRemarks.has(code)).map(({ text }) => bound(text)),
    );
  if (assessment.verdict === 'not-assessed') {
    // What is needed to judge it after all.
    result.push(
      ...assessment.remarks.filter(({ code }) => code === 'never-warm').map(({ text }) => bound(text)),
    );
    for (const [index, criterion] of of('not-assessed').entries())
      if (criterion.id !== 'operating-pressure' && index < 3 && criterion.reason !== said)
        result.push(body.because(capital(phrases.criteria[criterion.id].plain), clause(criterion.reason)));
  }
  if (assessment.verdict === 'fail')
    for (const criterion of of('fail').slice(1, 3)) {
      const found = foundWords(criterion, phrases, numbers);
      if (found !== '')
        result.push(
          body.alsoNotMet(
            capital(phrases.criteria[criterion.id].plain),
            found,
            allowedWords(criterion, phrases, numbers),
          ),
        );
    }
  const met = of('pass').length;
  const rest = assessment.criteria.length - met;
  // "The other limits were met" only where all the others were, and never beside "not assessed", which it would soften.
  if (
    assessment.verdict !== 'pass' &&
    assessment.verdict !== 'not-assessed' &&
    rest === of(assessment.verdict).length &&
    met > 0
  )
    result.push(body.othersMet(met));
  if (!gaugeIsStated(assessment) && assessment.quantities.operatingPressure.value !== null)
    result.push(body.gaugeNotStated);
  if (!assessment.log.channels.some(({ role }) => role === 'oil-temperature'))
    result.push(body.noOilTemperature);
  if (!assessment.complete) result.push(body.stillRunning);
  if (assessment.verdict === 'fail')
    result.push(
      unitRecord?.concession
        ? body.concession(concessionPage)
        : isText(unitRecord?.releasedBy)
          ? body.releasedWithoutConcession
          : body.notReleased,
    );
  return result;
}

/** Clock time of a place in the log, or null. */
export function clockText(assessment: Assessment, t_s: number): string | null {
  const clock = logClock(assessment.log.start);
  return clock ? clockAt(clock, t_s) : null;
}
