import { bandRule, guardFactorOf } from '#decision/rule.ts';
import { millimetres } from '#formats/advice-words.ts';
import type { Advice, AdviceOption } from '#formats/advice.ts';
import type { Assessment, CriterionId, OperatingPressure } from '#formats/assessment.ts';
import { adjustmentCautions } from '#formats/cautions.ts';
import { criterionNames } from '#formats/criterion-names.ts';
import { rounded, roundedData } from '#formats/number.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { Adjustments, Relief } from '#formats/relief.ts';
import type { Remark } from '#formats/remark.ts';
import type { Spec } from '#formats/spec.ts';
import {
  decimalsForUncertainty,
  fixedText,
  statedText,
  uncertainText,
  withUnit,
} from '#units/number-text.ts';
import { pressureFactor, type PressureUnit } from '#units/pressure.ts';
import { earlierPredictions, earlierSummaryOf } from './earlier.ts';
import { heldBackBy } from './held-back.ts';
import { optionsOf } from './options.ts';
import { predict, type Start } from './predict.ts';
import { searchedHeight_mm, shimKinds } from './stacks.ts';
import { sensitivityOf, type Sensitivity } from './sensitivity.ts';
import { traceRemarks } from './trace-remarks.ts';

/** What advice is made from. */
export interface AdviseInput {
  /** Of the run just taken off the bench; its spec is what the next test will be judged by. */
  assessment: Assessment;
  relief: Relief;
  /** Earlier changes of this unit or type; null where none are known. */
  history: Adjustments | null;
}

const missing = (path: string, reason: string): { ok: false; problems: Problem[] } => ({
  ok: false,
  problems: [{ code: 'bad-field', file: null, path, reason }],
});

/** The target in the unit of the band: as stated, else the middle of the band. */
function targetOf(relief: Relief, spec: Spec): number | null {
  const { low, high, unit } = spec.pressureBand;
  if (relief.target) return rounded(relief.target.value * pressureFactor(relief.target.unit, unit));
  return low === undefined || low === null || high === undefined || high === null
    ? null
    : rounded((low + high) / 2);
}

/**
 * What to change before the next test: from the reading to the shims or the turns, how it should come out and how sure that is; or why
 * nothing is advised. Pressures are in the unit of the band.
 * @returns a problem where the assessment has no limits, or a one-sided band has no target
 */
export function advise({ assessment, relief, history }: AdviseInput): Result<Advice> {
  const { spec } = assessment;
  if (spec === null) return missing('spec', 'is missing; a setting is advised against limits, so give them');
  const { unit } = spec.pressureBand;
  const target = targetOf(relief, spec);
  if (target === null)
    return missing(
      'target',
      'is missing; a one-sided band has no middle to aim at, so give the pressure to aim at',
    );
  const { sensitivity, learned, remarks } = sensitivityOf(relief, history, unit);
  const operatingPressure = inUnit(assessment.quantities.operatingPressure, unit);
  const ideal_mm =
    sensitivity === null || operatingPressure.value === null
      ? null
      : sensitivity.value > 0
        ? rounded((target - operatingPressure.value) / sensitivity.value)
        : null;
  const heldBack = heldBackBy(assessment, spec, target) ?? unknownSensitivity(sensitivity);
  const start =
    heldBack === null && sensitivity !== null
      ? startOf(assessment, spec, operatingPressure, relief, sensitivity)
      : null;
  const earlier = earlierPredictions(relief, history, learned, unit);
  const options = start && ideal_mm !== null ? optionsOf(relief, start, ideal_mm, target, unit) : [];
  return {
    ok: true,
    value: roundedData({
      format: 'overdrive-bench/advice',
      version: 1,
      operatingPressure,
      target: { value: target, unit },
      pressurePerShim: sensitivity && {
        value: sensitivity.value,
        unit: `${unit}/mm` as const,
        standardUncertainty: sensitivity.standardUncertainty,
        degreesOfFreedom: Number.isFinite(sensitivity.degreesOfFreedom) ? sensitivity.degreesOfFreedom : null,
        from: sensitivity.from,
        adjustmentsUsed: sensitivity.adjustmentsUsed,
      },
      change_mm: ideal_mm,
      ...(relief.screw
        ? { change_turns: ideal_mm === null ? null : rounded(ideal_mm / relief.screw.pitch_mm) }
        : {}),
      options,
      heldBack,
      earlier,
      earlierSummary: earlierSummaryOf(earlier, unit),
      cautions: [...adjustmentCautions],
      remarks: [
        ...remarks,
        ...(start === null ? [] : traceRemarks(assessment, { value: start.value, low: start.limits.low })),
        ...(start && ideal_mm !== null
          ? optionRemarks({ assessment, spec, relief, start, ideal_mm, target, unit }, options)
          : []),
      ],
    } satisfies Advice),
  };
}

/**
 * How any change should come out, also one that is not among the options; null where advice is held back, for then nothing is predicted.
 * @param change_mm after less before
 */
export function predictChange(
  { assessment, relief, history }: AdviseInput,
  change_mm: number,
): AdviceOption['predicted'] | null {
  const { spec } = assessment;
  if (spec === null) return null;
  const { unit } = spec.pressureBand;
  const target = targetOf(relief, spec);
  const { sensitivity } = sensitivityOf(relief, history, unit);
  if (target === null || sensitivity === null || heldBackBy(assessment, spec, target) !== null) return null;
  const operating = inUnit(assessment.quantities.operatingPressure, unit);
  const found = predict(startOf(assessment, spec, operating, relief, sensitivity), change_mm);
  return roundedData({ value: found.value, unit, standardUncertainty: found.standardUncertainty });
}

/** Nothing tells what a millimetre does, or what is known says that more shims lower the pressure. */
function unknownSensitivity(sensitivity: Sensitivity | null): Advice['heldBack'] {
  const code = 'sensitivity-unknown';
  if (sensitivity === null)
    return {
      code,
      text: 'Too little is known to advise: no figure for the pressure per millimetre, and earlier changes do not show two different stacks. Give the figure from the manual, or spring rate and seat area, or note this setting and its pressure and change it once.',
    };
  return sensitivity.value > 0
    ? null
    : {
        code,
        text: 'Earlier changes say that a higher stack lowers the pressure. That cannot be the spring: check the entries, and whether something else was changed each time.',
      };
}

function inUnit(quantity: OperatingPressure, unit: PressureUnit): OperatingPressure {
  const factor = pressureFactor(quantity.unit, unit);
  const scaled = (value: number | null): number | null => (value === null ? null : value * factor);
  return factor === 1
    ? quantity
    : {
        ...quantity,
        unit,
        value: scaled(quantity.value),
        standardUncertainty: scaled(quantity.standardUncertainty),
        expandedUncertainty: scaled(quantity.expandedUncertainty),
        budget: quantity.budget.map((line) => ({
          ...line,
          size: line.size === undefined ? null : scaled(line.size),
          standardUncertainty: line.standardUncertainty * factor,
        })),
      };
}

function startOf(
  assessment: Assessment,
  spec: Spec,
  operating: OperatingPressure,
  relief: Relief,
  sensitivity: Sensitivity,
): Start {
  const { unit } = spec.pressureBand;
  const scatter = operating.budget.filter(({ type }) => type === 'A');
  const rule =
    assessment.criteria.find(({ id }) => id === 'operating-pressure')?.decisionRule ?? bandRule(spec, false);
  return {
    value: operating.value ?? NaN,
    standardUncertainty: operating.standardUncertainty ?? 0,
    degreesOfFreedom: operating.effectiveDegreesOfFreedom ?? Infinity,
    expandedUncertainty: operating.expandedUncertainty ?? 0,
    scatter:
      scatter.length === 0
        ? null
        : Math.sqrt(scatter.reduce((sum, { standardUncertainty: u }) => sum + u * u, 0)),
    limits: { low: spec.pressureBand.low ?? null, high: spec.pressureBand.high ?? null },
    guarded: rule === 'guarded',
    guardFactor: guardFactorOf(spec),
    repeatability:
      relief.repeatability === undefined
        ? 0
        : relief.repeatability.standardUncertainty * pressureFactor(relief.repeatability.unit, unit),
    sensitivity,
  };
}

interface Advised {
  assessment: Assessment;
  spec: Spec;
  relief: Relief;
  start: Start;
  ideal_mm: number;
  target: number;
  unit: PressureUnit;
}

/** Whether an option's predicted pressure lies in the band. */
export function reachesBand(option: AdviceOption, spec: Spec): boolean {
  const { low, high } = spec.pressureBand;
  const { value } = option.predicted;
  return (
    (low === undefined || low === null || value >= low) &&
    (high === undefined || high === null || value <= high)
  );
}

/** Limits that the setting itself moves the run into or out of; what else is not met, no shim mends. */
const movedBySetting: ReadonlySet<CriterionId> = new Set([
  'operating-pressure',
  'time-in-band',
  'peak-pressure',
]);

/** A target that was given in another unit has more digits than anybody set. */
const aimText = (target: number, unit: PressureUnit): string =>
  withUnit(statedText(Number(target.toPrecision(5))), unit);

/** What the options leave unsaid: the order, the limits they ran into, what their numbers rest on. */
function optionRemarks(advised: Advised, options: readonly AdviceOption[]): Remark[] {
  const { assessment, spec, relief, start, ideal_mm, target, unit } = advised;
  const remarks: Remark[] = [
    {
      code: 'order-of-options',
      text: start.guarded
        ? `Best first: the chance that the re-test passes under the guarded rule, then that the unit lies in the band; where these are equal, leaving it, then the option nearest to ${aimText(target, unit)}.`
        : `Best first: the chance that the re-test passes; where it is equal, leaving it, then the option nearest to ${aimText(target, unit)}.`,
    },
  ];
  const others = assessment.criteria
    .filter(({ id, verdict }) => verdict === 'fail' && !movedBySetting.has(id))
    .map(({ id }) => criterionNames[id].engineer);
  if (others.length > 0)
    remarks.unshift({
      code: 'other-limits-not-met',
      text: `Not mended by another setting: this run does not meet its limit on ${others.join('; ')}. The chances speak of the operating pressure alone. Find out why first.`,
    });
  if (assessment.criteria.find(({ id }) => id === 'operating-pressure')?.verdict === 'pass')
    remarks.push({
      code: 'passes-as-it-is',
      text: `The operating pressure passes as it is; leaving it costs no opening${others.length > 0 ? '' : ' and no second run'}.`,
    });
  const best = options.filter((option) => reachesBand(option, spec));
  if (best.length === 0) {
    const nearest = options.reduce<AdviceOption | null>(
      (a, b) => (a === null || off(b, spec) < off(a, spec) ? b : a),
      null,
    );
    remarks.push({
      code: 'nothing-reaches-the-band',
      text: `${relief.screw ? 'No setting of the screw' : 'No stack from these shims'} reaches the band${nearest === null ? '' : `; the nearest would be ${withUnit(fixedText(off(nearest, spec), decimalsForUncertainty(2 * (nearest.predicted.standardUncertainty || 1))), unit)} away`}.`,
    });
  }
  const limitMissing = relief.screw
    ? relief.screw.turnsAtMost === undefined
    : relief.stackAtMost_mm === undefined;
  if (limitMissing)
    remarks.push({
      code: 'no-limit-stated',
      text: `${relief.screw ? 'How far the screw may be turned' : 'How high the stack may be'} is not stated, so nothing that raises the pressure is offered: a spring that goes solid keeps the valve shut. Look it up in the manual, measure, and give ${relief.screw ? '"turnsAtMost"' : '"stackAtMost_mm"'}.`,
    });
  const fitted_mm = relief.fitted_mm ?? [];
  const height_mm = fitted_mm.reduce((sum, thickness) => sum + thickness, 0);
  const { stackAtMost_mm } = relief;
  if (stackAtMost_mm !== undefined && height_mm > stackAtMost_mm + 1e-9)
    remarks.push({
      code: 'fitted-above-the-limit',
      text: `The stack that is fitted, ${millimetres(height_mm)}, is higher than the ${millimetres(stackAtMost_mm)} that the stack may have: a spring that goes solid keeps the valve shut. Check both entries before anything is run again.`,
    });
  if (stackAtMost_mm !== undefined) {
    const searched_mm = searchedHeight_mm(shimKinds(fitted_mm, relief.stock ?? []), stackAtMost_mm);
    if (searched_mm > 0 && searched_mm < stackAtMost_mm)
      remarks.push({
        code: 'higher-stacks-not-tried',
        text: `Stacks above ${millimetres(searched_mm)} were not tried: these thicknesses have no larger step in common. Give them as they are marked.`,
      });
  }
  if (relief.repeatability === undefined)
    remarks.push({
      code: 'refitting-not-stated',
      text: 'What taking apart and refitting does to the pressure is not stated and counts as nothing; the chances are rather too good.',
    });
  if (start.standardUncertainty === 0)
    remarks.push({
      code: 'reading-without-uncertainty',
      text: 'The reading has no uncertainty and counts as exact; the chances are too good.',
    });
  else if (assessment.remarks.some(({ code }) => code === 'gauge-uncertainty-not-stated'))
    remarks.push({
      code: 'gauge-not-in-the-chances',
      text: 'How good the gauge is has not been stated: the chances know the scatter of the reading alone.',
    });
  const { supported_mm } = start.sensitivity;
  if (supported_mm !== null && Math.abs(ideal_mm) > supported_mm + 1e-9)
    remarks.push({
      code: 'beyond-the-history',
      text: `The change wanted, ${statedText(Number(Math.abs(ideal_mm).toFixed(3)))} mm, goes further than earlier changes did (${statedText(supported_mm)} mm): the spring may not stay in proportion that far. Go part of the way and test again.`,
    });
  if (assessment.quantities.holdTemperature.mean === null)
    remarks.push({
      code: 'oil-temperature-unknown',
      text: 'The oil temperature was not recorded: see to it that the unit is as warm at the re-test.',
    });
  if (!(target >= (spec.pressureBand.low ?? -Infinity) && target <= (spec.pressureBand.high ?? Infinity)))
    remarks.push({
      code: 'target-outside-the-band',
      text: `The target of ${aimText(target, unit)} lies outside the band.`,
    });
  if (start.expandedUncertainty > 0)
    remarks.push({
      code: 're-test-error',
      text: `The chance of a pass takes a re-test as uncertain as this one, ${uncertainText(start.value, start.expandedUncertainty, unit)}, with an error of its own; read by the same gauge the error is the same again, which is given apart.`,
    });
  return remarks;
}

/** How far the predicted pressure lies outside the band. */
function off({ predicted }: AdviceOption, spec: Spec): number {
  const { low, high } = spec.pressureBand;
  return Math.max(0, (low ?? -Infinity) - predicted.value, predicted.value - (high ?? Infinity));
}
