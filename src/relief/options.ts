import type { AdviceOption } from '#formats/advice.ts';
import { rounded } from '#formats/number.ts';
import type { Relief } from '#formats/relief.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { statedText } from '#units/number-text.ts';
import { predict, type Prediction, type Start } from './predict.ts';
import { reachableStacks, shimKinds } from './stacks.ts';

/** At most so many options are shown, leaving it as it is among them. */
export const OPTIONS_AT_MOST = 5;
/** A screw is set to eighths of a turn at the finest (common practice, no source). */
const TURN_STEPS = [0.125, 0.25, 0.5, 1] as const;
/** Chances that differ by less are equal for a person; then what is left alone comes first, then what lands nearer to the target. */
const EQUAL_CHANCE = 0.005;

interface Candidate {
  change_mm: number;
  fit_mm: number[] | null;
  turns: number | null;
  atLimit: boolean;
}
const total = (stack: readonly number[]): number =>
  Math.round(stack.reduce((sum, thickness) => sum + thickness, 0) * 1e4) / 1e4;

/** Everything that can be done with the shims at hand, or with the screw, without exceeding a limit; leaving it first. */
function candidates(relief: Relief, ideal_mm: number): Candidate[] {
  if (relief.screw) {
    const { pitch_mm, turnsAtMost } = relief.screw;
    const ideal = ideal_mm / pitch_mm;
    const turns = new Set<number>();
    for (const step of TURN_STEPS)
      for (const rounding of [Math.floor, Math.ceil]) turns.add(rounding(ideal / step) * step);
    const allowed = [...turns].filter((each) =>
      turnsAtMost === undefined ? each < 0 : each !== 0 && Math.abs(each) <= turnsAtMost,
    );
    if (turnsAtMost !== undefined && Math.abs(ideal) > turnsAtMost)
      allowed.push(Math.sign(ideal) * turnsAtMost);
    return [
      { change_mm: 0, fit_mm: null, turns: 0, atLimit: false },
      ...[...new Set(allowed)].map((each) => ({
        change_mm: each * pitch_mm,
        fit_mm: null,
        turns: each,
        atLimit: turnsAtMost !== undefined && Math.abs(each) >= turnsAtMost,
      })),
    ];
  }
  const fitted = relief.fitted_mm ?? [];
  const now = total(fitted);
  const most = relief.stackAtMost_mm ?? now;
  return [
    { change_mm: 0, fit_mm: [...fitted], turns: null, atLimit: false },
    ...reachableStacks(shimKinds(fitted, relief.stock ?? []), most).flatMap(({ total_mm, shims_mm }) => {
      const change_mm = Math.round((total_mm - now) * 1e4) / 1e4;
      return change_mm === 0
        ? []
        : [
            {
              change_mm,
              fit_mm: shims_mm,
              turns: null,
              atLimit: relief.stackAtMost_mm !== undefined && total_mm >= relief.stackAtMost_mm,
            },
          ];
    }),
  ];
}

function optionOf(
  candidate: Candidate,
  prediction: Prediction,
  unit: PressureUnit,
  remark: string | null,
): AdviceOption {
  return {
    leave: candidate.change_mm === 0,
    fit_mm: candidate.fit_mm,
    turns: candidate.turns,
    change_mm: rounded(candidate.change_mm),
    predicted: {
      value: prediction.value,
      unit,
      standardUncertainty: prediction.standardUncertainty,
      degreesOfFreedom: Number.isFinite(prediction.degreesOfFreedom) ? prediction.degreesOfFreedom : null,
    },
    probabilityOfConformity: prediction.probabilityOfConformity,
    probabilityOfPass: prediction.probabilityOfPass,
    ...(prediction.probabilityOfPassSameGauge === null
      ? {}
      : { probabilityOfPassSameGauge: prediction.probabilityOfPassSameGauge }),
    ...(remark === null ? {} : { remark }),
  };
}

/** Why an option should be taken with care. */
function remarkOn(candidate: Candidate, relief: Relief, supported_mm: number | null): string | null {
  const parts: string[] = [];
  if (candidate.atLimit)
    parts.push(
      relief.screw
        ? `at the limit of ${statedText(relief.screw.turnsAtMost ?? 0)} turns`
        : `at the limit of ${statedText(relief.stackAtMost_mm ?? 0)} mm`,
    );
  if (supported_mm !== null && Math.abs(candidate.change_mm) > supported_mm + 1e-9)
    parts.push(`further than earlier changes went (${statedText(supported_mm)} mm)`);
  return parts.length === 0 ? null : parts.join('; ');
}

/** Heights between neighbouring steps are so alike that only those around the target are looked at. */
const LOOKED_AT = 200;

/**
 * The options, best first: by the chance that the re-test passes, then that the unit lies in the band; chances that a person would call
 * equal are ordered by leaving it (unless there is no chance at all), then by the distance to the target. Leaving it is always among them.
 * @param ideal_mm change that would hit the target
 * @param target in the unit of `start`
 */
export function optionsOf(
  relief: Relief,
  start: Start,
  ideal_mm: number,
  target: number,
  unit: PressureUnit,
): AdviceOption[] {
  const all = candidates(relief, ideal_mm);
  const [leave, ...changes] = all;
  const near = changes
    .toSorted((a, b) => Math.abs(a.change_mm - ideal_mm) - Math.abs(b.change_mm - ideal_mm))
    .slice(0, LOOKED_AT);
  const options = [...(leave ? [leave] : []), ...near].map((candidate) =>
    optionOf(
      candidate,
      predict(start, candidate.change_mm),
      unit,
      remarkOn(candidate, relief, start.sensitivity.supported_mm),
    ),
  );
  const step = (chance: number): number => Math.round(chance / EQUAL_CHANCE);
  const distance = ({ predicted }: AdviceOption): number => Math.abs(predicted.value - target);
  const sorted = options.toSorted(
    (a, b) =>
      step(b.probabilityOfPass) - step(a.probabilityOfPass) ||
      step(b.probabilityOfConformity) - step(a.probabilityOfConformity) ||
      (step(a.probabilityOfConformity) > 0 ? Number(b.leave) - Number(a.leave) : 0) ||
      distance(a) - distance(b),
  );
  const shown = sorted.slice(0, OPTIONS_AT_MOST);
  if (shown.some((option) => option.leave)) return shown;
  return [...shown.slice(0, OPTIONS_AT_MOST - 1), ...sorted.filter((option) => option.leave)];
}
