import type { Remark } from '#formats/remark.ts';
import type { Adjustments, Relief } from '#formats/relief.ts';
import { welchSatterthwaite } from '#statistics/welch-satterthwaite.ts';
import {
  decimalsForUncertainty,
  fixedText,
  statedText,
  uncertainText,
  withUnit,
} from '#units/number-text.ts';
import { pressureFactor, pressureUnits, type PressureUnit } from '#units/pressure.ts';
import { learnType, type LearnedType } from './learn-type.ts';
import { learn, tooScattered, type Change, type Learned } from './learn.ts';
import { pressurePerMillimetre } from './valve.ts';

/** Pressure per millimetre, from what it is known, and what should be said about it. */
export interface Sensitivity {
  value: number;
  standardUncertainty: number;
  degreesOfFreedom: number;
  /** "valve", "figure", "history", "type" and their combinations. */
  from: string;
  adjustmentsUsed: number;
  /** Largest change, in mm, that carries the estimate; null where a figure or the valve carries it too. */
  supported_mm: number | null;
}
interface Source {
  name: 'valve' | 'figure' | 'history' | 'type';
  value: number;
  standardUncertainty: number;
  degreesOfFreedom: number;
}

const total = (stack: readonly number[]): number => stack.reduce((sum, thickness) => sum + thickness, 0);
const square = (x: number): number => x * x;

/** The changes of a history in one unit; each difference carries both readings and one refitting. */
export function changesOf(history: Adjustments | null, unit: PressureUnit, repeatability: number): Change[] {
  return (history?.adjustments ?? []).map((adjustment) => {
    const { date, serial, before_mm, after_mm, pressureBefore, pressureAfter } = adjustment;
    const before = pressureFactor(pressureBefore.unit, unit),
      after = pressureFactor(pressureAfter.unit, unit);
    const uBefore = (pressureBefore.standardUncertainty ?? 0) * before,
      uAfter = (pressureAfter.standardUncertainty ?? 0) * after;
    return {
      date,
      ...(serial === undefined || serial === history?.serial ? {} : { serial }),
      // Thicknesses are stated to a ten-thousandth of a millimetre at most: the sum is rounded there, so that equal stacks are equal.
      change_mm: Math.round((total(after_mm) - total(before_mm)) * 1e4) / 1e4,
      difference: pressureAfter.value * after - pressureBefore.value * before,
      standardUncertainty: Math.sqrt(square(uBefore) + square(uAfter) + square(repeatability)),
      readings: {
        before: { value: pressureBefore.value * before, standardUncertainty: uBefore },
        after: { value: pressureAfter.value * after, standardUncertainty: uAfter },
      },
    };
  });
}

function sourcesOf(relief: Relief, { own, type }: FromHistory, unit: PressureUnit): Source[] {
  const sources: Source[] = [];
  if (relief.valve)
    sources.push({ name: 'valve', ...pressurePerMillimetre(relief.valve, unit), degreesOfFreedom: Infinity });
  if (relief.pressurePerShim) {
    const stated = relief.pressurePerShim;
    const from = pressureUnits.find((name) => stated.unit === `${name}/mm`) ?? unit;
    const factor = pressureFactor(from, unit);
    sources.push({
      name: 'figure',
      value: stated.value * factor,
      standardUncertainty: (stated.standardUncertainty ?? 0) * factor,
      degreesOfFreedom: Infinity,
    });
  }
  for (const [name, learned] of [
    ['history', own],
    ['type', type],
  ] as const)
    if (learned)
      sources.push({
        name,
        value: learned.value,
        standardUncertainty: learned.standardUncertainty,
        degreesOfFreedom: learned.degreesOfFreedom,
      });
  return sources;
}

/** Weighed together: weights 1/u²; a figure without an uncertainty counts as exact and outweighs the rest. */
function combine(sources: readonly Source[]): {
  value: number;
  u: number;
  nu: number;
  carriers: Source[];
  widened: number;
} {
  const exact = sources.filter(({ standardUncertainty }) => standardUncertainty === 0);
  if (exact.length > 0) {
    const values = exact.map(({ value }) => value);
    const half = (Math.max(...values) - Math.min(...values)) / 2;
    // Two exact figures that differ: somewhere between them, rectangular (JCGM 100:2008, 4.3.7).
    return {
      value: total(values) / values.length,
      u: half / Math.sqrt(3),
      nu: Infinity,
      carriers: exact,
      widened: 1,
    };
  }
  const weights = sources.map(({ standardUncertainty }) => 1 / square(standardUncertainty));
  const sum = total(weights);
  const value = total(sources.map((source, index) => source.value * (weights[index] ?? 0))) / sum;
  const { effectiveDegreesOfFreedom } = welchSatterthwaite(
    sources.map(({ standardUncertainty, degreesOfFreedom }, index) => ({
      standardUncertainty: (standardUncertainty * (weights[index] ?? 0)) / sum,
      degreesOfFreedom,
    })),
  );
  const chiSquared = total(
    sources.map((source, index) => square(source.value - value) * (weights[index] ?? 0)),
  );
  const nu = sources.length - 1;
  const widened = nu > 0 && tooScattered(chiSquared, nu) ? Math.sqrt(chiSquared / nu) : 1;
  return {
    value,
    u: widened / Math.sqrt(sum),
    nu: effectiveDegreesOfFreedom,
    carriers: [...sources],
    widened,
  };
}

const sourceWords = {
  valve: 'spring rate and area',
  figure: 'the stated figure',
  history: 'earlier changes',
  type: 'earlier changes of other units of the type',
} as const;

/** What earlier changes tell: those of the unit itself, and those of others of its type. */
export interface FromHistory {
  own: Learned | null;
  type: LearnedType | null;
}
/** Every change that was left out as an outlier. */
export const outliersOf = ({ own, type }: FromHistory): Learned['outliers'] => [
  ...(own?.outliers ?? []),
  ...(type?.outliers ?? []),
];

/**
 * Pressure per millimetre of shims from valve, figure and history together; null where nothing tells it: no figure, and no two stacks
 * of different height in the history.
 */
export function sensitivityOf(
  relief: Relief,
  history: Adjustments | null,
  unit: PressureUnit,
): { sensitivity: Sensitivity | null; learned: FromHistory; remarks: Remark[] } {
  const repeatability =
    relief.repeatability === undefined
      ? 0
      : relief.repeatability.standardUncertainty * pressureFactor(relief.repeatability.unit, unit);
  const changes = changesOf(history, unit, repeatability);
  const learned: FromHistory = {
    own: learn(changes.filter(({ serial }) => serial === undefined)),
    type: learnType(changes.filter(({ serial }) => serial !== undefined)),
  };
  const sources = sourcesOf(relief, learned, unit);
  const remarks = [...learnedRemarks(learned, unit), ...sameStackRemarks(changes, unit)];
  if (sources.length === 0) return { sensitivity: null, learned, remarks };
  const combined = combine(sources);
  const carries = (name: Source['name']): boolean =>
    combined.carriers.some((carrier) => carrier.name === name);
  const used = [
    ...(carries('history') ? (learned.own?.used ?? []) : []),
    ...(carries('type') ? (learned.type?.used ?? []) : []),
  ];
  const historyAlone = !carries('valve') && !carries('figure');
  const known = learned.own !== null || learned.type !== null;
  if (combined.u === 0 || sources.some(({ standardUncertainty }) => standardUncertainty === 0))
    remarks.push({
      code: 'sensitivity-without-uncertainty',
      text: `No uncertainty is stated for ${combined.carriers.map(({ name }) => sourceWords[name]).join(' and ')}: it counts as exact${used.length > 0 || !known ? '' : ', and earlier changes are not weighed against it'}.`,
    });
  const apart = sources.length > 1 && (combined.widened > 1 || exactAndFarOff(sources, combined));
  if (apart)
    remarks.push({
      code: 'sources-disagree',
      text: `The sources for the pressure per millimetre do not agree: ${sources.map((source) => `${sourceWords[source.name]} ${perMillimetre(source, unit)}`).join(', ')}. Check them before you trust the advice.`,
    });
  if (historyAlone && learned.own === null && learned.type?.units === 1)
    remarks.push({
      code: 'from-one-other-unit',
      text: 'The pressure per millimetre comes from one other unit of the type alone: how much units differ is not known, and the chances are rather too good.',
    });
  return {
    sensitivity: {
      value: combined.value,
      standardUncertainty: combined.u,
      degreesOfFreedom: combined.nu,
      from: combined.carriers.map(({ name }) => name).join(' and '),
      adjustmentsUsed: used.length,
      supported_mm:
        historyAlone && used.length > 0
          ? Math.max(...used.map(({ change_mm }) => Math.abs(change_mm)))
          : null,
    },
    learned,
    remarks,
  };
}

/** A source with an uncertainty lies more than twice it from the exact figure. */
function exactAndFarOff(sources: readonly Source[], combined: { value: number; u: number }): boolean {
  return sources.some(
    ({ value, standardUncertainty }) =>
      Math.abs(value - combined.value) > 2 * Math.max(standardUncertainty, combined.u) &&
      value !== combined.value,
  );
}

const perMillimetre = ({ value, standardUncertainty }: Source, unit: PressureUnit): string =>
  standardUncertainty > 0
    ? uncertainText(value, 2 * standardUncertainty, `${unit}/mm`)
    : withUnit(statedText(Number(value.toPrecision(3))), `${unit}/mm`);

/** Changes that left the stack as high as it was tell nothing of a millimetre, but of taking apart and refitting. */
function sameStackRemarks(changes: readonly Change[], unit: PressureUnit): Remark[] {
  const same = changes.filter(({ change_mm }) => change_mm === 0);
  if (same.length === 0) return [];
  const most = Math.max(...same.map(({ difference }) => Math.abs(difference)));
  return [
    {
      code: 'stack-not-changed',
      text: `${same.length === 1 ? 'One earlier entry leaves' : `${same.length} earlier entries leave`} the stack as high as it was and ${same.length === 1 ? 'tells' : 'tell'} nothing of a millimetre; the pressure moved by ${same.length === 1 ? '' : 'up to '}${withUnit(statedText(Number(most.toPrecision(2))), unit)} all the same. See that refitting counts for that much.`,
    },
  ];
}

function learnedRemarks(learned: FromHistory, unit: PressureUnit): Remark[] {
  const remarks: Remark[] = outliersOf(learned).map(({ change, expected, standardUncertainty }) => ({
    code: 'outlier-left-out',
    text: `The change ${change.date === undefined ? '' : `of ${change.date} `}${change.serial === undefined ? '' : `of unit ${change.serial} `}by ${statedText(change.change_mm)} mm moved the pressure by ${withUnit(fixedText(change.difference, decimalsForUncertainty(2 * standardUncertainty)), unit)}, where the others say ${uncertainText(expected, 2 * standardUncertainty, unit)}: it is left out. Check its entry, and what else was changed then.`,
  }));
  const widened = learned.own?.widened ?? 1;
  if (widened > 1)
    remarks.push({
      code: 'changes-scatter',
      text: `Earlier changes scatter ${statedText(Number(widened.toPrecision(2)))} times as much as their stated uncertainties allow; the uncertainty is widened by as much.`,
    });
  const between = learned.type?.betweenUnits ?? null;
  if (between !== null && between > 0)
    remarks.push({
      code: 'units-differ',
      text: `The ${learned.type?.units ?? 0} other units of the type differ by ± ${withUnit(fixedText(2 * between, decimalsForUncertainty(2 * between)), `${unit}/mm`)} from each other; that is in the uncertainty.`,
    });
  return remarks;
}
