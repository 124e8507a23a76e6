import type { Assessment } from './assessment.ts';
import type { UnitRecord } from './unit-record.ts';

/** What a record still lacks, or what its reader should know before it goes out; nothing of it stops the record. */
export interface BeforeIssue {
  code:
    | 'not-complete'
    | 'no-limits'
    | 'verdict-open'
    | 'fail-without-concession'
    | 'no-gauge-uncertainty'
    | 'no-calibration-date'
    | 'calibration-over'
    | 'dates-out-of-order'
    | 'no-source-of-limits'
    | 'no-serial'
    | 'no-record-number'
    | 'no-day-of-issue'
    | 'no-customer'
    | 'no-shop'
    | 'oil-not-said'
    | 'nobody-released';
  /** What is missing and what that does to the record. */
  text: string;
}

/**
 * Looks a record through before it goes out: the gravest first.
 * @param date day of issue that is given beside the unit record, or null
 */
export function beforeIssue(
  assessment: Assessment,
  unitRecord: UnitRecord | null,
  date: string | null,
): BeforeIssue[] {
  const found: BeforeIssue[] = [];
  const say = (code: BeforeIssue['code'], text: string): void => void found.push({ code, text });
  const lacks = (value: string | undefined): boolean => (value ?? '').trim() === '';

  if (!assessment.complete) say('not-complete', 'The log was still being written: the record says so.');
  if (assessment.spec === null)
    say('no-limits', 'No limits were given: the record describes the run and judges nothing.');
  else if (assessment.verdict === 'undecided' || assessment.verdict === 'not-assessed')
    say(
      'verdict-open',
      assessment.verdict === 'undecided'
        ? 'The verdict is undecided: the record says what would decide it.'
        : 'The verdict is not assessed: the record says why.',
    );
  else if (assessment.verdict === 'fail' && !unitRecord?.concession)
    say(
      'fail-without-concession',
      'A limit is not met and no concession is written down: the record says that the unit was not released.',
    );

  const gauge = assessment.rig?.channels?.find(({ role }) => role === 'pressure');
  if (gauge?.uncertainty === undefined)
    say(
      'no-gauge-uncertainty',
      'The rig does not say how good the pressure gauge is: the pressure stands without ±.',
    );
  const tested = unitRecord?.testedOn ?? /^\d{4}-\d{2}-\d{2}/.exec(assessment.log.start ?? '')?.[0] ?? null;
  const instruments = [
    ...(gauge ? [{ name: gauge.identification ?? gauge.column, ...gauge }] : []),
    ...(unitRecord?.instruments ?? []),
  ];
  if (instruments.length === 0 || instruments.some(({ calibratedOn }) => calibratedOn === undefined))
    say(
      'no-calibration-date',
      instruments.length === 0
        ? 'No instrument is named.'
        : `No calibration date for ${instruments
            .filter(({ calibratedOn }) => calibratedOn === undefined)
            .map(({ name }) => name)
            .join(', ')}.`,
    );
  const over = instruments.filter(({ dueOn }) => tested !== null && dueOn !== undefined && dueOn < tested);
  if (over.length > 0)
    say(
      'calibration-over',
      `The calibration was over on the day of the test: ${over.map(({ name, dueOn }) => `${name} (due ${dueOn})`).join(', ')}.`,
    );
  const logged = /^\d{4}-\d{2}-\d{2}/.exec(assessment.log.start ?? '')?.[0] ?? null;
  const wrong = datesOutOfOrder(unitRecord, { tested, issued: date ?? unitRecord?.issuedOn ?? null });
  if (unitRecord?.testedOn !== undefined && logged !== null && logged !== unitRecord.testedOn)
    wrong.unshift(`the log begins on ${logged}, the record says tested on ${unitRecord.testedOn}`);
  for (const { name, calibratedOn, dueOn } of instruments) {
    if (calibratedOn === undefined) continue;
    if (tested !== null && calibratedOn > tested)
      wrong.push(`${name} calibrated (${calibratedOn}) after the test (${tested})`);
    if (dueOn !== undefined && dueOn < calibratedOn)
      wrong.push(`${name} due (${dueOn}) before it was calibrated (${calibratedOn})`);
  }
  if (wrong.length > 0)
    say('dates-out-of-order', `Dates that do not fit together: ${[...new Set(wrong)].join('; ')}.`);
  if (assessment.spec !== null && lacks(assessment.spec.source))
    say('no-source-of-limits', 'The limits do not say where they come from.');

  if (lacks(unitRecord?.unit?.serial))
    say('no-serial', 'No serial: nobody can tell later which unit this record is of.');
  if (lacks(unitRecord?.recordNumber)) say('no-record-number', 'No record number.');
  if (date === null && unitRecord?.issuedOn === undefined) say('no-day-of-issue', 'No day of issue.');
  if (lacks(unitRecord?.customer)) say('no-customer', 'No customer.');
  if (lacks(unitRecord?.shop?.name)) say('no-shop', 'No name of the shop.');
  if (unitRecord?.oil?.leftIn === undefined)
    say(
      'oil-not-said',
      'Whether oil is in the unit is not said: the record has no oil notice for the fitter.',
    );
  if (lacks(unitRecord?.releasedBy)) say('nobody-released', 'Nobody is named who released it.');
  return found;
}

/** Pairs of dates of which the second lies before the first; dates are ISO, so that their text has their order. */
function datesOutOfOrder(
  unitRecord: UnitRecord | null,
  { tested, issued }: { tested: string | null; issued: string | null },
): string[] {
  const received = unitRecord?.unit?.receivedOn;
  const released = unitRecord?.releasedOn;
  const agreed = unitRecord?.concession?.on;
  const pairs: [string, string | null | undefined, string, string | null | undefined][] = [
    ['tested', tested, 'received', received],
    ['released', released, 'received', received],
    ['released', released, 'tested', tested],
    ['issued', issued, 'tested', tested],
    ['concession agreed', agreed, 'tested', tested],
    ...(unitRecord?.adjustments ?? []).map(
      ({ date }): [string, string | null | undefined, string, string | null | undefined] => [
        'tested',
        tested,
        'adjusted',
        date,
      ],
    ),
  ];
  return pairs.flatMap(([what, then, after, before]) =>
    typeof then === 'string' && typeof before === 'string' && then < before
      ? [`${what} (${then}) before ${after} (${before})`]
      : [],
  );
}
