import type { UnitName } from './unit.ts';

/**
 * Ways in which people write a unit, folded as {@link readUnit} folds them (lower case, no blanks, no dots, plain digits for
 * superscripts, `°` for anything that stands for a degree sign), with the unit that they mean.
 * Source: the names in SP 811 and the SI Brochure, and common practice of loggers and meters (no source).
 * One hectopascal is one millibar exactly. "kg" alone beside a pressure is the shop's kgf/cm² (common practice, no source).
 */
const spellings: ReadonlyMap<string, UnitName> = (() => {
  const list: [UnitName, string][] = [
    [
      'psi',
      'psi psig psi(g) psi-g psi,g lb/in2 lbs/in2 lbf/in2 lb/sqin lbs/sqin lbf/sqin lb/inch2 poundspersquareinch #/in2',
    ],
    ['kPa', 'kpa kpag kpa(g) kilopascal kilopascals kn/m2 кпа'],
    ['MPa', 'mpa mpag mpa(g) megapascal megapascals n/mm2 мпа'],
    ['Pa', 'pa pascal pascals n/m2 па'],
    ['bar', 'bar bars barg bar(g) bar-g barü dan/cm2 бар'],
    ['mbar', 'mbar mbarg mbar(g) mbars millibar millibars мбар hpa hectopascal hectopascals'],
    [
      'kgf/cm2',
      'kgf/cm2 kg/cm2 kgf/cm kg/cm kp/cm2 kgcm2 kgfcm2 kgf/cm2(g) kg/cm2(g) kgf/cm2g kg/cm2g kgf/sqcm kg/sqcm kg kgf atü кгс/см2 кг/см2',
    ],
    ['mH2O', 'mh2o mwc mws mwg mce mca metersofwater mwater'],
    ['cmH2O', 'cmh2o cmwc cmws cmwg cmwater'],
    ['inHg', 'inhg "hg inchhg inchesofmercury'],
    ['mmHg', 'mmhg'],
    ['atm', 'atm'],
    [
      'degC',
      '°c degc degreec degreesc c° °с celsius degcelsius °celsius degreecelsius degreescelsius centigrade c gradc',
    ],
    [
      'degF',
      '°f degf degreef degreesf f° fahrenheit degfahrenheit °fahrenheit degreefahrenheit degreesfahrenheit f',
    ],
    ['K', 'k kelvin °k degk'],
    [
      'rpm',
      'rpm r/min 1/min min-1 min^-1 /min u/min rev/min revs/min tr/min t/min revolutionsperminute upm giri/min ob/min omw/min tr/mn umdr/min umdrehungen/min omdr/min varv/min ot/min об/мин',
    ],
    ['Hz', 'hz hertz 1/s s-1 s^-1'],
    ['A', 'a amp amps ampere amperes aca adc aac dca'],
    ['mA', 'ma milliamp milliamps milliampere milliamperes madc maac'],
    ['V', 'v volt volts acv dcv vdc vac'],
    ['mV', 'mv millivolt millivolts mvdc mvac'],
    ['L/min', 'l/min lpm ltr/min lit/min liter/min litre/min liters/min litres/min l/m slpm л/мин'],
    ['m3/h', 'm3/h m3/hr cbm/h cmh'],
    ['gal/min', 'gal/min gpm usgpm usgal/min gal(us)/min'],
    ['s', 's sec secs second seconds sek sekunden с сек'],
    ['min', 'min mins minute minutes minuten мин'],
    ['h', 'h hr hrs hour hours std stunden ч'],
    ['ms', 'ms msec msecs millis millisec millisecond milliseconds мс'],
    ['1', '1 on/off onoff bool boolean 0/1'],
    ['percent', '% pct percent perc prozent'],
  ];
  return new Map(list.flatMap(([unit, texts]) => texts.split(' ').map((text) => [text, unit] as const)));
})();

/** Whose case tells two units apart; SI prefixes milli and mega. Lower-case "mpa" still reads as MPa: a millipascal gauge does not exist. */
const caseMatters: ReadonlyMap<string, UnitName> = new Map([['mPa', 'MPa']]);

/**
 * What stands where a degree sign should: the sign, look-alikes (masculine ordinal, ring above), the sign after a wrong decoding
 * (`Â°`, twice `Ã‚Â°`; `ï¿½` for a replacement character that was decoded again), the replacement character, a question mark, the sign as
 * web pages write it.
 */
const degreeSigns = /(?:Ã‚Â°|Â°|Â?º|˚|∘|\uFFFD+|â°|ï¿½|&deg;|&#176;)/gu;

/** The text as {@link spellings} holds it. */
function folded(text: string): string {
  return (
    text
      .replace(/℃/gu, '°C')
      .replace(/℉/gu, '°F')
      .replace(/²/gu, '2')
      .replace(/³/gu, '3')
      .replace(/₂/gu, '2')
      .replace(/⁻¹|⁻1|-¹/gu, '-1')
      .replace(/¹/gu, '1')
      .replace(/[−–]/gu, '-')
      .replace(degreeSigns, '°')
      .replace(/^\?(?=[CFcf]$)/u, '°')
      // The sign's byte in the letters of old terminals (ø) and of another maker's computers (¡, and back ∞).
      .replace(/^[°oøØ¡∞](?=[CF]$)/u, '°')
      .replace(/^deg_(?=[CF]$)/iu, 'deg')
      .replace(/(?<=psi|bar|pa|cm2)[_-]g$/iu, 'g')
      .replace(/\^(?=[23])/gu, '')
      .replace(/(?<=[a-z])\*{2}(?=[23])/giu, '')
      .replace(/[\s\u00a0.]+/gu, '')
      .toLowerCase()
  );
}

/**
 * The unit that a person or a logger wrote: `PSIG`, `kg/cm2`, `kgf/cm²`, `degC`, `deg F`, `°C` (damaged too), `1/min` …
 *
 * Gauge pressure only: an absolute unit (`psia`, `bar(a)`) is none of ours, since it holds an atmosphere that a gauge does not
 * show; {@link isAbsolutePressure} tells it.
 * @param text as it stands in a heading, a unit row, a unit column or behind a value
 * @returns the name that the files use, or null for an unknown unit
 * @example readUnit('kg/cm²') === 'kgf/cm2'
 */
export function readUnit(text: string): UnitName | null {
  const trimmed = text.trim();
  // No spelling has another digit than those of powers, of 1/min and of 0/1: most cells of a file's head end here.
  if (trimmed === '' || trimmed.length > 40 || /[4-9]/u.test(trimmed)) return null;
  return caseMatters.get(trimmed) ?? spellings.get(folded(trimmed)) ?? null;
}

/** Whether the text names a pressure that counts from vacuum: `psia`, `bar abs`, `kPa(a)`. */
export function isAbsolutePressure(text: string): boolean {
  const unit = /^(.*?)[\s(,_-]*(?:a|abs\.?|absolute)\)?$/iu.exec(text.trim())?.[1];
  if (unit === undefined || unit === '') return false;
  const name = readUnit(unit);
  return name !== null && /^(?:psi|kPa|MPa|bar|mbar|kgf\/cm2|Pa|inHg|mmHg)$/u.test(name);
}
