import { readRelief } from '#formats/check.ts';
import { writeJson } from '#formats/number.ts';
import { problemSentence, type Problem } from '#formats/problem.ts';
import { areaUnits, springRateUnits, type Relief } from '#formats/relief.ts';
import { pressureUnits, type PressureUnit } from '#units/pressure.ts';
import { hasTexts } from './has-texts.ts';
import type { Drawer } from './relief-stock.ts';
import { fieldNumber } from './shown-numbers.ts';
import { ambiguousText, typedNumber } from './typed-number.ts';

/** What is typed of a relief, as text. ± is what about 19 in 20 stay within: two standard uncertainties, as everywhere on the card. */
export interface ReliefFields {
  setBy: 'shims' | 'screw';
  fitted: string;
  stock: { thickness: string; count: string }[];
  atMost: string;
  pitch: string;
  turnsAtMost: string;
  target: string;
  figure: string;
  figureOff: string;
  refit: string;
  /** Unit of aim, figure and refitting. */
  unit: PressureUnit;
  rate: string;
  rateOff: string;
  rateUnit: (typeof springRateUnits)[number];
  area: string;
  areaOff: string;
  areaUnit: (typeof areaUnits)[number];
}

const text = (value: number | null | undefined): string =>
  value === null || value === undefined ? '' : fieldNumber(value);
const twice = (u: number | undefined): string =>
  text(u === undefined ? undefined : Number((2 * u).toPrecision(6)));
/** A figure in its own unit is typed as it was stated; in another one it is left for the person to state again. */
const inUnit = (quantity: { value: number; unit: string } | undefined, unit: string): string =>
  quantity?.unit === unit ? text(quantity.value) : '';

/** The unit in which a relief is stated, if it states one. */
export function statedUnit(relief: Relief | null): PressureUnit | null {
  const figure = relief?.pressurePerShim?.unit;
  return (
    pressureUnits.find((name) => figure === `${name}/mm`) ??
    relief?.repeatability?.unit ??
    relief?.target?.unit ??
    null
  );
}

/** "0.50 + 0.25" */
export const stackFields = (shims: readonly number[]): string => shims.map(fieldNumber).join(' + ');

export function fieldsOfRelief(relief: Relief | null, drawer: Drawer, judged: PressureUnit): ReliefFields {
  const unit = statedUnit(relief) ?? judged;
  const { valve, pressurePerShim, repeatability, screw, target } = relief ?? {};
  return {
    setBy: screw === undefined ? 'shims' : 'screw',
    fitted: stackFields(relief?.fitted_mm ?? []),
    stock: drawer.map(({ thickness_mm, count }) => ({ thickness: text(thickness_mm), count: text(count) })),
    atMost: text(relief?.stackAtMost_mm),
    pitch: text(screw?.pitch_mm),
    turnsAtMost: text(screw?.turnsAtMost),
    target: inUnit(target, unit),
    figure: inUnit(pressurePerShim, `${unit}/mm`),
    figureOff: pressurePerShim?.unit === `${unit}/mm` ? twice(pressurePerShim.standardUncertainty) : '',
    refit: repeatability?.unit === unit ? twice(repeatability.standardUncertainty) : '',
    unit,
    rate: text(valve?.springRate.value),
    rateOff: twice(valve?.springRate.standardUncertainty),
    rateUnit: valve?.springRate.unit ?? 'N/mm',
    area: text(valve?.pressureArea.value),
    areaOff: twice(valve?.pressureArea.standardUncertainty),
    areaUnit: valve?.pressureArea.unit ?? 'mm2',
  };
}

type ReliefTexts = Readonly<Record<keyof ReliefFields, string>>;

/** Each field as one text, so that what is typed can be put aside field by field; the drawer as one field. */
export const reliefTexts = ({ stock, ...fields }: ReliefFields): ReliefTexts => ({
  ...fields,
  stock: JSON.stringify(stock),
});

const oneOf = <T extends string>(names: readonly T[], text: string, otherwise: T): T =>
  names.find((name) => name === text) ?? otherwise;
function drawerOf(text: string, otherwise: ReliefFields['stock']): ReliefFields['stock'] {
  try {
    const stock: unknown = JSON.parse(text);
    return Array.isArray(stock) && stock.every((each) => hasTexts(each, ['thickness', 'count']))
      ? stock
      : otherwise;
  } catch {
    return otherwise;
  }
}

/** The other way round. A text that an older version put aside and that is none of the choices gives way to what is kept. */
export const reliefFieldsOf = (texts: ReliefTexts, kept: ReliefFields): ReliefFields => ({
  ...texts,
  setBy: oneOf(['shims', 'screw'], texts.setBy, kept.setBy),
  unit: oneOf(pressureUnits, texts.unit, kept.unit),
  rateUnit: oneOf(springRateUnits, texts.rateUnit, kept.rateUnit),
  areaUnit: oneOf(areaUnits, texts.areaUnit, kept.areaUnit),
  stock: drawerOf(texts.stock, kept.stock),
});

/** "0.50 + 0,25" as a list of shims, thickest first; null where something in it is no thickness. */
export function typedStack(typed: string): number[] | null {
  const shims = typed
    .split(/[+;\s]+/u)
    .filter((part) => part !== '' && part !== 'mm')
    .map((part) => typedNumber(part));
  const sound = shims.filter((shim) => shim !== null && shim > 0);
  return sound.length === shims.length ? sound.map(Number).sort((a, b) => b - a) : null;
}

/** The relief that is typed, or what is wrong with it. */
export function reliefFrom(
  fields: ReliefFields,
): { relief: Relief; wrong: null } | { relief: null; wrong: string[] } {
  const wrong: string[] = [];
  const number = (typed: string, what: string, zero = false): number | undefined => {
    const value = typedNumber(typed);
    if (value === null) return undefined;
    if (!(zero ? value >= 0 : value > 0)) {
      wrong.push(
        `${what}: ${ambiguousText(typed) ?? `“${typed}” is not a number${zero ? ', zero or' : ''} above zero.`}`,
      );
      return undefined;
    }
    return value;
  };
  const half = (typed: string, what: string): { standardUncertainty?: number } => {
    const off = number(typed, `± of ${what}`, true);
    return off === undefined ? {} : { standardUncertainty: off / 2 };
  };
  const shims = typedStack(fields.fitted);
  if (fields.setBy === 'shims' && shims === null)
    wrong.push(`Fitted now: “${fields.fitted}” is not a list of thicknesses, such as 0.50 + 0.25.`);
  const stock = fields.stock.flatMap(({ thickness, count }) => {
    const thickness_mm = number(thickness, 'Thickness of a shim');
    const many = typedNumber(count);
    if (many !== null && !Number.isInteger(many)) wrong.push(`“${count}” is not a count of shims.`);
    return thickness_mm === undefined ? [] : [{ thickness_mm, count: many }];
  });
  const rate = number(fields.rate, 'Spring rate'),
    area = number(fields.area, 'Pressure area');
  if ((rate === undefined) !== (area === undefined) && wrong.length === 0)
    wrong.push('Spring rate and pressure area go together: give both, or neither.');
  const figure = number(fields.figure, 'One millimetre gives');
  const refit = number(fields.refit, 'Refitting', true);
  const target = number(fields.target, 'Aim');
  const atMost = number(fields.atMost, 'Stack at most');
  const pitch = number(fields.pitch, 'Pitch');
  const turnsAtMost = number(fields.turnsAtMost, 'Turns at most');
  if (fields.setBy === 'screw' && pitch === undefined && wrong.length === 0)
    wrong.push('Give the pitch of the screw: how far one turn moves it.');
  const rateOff = half(fields.rateOff, 'spring rate'),
    areaOff = half(fields.areaOff, 'pressure area'),
    figureOff = half(fields.figureOff, 'one millimetre');
  if (wrong.length > 0) return { relief: null, wrong };
  const { unit } = fields;
  const relief: Relief = {
    format: 'overdrive-bench/relief',
    version: 1,
    ...(rate === undefined || area === undefined
      ? {}
      : {
          valve: {
            springRate: { value: rate, unit: fields.rateUnit, ...rateOff },
            pressureArea: { value: area, unit: fields.areaUnit, ...areaOff },
          },
        }),
    ...(figure === undefined
      ? {}
      : {
          pressurePerShim: {
            value: figure,
            unit: `${unit}/mm` as const,
            ...figureOff,
          },
        }),
    ...(refit === undefined ? {} : { repeatability: { standardUncertainty: refit / 2, unit } }),
    ...(target === undefined ? {} : { target: { value: target, unit } }),
    ...(fields.setBy === 'screw' && pitch !== undefined
      ? { screw: { pitch_mm: pitch, ...(turnsAtMost === undefined ? {} : { turnsAtMost }) } }
      : {
          fitted_mm: shims ?? [],
          stock,
          ...(atMost === undefined ? {} : { stackAtMost_mm: atMost }),
        }),
  };
  // As its file is read: what is kept here must be read again, by the book and by the command line.
  const read = readRelief(writeJson(relief), null);
  return read.ok ? { relief, wrong: null } : { relief: null, wrong: read.problems.map(atField) };
}

const fieldNames: readonly (readonly [path: string, name: string])[] = [
  ['valve.springRate', 'Spring rate'],
  ['valve.pressureArea', 'Pressure area'],
  ['pressurePerShim', 'One millimetre gives'],
  ['repeatability', 'Refitting'],
  ['fitted_mm', 'Fitted now'],
  ['stock', 'In stock'],
  ['stackAtMost_mm', 'Stack at most'],
  ['screw.pitch_mm', 'Pitch'],
  ['screw.turnsAtMost', 'Turns at most'],
  ['target', 'Aim'],
];
/** What is wrong, by the name that its field has in the form. */
function atField(problem: Problem): string {
  if (problem.code !== 'bad-field') return problemSentence(problem);
  const { path, reason } = problem;
  const name = fieldNames.find(([start]) => path.startsWith(start))?.[1] ?? path;
  return `${name}: ${reason}.`;
}
