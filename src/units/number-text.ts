/** Numbers and units as people read them: digits by uncertainty, true minus, no-break spaces, durations, the decimal mark of a language. */

export const NO_BREAK_SPACE = '\u00a0';
export const TRUE_MINUS = '\u2212';

/** How a language writes numbers. */
export interface NumberStyle {
  decimal: '.' | ',';
}
export const POINT_STYLE: NumberStyle = { decimal: '.' };

/**
 * Languages that write a decimal comma, by primary subtag. Source: common usage as collected in Unicode CLDR, written down from memory;
 * a test holds the table against the Intl data of the machine it runs on.
 */
const commaLanguages = new Set(
  'af be bg bs ca cs da de el es et eu fi fo fr gl hr hu id is it ka kk lt lv mk nb nl nn no pl pt ro ru sk sl sq sr sv tr uk vi'.split(
    ' ',
  ),
);
/** Regions that differ from the rest of their language. */
const pointRegions = new Set([
  'de-ch',
  'de-li',
  'it-ch',
  ...'mx us pr gt hn ni pa sv do pe'.split(' ').map((region) => `es-${region}`),
]);
const commaRegions = new Set([
  'en-za',
  'en-de',
  'en-at',
  'en-nl',
  'en-se',
  'en-dk',
  'en-fi',
  'en-si',
  'en-be',
]);

/**
 * The number style of a language tag ("en", "de-AT"); an unknown one gets the decimal point.
 * @param tag BCP 47 language tag, any case
 */
export function numberStyle(tag: string): NumberStyle {
  const lower = tag.toLowerCase();
  const [language = ''] = lower.split('-');
  if (commaRegions.has(lower)) return { decimal: ',' };
  return { decimal: commaLanguages.has(language) && !pointRegions.has(lower) ? ',' : '.' };
}

/** Decimal exponent of the leading digit of a value's text with so many significant digits: 9.96 with two digits reads 10, exponent 1. */
function exponentOf(value: number, digits: number): number {
  const text = value.toExponential(digits - 1);
  return Number(text.slice(text.indexOf('e') + 1));
}

/**
 * Digits after the decimal mark at which an expanded uncertainty shows two significant digits (JCGM 100:2008, 7.2.6: at most two).
 * Negative where it is 100 or more: rounded to tens, hundreds.
 * @param expanded above 0
 * @example decimalsForUncertainty(3.4641) // 1
 */
export function decimalsForUncertainty(expanded: number): number {
  return 1 - exponentOf(expanded, 2);
}

/**
 * Digits after the decimal mark that show a step of this size, 0 for a step of 1 or more.
 * @example decimalsForStep(0.014) // 2
 */
export function decimalsForStep(step: number): number {
  return step > 0 ? Math.max(0, -exponentOf(step, 15)) : 0;
}

/** 10^n for a whole n as the literal says it: exact where a double can hold it. */
const powerOfTen = (n: number): number => Number(`1e${n}`);

/** Groups of three by no-break space, from five digits on (SI Brochure 9th ed., 5.4.4: four digits may stand together). */
function grouped(whole: string): string {
  return whole.length < 5 ? whole : whole.replace(/\B(?=(\d{3})+$)/g, NO_BREAK_SPACE);
}

/**
 * A number with so many decimals; true minus, grouped thousands, no "−0".
 * @param decimals negative rounds to tens, hundreds …
 * @example fixedText(-2.17, 1) // "−2.2"
 */
export function fixedText(value: number, decimals: number, style: NumberStyle = POINT_STYLE): string {
  const text =
    decimals >= 0
      ? Math.abs(value).toFixed(Math.min(decimals, 20))
      : (Math.round(Math.abs(value) / powerOfTen(-decimals)) * powerOfTen(-decimals)).toFixed(0);
  const [whole = '', fraction] = text.split('.');
  const body = fraction === undefined ? grouped(whole) : `${grouped(whole)}${style.decimal}${fraction}`;
  return value < 0 && /[1-9]/.test(text) ? `${TRUE_MINUS}${body}` : body;
}

/**
 * A number as it was stated (a limit, a range's end): as many digits as it has, at most 12.
 * @example statedText(420) // "420"
 */
export function statedText(value: number, style: NumberStyle = POINT_STYLE): string {
  const plain = String(Math.abs(Number(value.toPrecision(12))));
  if (plain.includes('e')) return (value < 0 ? TRUE_MINUS : '') + plain.replace('-', TRUE_MINUS);
  return fixedText(value, plain.includes('.') ? plain.length - plain.indexOf('.') - 1 : 0, style);
}

/**
 * Decimals that keep a value from reading the same as a limit that it does not equal: a reading of 420.04 against 420 must not
 * be shown as 420.0. At most four more than asked for.
 */
export function decimalsToTell(value: number, limits: readonly (number | null)[], decimals: number): number {
  let enough = decimals;
  for (const limit of limits) {
    if (limit === null || limit === value) continue;
    while (enough < decimals + 4 && fixedText(value, enough) === fixedText(limit, enough)) enough++;
  }
  return enough;
}

const labels: Readonly<Record<string, string>> = {
  'kgf/cm2': 'kgf/cm²',
  degC: '°C',
  degF: '°F',
  mH2O: 'mH₂O',
  cmH2O: 'cmH₂O',
  'm3/h': 'm³/h',
  'L/min': 'l/min',
  mm2: 'mm²',
  percent: '%',
  '1': '',
};

/**
 * A unit as people read it: "kgf/cm²", "°C", "psi/°C"; the empty text for a bare share.
 * @param unit name as the files write it, also a quotient of two ("psi/degC")
 */
export function unitLabel(unit: string): string {
  const known = labels[unit];
  if (known !== undefined) return known;
  const slash = unit.lastIndexOf('/');
  if (slash <= 0) return unit;
  return `${unitLabel(unit.slice(0, slash))}/${unitLabel(unit.slice(slash + 1))}`;
}

/** Number and unit with a blank between them, also before % and °C (SI Brochure 9th ed., 5.4.3). */
export function withUnit(number: string, unit: string): string {
  const label = unitLabel(unit);
  return label === '' ? number : `${number} ${label}`;
}

/**
 * A share as per cent: "99.7 %". Never 100 % while something is missing, never 0 % while something is there.
 * @param share 0 to 1
 */
export function shareText(share: number, decimals = 1, style: NumberStyle = POINT_STYLE): string {
  let digits = decimals;
  const rounds = (): boolean =>
    (share < 1 && fixedText(share * 100, digits) === fixedText(100, digits)) ||
    (share > 0 && fixedText(share * 100, digits) === fixedText(0, digits));
  while (digits < decimals + 4 && rounds()) digits++;
  const exact = share === 0 || share === 1 ? 0 : digits;
  return `${fixedText(share * 100, exact, style)} %`;
}

/**
 * A duration in the words of the shop: "5 h 18 min", "46 min", "6 min 20 s", "1.4 s".
 * From 10 min on seconds are left out unless `exact`; below 10 s one decimal.
 * @param seconds 0 or more
 */
export function durationText(seconds: number, exact = false, style: NumberStyle = POINT_STYLE): string {
  const sign = seconds < 0 ? TRUE_MINUS : '';
  const size = Math.abs(seconds);
  if (size < 9.95 && Math.round(size * 10) % 10 !== 0) return `${sign}${fixedText(size, 1, style)} s`;
  let whole = Math.round(size);
  if (!exact && whole >= 600) whole = Math.round(whole / 60) * 60;
  const hours = Math.floor(whole / 3600),
    minutes = Math.floor((whole % 3600) / 60),
    rest = whole % 60;
  const parts: string[] = [];
  if (hours > 0) parts.push(`${grouped(String(hours))} h`);
  if (minutes > 0) parts.push(`${minutes} min`);
  if (rest > 0 || parts.length === 0) parts.push(`${rest} s`);
  return sign + parts.join(' ');
}

/**
 * Value and expanded uncertainty, the unit once: "425.1 ± 3.5 psi". U to two significant digits, the value to the same decimal
 * (JCGM 100:2008, 7.2.6); more decimals where the value would read like a limit that it does not equal.
 */
export function uncertainText(
  value: number,
  expanded: number,
  unit: string,
  limits: readonly (number | null)[] = [],
  style: NumberStyle = POINT_STYLE,
): string {
  const decimals = decimalsForUncertainty(expanded);
  const shown = decimalsToTell(value, limits, decimals);
  return withUnit(`${fixedText(value, shown, style)} ± ${fixedText(expanded, decimals, style)}`, unit);
}

/**
 * A chance in words: "97 in 100"; from 99.5 "over 99 in 100", to 0.5 "under 1 in 100".
 * @param probability 0 to 1
 */
export function chanceText(probability: number): string {
  if (probability >= 0.995) return 'over 99 in 100';
  if (probability <= 0.005) return 'under 1 in 100';
  return `${Math.round(probability * 100)} in 100`;
}

/**
 * The same sentence for a page: blanks between a number and its unit, and around ±, become no-break spaces, so that a line never
 * ends between them. Data (JSON, the terminal) keeps plain blanks.
 */
export function noBreak(text: string): string {
  return text
    .replace(/ ± /g, `${NO_BREAK_SPACE}±${NO_BREAK_SPACE}`)
    .replace(
      /(\d) (?=(?:psi|kPa|MPa|Pa|bar|mbar|kgf|mH₂O|cmH₂O|inHg|mmHg|atm|°C|°F|K|rpm|Hz|A|mA|V|mV|l|m³|s|min|h|mm|mm²|N|%)(?![A-Za-z]))/g,
      `$1${NO_BREAK_SPACE}`,
    );
}

/** A clause as a sentence of its own: a capital first, a full stop at the end. */
export function asSentence(clause: string): string {
  const trimmed = clause.trim();
  if (trimmed === '') return '';
  const capital = trimmed.slice(0, 1).toUpperCase() + trimmed.slice(1);
  return /[.?!…]$/.test(capital) ? capital : `${capital}.`;
}
