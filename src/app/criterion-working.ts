import type { Assessment, CriterionId } from '#formats/assessment.ts';
import { durationText, fixedText, noBreak, shareText, unitLabel, withUnit } from './shown-numbers.ts';
import { pascalsIn } from '#units/pressure.ts';
import { isPressureUnit } from '#units/unit.ts';
import type { Shown } from './chart/strip-props.ts';

/** What a limit's verdict came from: how it is worked out, in words; the numbers; and where on the strip it lies. */
export interface Working {
  formula: string;
  numbers: (readonly [string, string])[];
  part: Shown | null;
}

/** How each is worked out, in short: docs/definitions.md, "Quantities", says it in full. */
const formulas: Readonly<Record<CriterionId, string>> = {
  'operating-pressure':
    'Mean by time of the valid readings of the hold. U: the scatter of the mean over ten batches and what the gauge may be off, each as a standard uncertainty, squared, added, the root taken, times k.',
  'time-in-band': 'Recorded time of the hold with the smoothed pressure between the limits, over all of it.',
  drift:
    'Theil–Sen slope of the block medians of the hold, times the length of the hold, and a step that stays.',
  settling:
    'From the run’s start to the instant after which the smoothed pressure stays within the tolerance of its final value to the run’s end.',
  'run-length': 'The run’s span, less its gaps and less released stretches between joined engagements.',
  'hold-temperature':
    'Mean by time of the valid oil readings over the hold; lowest and highest of the smoothed ones.',
  'peak-pressure':
    'The highest level that three consecutive readings reached anywhere in the log, before spikes are set aside.',
  ripple: 'Median over the hold of highest minus lowest within windows of a second.',
  'engagement-rise': 'From 10 % to 90 % of the step from the level before to the plateau.',
  'engagement-dip': 'The level before less the lowest, over the level before.',
  'engagement-recovery': 'From engaging until the pressure is back within 5 % of the level before.',
  'fall-after-release': 'From 90 % to 10 % of the step after release.',
  'released-pressure': 'Median while the shaft turns and nothing is engaged.',
  'leak-down': 'From the shaft’s stop, with pressure up, to half of the pressure.',
  'plateau-spread': 'Highest less lowest plateau.',
  'solenoid-current': 'Highest of the smoothed current while engaged and on.',
  'record-coverage': 'Recorded time in the run over the run’s length, gaps counted as missing.',
};

export function workingOf(assessment: Assessment, id: CriterionId): Working {
  return { formula: formulas[id], numbers: numbersOf(assessment, id), part: partOf(assessment, id) };
}

/** Decimals that are as fine in any unit of pressure (of its slopes, too) as so many are in psi. */
export function asFine(psiDecimals: number, unit: string): number {
  const [above = ''] = unit.split('/');
  if (!isPressureUnit(above)) return psiDecimals;
  return Math.max(0, psiDecimals + Math.round(Math.log10(pascalsIn[above] / pascalsIn.psi)));
}

const hold = (assessment: Assessment): Shown | null => {
  const holds = assessment.phases.filter(({ kind }) => kind === 'hold');
  const first = holds[0],
    last = holds.at(-1);
  return first === undefined || last === undefined ? null : { from_s: first.start_s, to_s: last.end_s };
};

/** Where on the strip the number lies; null where it lies in no one place. */
function partOf(assessment: Assessment, id: CriterionId): Shown | null {
  const { quantities, judged, log } = assessment;
  const around = (at_s: number | null | undefined): Shown | null =>
    typeof at_s !== 'number' ? null : { from_s: Math.max(0, at_s - 60), to_s: at_s + 60 };
  const run: Shown | null =
    judged.start_s === null ? null : { from_s: judged.start_s, to_s: judged.end_s ?? log.duration_s };
  switch (id) {
    case 'operating-pressure': {
      const { start_s, end_s } = quantities.operatingPressure;
      return start_s === null || end_s === null ? hold(assessment) : { from_s: start_s, to_s: end_s };
    }
    case 'time-in-band':
    case 'drift':
    case 'hold-temperature':
    case 'ripple':
      return hold(assessment);
    case 'settling': {
      const { time_s } = quantities.settling;
      return judged.start_s === null || time_s === null
        ? run
        : { from_s: judged.start_s, to_s: judged.start_s + time_s };
    }
    case 'peak-pressure':
      return around(quantities.peakPressure.at_s);
    case 'engagement-rise':
    case 'engagement-dip':
    case 'engagement-recovery':
      return around(quantities.engagements[0]?.start_s);
    case 'fall-after-release':
    case 'leak-down':
      return around(quantities.engagements.at(-1)?.end_s);
    case 'run-length':
    case 'record-coverage':
      return run;
    case 'released-pressure':
    case 'plateau-spread':
    case 'solenoid-current':
      return null;
  }
}

function numbersOf({ quantities, criteria, settings }: Assessment, id: CriterionId): Working['numbers'] {
  const criterion = criteria.find((each) => each.id === id);
  const found: (readonly [string, string] | null)[] = [];
  const pressure = (name: string, value: number | null | undefined, unit: string, psiDecimals = 2): void => {
    if (typeof value === 'number')
      found.push([name, withUnit(fixedText(value, asFine(psiDecimals, unit)), unit)]);
  };
  const time = (name: string, value_s: number | null | undefined): void => {
    if (typeof value_s === 'number') found.push([name, noBreak(durationText(value_s, true))]);
  };
  switch (id) {
    case 'operating-pressure': {
      const { operatingPressure: p } = quantities;
      pressure('Mean', p.value, p.unit);
      for (const { source, standardUncertainty, share } of p.budget)
        found.push([
          `Standard uncertainty, ${source}`,
          `${withUnit(fixedText(standardUncertainty, asFine(3, p.unit)), p.unit)}, ${shareText(share, 0)} of the whole`,
        ]);
      if (p.coverageFactor !== null) found.push(['Coverage factor k', fixedText(p.coverageFactor, 2)]);
      pressure('Expanded uncertainty U', p.expandedUncertainty, p.unit);
      if (criterion?.decisionRule === 'guarded' && p.expandedUncertainty !== null)
        pressure('Kept clear of each limit', settings.guardFactor * p.expandedUncertainty, p.unit);
      break;
    }
    case 'time-in-band': {
      const { inside, above, below } = quantities.timeInBand;
      for (const [name, value] of [
        ['Inside', inside],
        ['Above', above],
        ['Below', below],
      ] as const)
        if (value !== null) found.push([name, shareText(value, 2)]);
      break;
    }
    case 'drift': {
      const { slope, low, high, unit, overHold } = quantities.drift;
      if (slope !== null)
        found.push([
          'Slope',
          `${fixedText(slope, asFine(3, unit))} ${unitLabel(unit)}${low === null || high === null ? '' : `, with 95 % between ${fixedText(low, asFine(3, unit))} and ${fixedText(high, asFine(3, unit))}`}`,
        ]);
      pressure('Over the hold', overHold.value, overHold.unit);
      break;
    }
    case 'settling': {
      const { time_s, tolerance, unit, finalValue } = quantities.settling;
      time('Settled after', time_s);
      pressure('Tolerance', tolerance, unit);
      pressure('End value', finalValue, unit);
      break;
    }
    case 'hold-temperature': {
      const { mean, min, max, unit } = quantities.holdTemperature;
      for (const [name, value] of [
        ['Mean', mean],
        ['Lowest', min],
        ['Highest', max],
      ] as const)
        if (value !== null) found.push([name, withUnit(fixedText(value, 1), unit)]);
      break;
    }
    case 'peak-pressure':
      pressure('Highest', quantities.peakPressure.value, quantities.peakPressure.unit);
      time('At', quantities.peakPressure.at_s);
      break;
    case 'ripple':
      pressure('Peak to peak', quantities.ripple.peakToPeak, quantities.ripple.unit);
      break;
    case 'run-length':
      time('Length', quantities.runLength?.length_s);
      break;
    default:
      if (criterion !== undefined && criterion.value !== null)
        found.push([
          'Found',
          criterion.unit === '1'
            ? shareText(criterion.value, 2)
            : withUnit(fixedText(criterion.value, asFine(3, criterion.unit)), criterion.unit),
        ]);
  }
  return found.filter((line) => line !== null);
}
