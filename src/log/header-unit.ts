import { isAbsolutePressure, readUnit } from '#units/read-unit.ts';
import { isPressureUnit, type UnitName } from '#units/unit.ts';

/** A column's heading taken apart. */
export interface Heading {
  unit: UnitName | null;
  /** The unit as written, known or not; null where the heading shows none. */
  unitText: string | null;
  /** It counts from vacuum, so it is no gauge pressure. */
  absolute: boolean;
}

const none: Heading = { unit: null, unitText: null, absolute: false };
const inBrackets = /[[({<]\s*([^\])}>]{1,30}?)\s*[\])}>]/gu;
/** `Temp, °F (LGR …)`, `oil_degC`, `Pressure.mbar`, `Druck bar`, `P/psi`. */
const atEnd = /[,;_./: \u00a0-]\s*([^,;_: \u00a0()[\]]{1,12}(?:\/[a-z0-9²³]{1,4})?)\s*$/iu;
const afterComma = /,\s*([^,()[\]]{1,12}?)\s*(?:[([]|$)/u;
/** `TempC`, `OilF`: a capital letter closing a lower-case word. */
const capitalAtEnd = /(?:temp|oil|water|fluid|sump|case|tank|coolant|ambient|air)(C|F)$/iu;
/** `PressurePSI`, `LinePressBar`. */
const pressureAtEnd = /press(?:ure)?(psig?|kpag?|mpag?|m?barg?)$/iu;
/** What brackets within brackets say of the zero: `[psi(g)]`, `(bar(abs))`. */
const zeroInBrackets = /(?<=psi|bar|pa|cm[2²])\((?:(g|gauge|rel|r|ü)|(?:a|abs\.?))\)(?=\s*[\])}>])/giu;
/**
 * Last words that are units by spelling and names by habit ("Sensor A", "P 1"): they count only behind a word of their own kind.
 * `mm_s` is a speed, not seconds.
 */
const weak: ReadonlyMap<string, RegExp> = new Map([
  ['c', /(?:temp|temperatur|temperature|oil|öl|sump|fluid|water|coolant|tank|case|ambient|air|room|t)\d*$/iu],
  ['f', /(?:temp|temperature|oil|sump|fluid|water|coolant|tank|case|ambient|air|room|t)\d*$/iu],
  ['k', /(?:temp|temperatur|temperature|oil|öl|sump|fluid|water|coolant|tank|case|ambient|air|room|t)\d*$/iu],
  ['a', /(?:sol|solenoid|coil|current|curr|strom|magnet|amps?|i)\d*$/iu],
  ['v', /(?:volt|voltage|spannung|supply|batt|battery|u|sig|signal|out)\d*$/iu],
  ['s', /(?:^|[\s_])(?:time|t|elapsed|zeit|duration|run|runtime|dt)$/iu],
  ['h', /(?:^|[\s_])(?:time|t|elapsed|zeit|duration|run|runtime)$/iu],
  ['min', /(?:^|[\s_])(?:time|t|elapsed|zeit|duration|run|runtime)$/iu],
  ['pa', /(?:p|press|pressure|druck)\d*$/iu],
  ['kg', /(?:p|press|pressure|druck)\d*$/iu],
]);
/** Never a unit at a heading's end. */
const never = new Set(['1', 'm', 'on/off', 'bool', 'at']);

function isUnitAt(name: string, text: string): boolean {
  const word = text.trim().toLowerCase();
  if (never.has(word)) return false;
  const before = name
    .trimEnd()
    .slice(0, -text.trim().length)
    .replace(/[\s_.,;:/-]+$/u, '');
  const kind = weak.get(word);
  return kind === undefined ? before !== '' : kind.test(before);
}

/**
 * The unit in a heading: in brackets (`P [bar]`, `Temp (°C)`), after a comma (`Temp, °F (probe 3)`), at the end after a blank,
 * underscore or full stop (`pressure_psi`, `Pressure.mbar`), or as a capital (`TempC`).
 * @example readHeading('oil temperature [deg F]').unit === 'degF'
 */
export function readHeading(written: string): Heading {
  const name = written.includes('(')
    ? written.replace(zeroInBrackets, (_, gauge: string | undefined) => (gauge === undefined ? 'a' : 'g'))
    : written;
  const found = headingOf(name);
  // "P x10 [bar]": the numbers are not in that unit, and which way the factor goes cannot be told.
  return found.unit !== null && (factor.test(name) || namesTwoPressureUnits(name))
    ? { ...found, unit: null }
    : found;
}
/** "psi / bar": which of the two the numbers are in cannot be told. */
function namesTwoPressureUnits(name: string): boolean {
  const units = new Set(Array.from(name.matchAll(pressureWord), ([word]) => readUnit(word)));
  units.delete(null);
  return units.size > 1;
}
const pressureWord = /(?<![\p{L}\d/])(?:psig?|[kmh]pa|m?barg?|kgf?\/cm[2²])(?![\p{L}\d/])/giu;
/** `Pressure bar(g)`: the bracket belongs to the unit. */
const markedUnit = /(?:^|[\s_.,;:/[-])((?:psi|m?bar|[kmh]?pa|kgf?\/cm[2²])\s?\((?:g|a|abs)\))/iu;
const factor =
  /(?:(?<!\p{L})x|[×*·])\s?(?:10{1,5}|0?[.,]0*1)(?!\d)|(?<!\d)10{1,5}\s?[x×*]|\/\s?10{1,5}(?!\d)/iu;

function headingOf(name: string): Heading {
  const marked = asHeading(markedUnit.exec(name)?.[1] ?? '');
  if (marked !== null) return marked;
  let unknown: string | null = null;
  for (const [, inside = ''] of name.matchAll(inBrackets)) {
    const found = asHeading(inside);
    if (found !== null && inside.length === 1) {
      // "Pressure psi (A)" is sensor A; a pressure stands outside of the brackets.
      const outside = readHeading(name.replace(/[[({<]\s*.\s*[\])}>]/u, ' '));
      if (isPressureUnit(outside.unit)) return outside;
    }
    if (found !== null) return found;
    unknown ??= inside;
  }
  const comma = afterComma.exec(name)?.[1];
  const behindComma = comma === undefined ? null : asHeading(comma);
  if (behindComma !== null) return behindComma;
  const end = atEnd.exec(name)?.[1];
  const slash = /\S\s*\/\s*(\S{1,10})$/u.exec(name)?.[1];
  const words = name.trim().split(/[\s_]+/u);
  const endings = [
    end,
    readUnit(name) === null ? slash : undefined,
    words.slice(-3).join(' '),
    words.slice(-2).join(' '),
  ];
  for (const text of endings) {
    const found = text === undefined || text === name.trim() ? null : asHeading(text);
    if (found !== null && text !== undefined && isUnitAt(name, text)) return found;
  }
  const capital = /[a-z](C|F)$/u.test(name.trim()) ? capitalAtEnd.exec(name.trim())?.[1] : undefined;
  if (capital !== undefined)
    return { unit: capital === 'C' ? 'degC' : 'degF', unitText: capital, absolute: false };
  const joined = pressureAtEnd.exec(name.trim())?.[1];
  if (joined !== undefined) return { unit: readUnit(joined), unitText: joined, absolute: false };
  const whole = name.trim().toLowerCase();
  const found = never.has(whole) || weak.has(whole) ? null : asHeading(name);
  if (found !== null) return found;
  return unknown === null ? none : { unit: null, unitText: unknown, absolute: false };
}

/** Whether a heading says in words that a pressure counts from vacuum. */
export const saysAbsolute = (name: string): boolean =>
  /(?:^|[^\p{L}])(?:abs|absol\p{L}*|vacuum|vakuum)(?!\p{L})/iu.test(name);

function asHeading(text: string): Heading | null {
  const unit = readUnit(text);
  if (unit !== null) return { unit, unitText: text, absolute: false };
  if (isAbsolutePressure(text)) return { unit: null, unitText: text, absolute: true };
  return null;
}
