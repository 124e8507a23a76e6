import type { Adjustment } from '#formats/unit-record.ts';
import {
  decimalsForUncertainty,
  fixedText,
  noBreak,
  statedText,
  unitLabel,
  withUnit,
} from '#units/number-text.ts';
import type { Cell, Unnumbered } from './content.ts';
import { averageText, type Telling } from './sheet-one.ts';

const sumOf = (shims: readonly number[]): number =>
  Number(shims.reduce((total, shim) => total + shim, 0).toPrecision(12));

/** As found, after each step, as left; nothing of it recorded: no section. */
export function reliefSection({ assessment, unitRecord, phrases, numbers }: Telling): Unnumbered | null {
  const { relief } = phrases;
  const adjustments = unitRecord?.adjustments ?? [];
  const found = unitRecord?.asFound;
  const left = unitRecord?.setting?.shims_mm;
  if (adjustments.length === 0 && found === undefined && left === undefined) return null;
  const { unit } = assessment.quantities.operatingPressure;
  const shims = (list: readonly number[] | undefined): string =>
    list === undefined ? relief.notRecorded : fixedText(sumOf(list), 2, numbers);
  const reading = (value: Adjustment['pressureBefore'] | undefined): string => {
    if (value === undefined) return relief.notRecorded;
    const expanded = value.standardUncertainty === undefined ? null : 2 * value.standardUncertainty;
    const text =
      expanded === null || expanded === 0
        ? statedText(value.value, numbers)
        : `${fixedText(value.value, decimalsForUncertainty(expanded), numbers)} ± ${fixedText(expanded, decimalsForUncertainty(expanded), numbers)}`;
    return noBreak(value.unit === unit ? text : withUnit(text, value.unit));
  };
  const mark = (verdict: Adjustment['verdictBefore']): Cell =>
    verdict === undefined ? '' : { verdict, word: phrases.verdict[verdict] };
  const rows: Cell[][] = [];
  const [first] = adjustments;
  if (first)
    rows.push([
      relief.asFound,
      shims(first.before_mm),
      reading(first.pressureBefore),
      mark(first.verdictBefore),
    ]);
  else if (found) rows.push([relief.asFound, shims(found.shims_mm), reading(found.pressure), '']);
  adjustments.slice(0, -1).forEach((step, index) => {
    rows.push([
      relief.after(index + 1),
      shims(step.after_mm),
      reading(step.pressureAfter),
      mark(adjustments[index + 1]?.verdictBefore),
    ]);
  });
  const average = averageText(assessment, numbers);
  const withoutUnit = (text: string): string => text.slice(0, text.lastIndexOf('\u00a0'));
  const measured =
    average === null
      ? phrases.verdict['not-assessed']
      : `${withoutUnit(average.value)}${average.uncertainty === null ? '' : ` ± ${withoutUnit(average.uncertainty)}`}`;
  const operating = assessment.criteria.find(({ id }) => id === 'operating-pressure');
  rows.push([
    relief.asLeft,
    shims(left ?? adjustments[adjustments.length - 1]?.after_mm),
    measured.replaceAll(' ', '\u00a0'),
    operating ? mark(operating.verdict) : '',
  ]);
  return {
    key: 'relief',
    title: phrases.sections.relief,
    place: 'right',
    blocks: [
      {
        kind: 'table',
        rowHeads: true,
        columns: [
          { head: relief.columns.step, share: 0.24 },
          { head: relief.columns.shims, share: 0.22, right: true },
          { head: `${relief.columns.pressure}, ${unitLabel(unit)}`, share: 0.3, right: true },
          { head: relief.columns.verdict, share: 0.24 },
        ],
        rows,
      },
    ],
  };
}
