import {
  allowedText,
  limitText,
  nearerLimit,
  placeText,
  sizeText,
  valueText,
} from '#formats/criterion-text.ts';
import { rounded } from '#formats/number.ts';
import {
  decimalsForUncertainty,
  durationText,
  fixedText,
  shareText,
  statedText,
  withUnit,
} from '#units/number-text.ts';
import type { Because, Draft, WorstEngagement } from './draft.ts';

/**
 * The reason of a verdict: one clause that a rebuilder would say, with number, uncertainty and limit, without a full stop.
 * The only place where reasons are worded. Decimal point and plain blanks: data; pages bind and translate the numbers.
 */
export function reasonOf(draft: Draft): string {
  const { because } = draft;
  switch (because.kind) {
    case 'not-assessed':
      return because.reason;
    case 'not-yet':
      return `${subject(draft)}${valueText(draft)} so far, ${allowedText(draft)}; the run is still going on`;
    case 'so-far':
      return `so far: ${reasonOf({ ...draft, verdict: because.verdict, because: because.stands })}; the run is still going on`;
    case 'bound':
      return boundReason(draft, because.atMost, because.engagement);
    case 'not-by-then':
      return notByThenReason(draft, because.atLeast, because.engagement);
    case 'beyond-the-gauge':
      return beyondReason(draft, because.atLeast);
    case 'never-settled':
      return neverSettledReason(draft, because);
    case 'settled':
      return settledReason(draft, because.tolerance, because.pressureUnit);
    case 'interval':
      return driftReason(draft, because.low, because.high);
    case 'shares':
      return shareReason(draft, because);
    case 'compared':
      return comparedReason(draft, because.guard, because.guardFactor, because.engagement);
  }
}

/** What the number is, said before it; the operating pressure needs no word, it is what the sheet is about. */
function subject(draft: Draft): string {
  switch (draft.id) {
    case 'operating-pressure':
      return '';
    case 'hold-temperature':
      return 'the oil averaged ';
    case 'peak-pressure':
      return 'the highest pressure was ';
    case 'released-pressure':
      return 'the released pressure was ';
    case 'solenoid-current':
      return 'the highest solenoid current was ';
    case 'ripple':
      return 'the pressure trembled by ';
    case 'plateau-spread':
      return 'the engagements ended within ';
    case 'engagement-rise':
      return 'the pressure rose in ';
    case 'engagement-dip':
      return 'the pressure dipped by ';
    case 'engagement-recovery':
      return 'the pressure was back after ';
    case 'fall-after-release':
      return 'the pressure fell in ';
    case 'leak-down':
      return 'the pressure took ';
    case 'run-length':
      return 'the unit ran ';
    case 'record-coverage':
    case 'time-in-band':
    case 'drift':
    case 'settling':
      return '';
  }
}

/** What follows the number and belongs to it. */
function after(draft: Draft): string {
  switch (draft.id) {
    case 'ripple':
      return ' from peak to peak';
    case 'plateau-spread':
      return ' of each other';
    case 'leak-down':
      return ' to fall to half after stopping';
    case 'record-coverage':
      return ' of the run is on record';
    case 'hold-temperature':
      return ' over the hold';
    default:
      return '';
  }
}

/** ", the slowest of 6 engagements (the 2nd, at 1 h 2 min)", where there are several. */
function engagementText(engagement: WorstEngagement | undefined): string {
  if (!engagement) return '';
  const { number, of, start_s, unmeasured } = engagement;
  const rest = unmeasured > 0 ? `, ${unmeasured} could not be measured` : '';
  if (of <= 1) return rest === '' ? '' : ` (1 of ${of + unmeasured} engagements${rest})`;
  return ` in the worst of ${of} engagements (number ${number}, at ${durationText(start_s)} of the log${rest})`;
}

function guardText(draft: Draft, guard: number): string {
  const size = guard > 0 ? fixedText(guard, decimalsForUncertainty(guard)) : '0';
  return withUnit(size, draft.unit);
}

function comparedReason(
  draft: Draft,
  guard: number | null,
  guardFactor: number,
  engagement: WorstEngagement | undefined,
): string {
  if (draft.id === 'time-in-band')
    return `the pressure was ${insideText(draft.value ?? 0)}, ${limitText(draft, draft.limits.low ?? 0)} asked for`;
  const head = `${subject(draft)}${valueText(draft)}${after(draft)}${engagementText(engagement)}`;
  const twoSided = draft.limits.low !== null && draft.limits.high !== null;
  if (!isLevel(draft)) return `${head}${plainComparison(draft)}`;
  const place = placeText(draft);
  const allowed = twoSided
    ? `${draft.id === 'operating-pressure' ? 'band' : 'allowed'} ${allowedText(draft)}`
    : allowedText(draft);
  if (draft.verdict === 'undecided' && guard !== null && draft.expandedUncertainty !== null) {
    const sure = guardText(draft, draft.expandedUncertainty);
    const but = draft.value === nearerLimit(draft) ? 'and' : 'but';
    const who = draft.gaugeLeads ? 'the gauge is' : 'the reading is';
    return guardFactor === 1
      ? `${head}, ${allowed}: ${place}, ${but} ${who} only sure to ± ${sure}`
      : `${head}, ${allowed}: ${place}, ${but} the rule asks for ${guardText(draft, guard)} (${statedText(guardFactor)} times the uncertainty) to be sure`;
  }
  if (draft.verdict === 'pass' && draft.value !== nearerLimit(draft))
    return `${head}, ${allowed}: clear of the ${twoSided ? 'nearer ' : ''}limit by ${clearance(draft)}${guard === null || guardFactor === 1 ? '' : `, where the rule asks for ${guardText(draft, guard)} (${statedText(guardFactor)} times the uncertainty)`}`;
  return `${head}, ${allowed}: ${place}`;
}

/** Distance to the nearer limit, as a size. */
function clearance(draft: Draft): string {
  const near = nearerLimit(draft);
  return draft.value === null || near === null ? '' : sizeText(draft, Math.abs(draft.value - near), 0);
}

const levels = new Set([
  'operating-pressure',
  'hold-temperature',
  'peak-pressure',
  'released-pressure',
  'solenoid-current',
]);
/** A level on a gauge, in contrast to a time, a share or a size. */
const isLevel = (draft: Draft): boolean => levels.has(draft.id);

/** ", 2 min short of the 6 h asked for", ", 0.6 s more than the 2 s allowed". */
function plainComparison(draft: Draft): string {
  const { low, high } = draft.limits;
  const limit = high ?? low;
  if (draft.value === null || limit === null) return '';
  if (draft.value === limit)
    return `, exactly the ${limitText(draft, limit)} ${high === null ? 'asked for' : 'allowed'}`;
  // A share's distance would read as per cent of the limit: it is left out.
  const distance = draft.unit === '1' ? '' : `${sizeText(draft, Math.abs(draft.value - limit), 0)} `;
  if (high !== null)
    return draft.value > limit
      ? `, ${distance}more than the ${limitText(draft, limit)} allowed`
      : `, within the ${limitText(draft, limit)} allowed`;
  return draft.value < limit
    ? `, ${distance}short of the ${limitText(draft, limit)} asked for`
    : `, at least ${limitText(draft, limit)} asked for`;
}

function driftReason(draft: Draft, low: number | null, high: number | null): string {
  const limit = draft.limits.high ?? 0,
    value = draft.value ?? 0;
  const size = sizeText(draft, Math.abs(value), limit);
  const moved =
    value === 0
      ? 'the pressure did not move over the hold'
      : `the pressure ${value < 0 ? 'fell' : 'rose'} by ${size} over the hold`;
  const bare = (number: number): string => sizeText(draft, Math.abs(number), limit);
  const change = (number: number): string =>
    `${bare(number)}${number === 0 ? '' : number < 0 ? ' down' : ' up'}`;
  const between =
    low === null || high === null
      ? ''
      : low <= 0 && high <= 0
        ? ` (between ${bare(high)} and ${bare(low)})`
        : low >= 0 && high >= 0
          ? ` (between ${bare(low)} and ${bare(high)})`
          : ` (between ${change(low)} and ${change(high)})`;
  const allowed = `${limitText(draft, limit)} allowed`;
  if (draft.verdict === 'undecided')
    return `${moved}${between}, too wide a range to tell from the ${allowed}`;
  if (draft.verdict === 'fail')
    return Math.abs(value) > limit
      ? `${moved}${between}, ${sizeText(draft, Math.abs(value) - limit, 0)} more than the ${allowed}`
      : `${moved}${between}, against the ${allowed}`;
  return `${moved}${between}, within the ${allowed}`;
}

/** "inside the band for 99.7 % of the hold", "never inside the band during the hold". */
function insideText(share: number): string {
  if (share === 0) return 'never inside the band during the hold';
  return share === 1
    ? 'inside the band for the whole hold'
    : `inside the band for ${shareText(share)} of the hold`;
}

function shareReason(draft: Draft, because: Extract<Because, { kind: 'shares' }>): string {
  const { narrowed, widened, guard, gaugeStated, pressureUnit } = because;
  const share = draft.value ?? 0;
  const found = `the pressure was ${insideText(share)}`;
  const asked = `${limitText(draft, draft.limits.low ?? 0)} asked for`;
  if (guard === null || guard === 0) return `${found}, ${asked}`;
  const by = `the ${gaugeStated ? "gauge's" : "resolution's"} ± ${withUnit(fixedText(guard, decimalsForUncertainty(guard)), pressureUnit)}`;
  const so = (other: number): string => (other === share ? '' : `for ${shareText(other)} of it `);
  if (draft.verdict === 'pass')
    return `${found}, ${so(narrowed) === '' ? '' : 'and '}${so(narrowed)}even with the limits drawn in by ${by}, ${asked}`;
  if (draft.verdict === 'fail')
    return `${found}, ${so(widened) === '' ? '' : 'and only '}${so(widened)}even with the limits pushed out by ${by}, ${asked}`;
  return `${found}, but that may be anything from ${shareText(narrowed)} to ${shareText(widened)} with ${by}, ${asked}`;
}

/** A bound is never said smaller (at most) or larger (at least) than it is. */
const atMostText = (time_s: number): string => durationText(outward(time_s, Math.ceil));
const atLeastText = (time_s: number): string => durationText(outward(time_s, Math.floor));
const outward = (time_s: number, round: (value: number) => number): number =>
  time_s < TENTHS_BELOW_s ? round(rounded(10 * time_s)) / 10 : round(rounded(time_s));
/** Durations are said in tenths of a second up to here. */
const TENTHS_BELOW_s = 9.95;

function boundReason(draft: Draft, atMost: number, engagement: WorstEngagement): string {
  const limit = draft.limits.high ?? 0;
  const verb = draft.id === 'fall-after-release' ? 'fell' : 'rose';
  const head = `the pressure ${verb} within ${atMostText(atMost)}${engagementText(engagement)}`;
  return draft.verdict === 'pass'
    ? `${head}, inside the ${limitText(draft, limit)} allowed; too few readings to say more`
    : `${head}, but the readings are too far apart to tell whether it kept the ${limitText(draft, limit)} allowed`;
}

function notByThenReason(draft: Draft, atLeast: number, engagement: WorstEngagement | null): string {
  const what =
    draft.id === 'leak-down'
      ? 'was still above half of what it was'
      : draft.id === 'fall-after-release'
        ? 'had not fallen to a tenth'
        : 'was not back';
  const asked =
    draft.limits.high === null
      ? `${limitText(draft, draft.limits.low ?? 0)} asked for`
      : `${limitText(draft, draft.limits.high)} allowed`;
  return `the pressure ${what} ${atLeastText(atLeast)} ${draft.id === 'leak-down' ? 'after stopping' : 'later'}${engagement === null ? '' : engagementText(engagement)}, ${asked}`;
}

function beyondReason(draft: Draft, atLeast: number): string {
  const limit = draft.limits.high ?? 0;
  const least = withUnit(statedText(Number(atLeast.toPrecision(4))), draft.unit),
    more = withUnit(statedText(Number((atLeast - limit).toPrecision(3))), draft.unit);
  const where =
    draft.id === 'solenoid-current'
      ? 'the solenoid current stood at the end of its range'
      : "the pressure stood at the end of the gauge's range";
  return `${where}: at least ${least}, ${more} more than the ${limitText(draft, limit)} allowed`;
}

const toleranceText = (tolerance: number | null, unit: string): string =>
  tolerance === null
    ? ''
    : ` within ${withUnit(statedText(Number(tolerance.toPrecision(3))), unit)} of its final value`;

function settledReason(draft: Draft, tolerance: number | null, pressureUnit: string): string {
  const limit = draft.limits.high ?? 0,
    value = draft.value ?? 0;
  const head = `the pressure settled${toleranceText(tolerance, pressureUnit)} after ${sizeText(draft, value, limit)}`;
  return `${head}${plainComparison(draft)}`;
}

function neverSettledReason(draft: Draft, because: Extract<Because, { kind: 'never-settled' }>): string {
  const { runSpan_s, tolerance, pressureUnit, complete } = because;
  const limit = limitText(draft, draft.limits.high ?? 0);
  const span = runSpan_s === null ? '' : durationText(runSpan_s);
  if (draft.verdict === 'fail')
    return `the pressure never stayed${toleranceText(tolerance, pressureUnit)}${span === '' ? '' : ` in ${span}`}, ${limit} allowed`;
  return complete
    ? `the run ended${span === '' ? '' : ` after ${span}`}, before the pressure had settled and before the ${limit} allowed were over`
    : `the pressure has not settled yet${span === '' ? '' : ` after ${span}`}, ${limit} allowed; the run is still going on`;
}
