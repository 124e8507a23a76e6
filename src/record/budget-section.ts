import {
  decimalsForStep,
  decimalsForUncertainty,
  fixedText,
  noBreak,
  unitLabel,
  withUnit,
} from '#units/number-text.ts';
import type { BudgetLine } from '#formats/assessment.ts';
import type { Block, Unnumbered } from './content.ts';
import { capital, clause } from './criterion-words.ts';
import type { Telling } from './sheet-one.ts';

/** What the uncertainty of the operating pressure is made of; one digit more than U has, so that the sum can be checked. */
export function budgetSection({ assessment, phrases, numbers }: Telling): Unnumbered | null {
  const operating = assessment.quantities.operatingPressure;
  const { budget: words } = phrases;
  const unit = unitLabel(operating.unit);
  const U = operating.expandedUncertainty;
  if (operating.value === null) return null;
  const title = words.heading(unit);
  if (U === null || operating.standardUncertainty === null || U <= 0)
    return {
      key: 'budget',
      title,
      place: 'left',
      blocks: [
        {
          kind: 'paragraph',
          spans: [{ text: words.none(operating.reason === undefined ? null : clause(operating.reason)) }],
        },
      ],
    };
  const decimals = Math.max(0, decimalsForUncertainty(U)) + 1;
  const size = (line: BudgetLine): string => {
    if (line.size === undefined || line.size === null) return '';
    const digits = Math.max(decimals - 1, decimalsForStep(Number(line.size.toPrecision(3))));
    const text = fixedText(line.size, Math.min(digits, decimals + 2), numbers);
    return line.source === 'resolution' ? text : `±\u00a0${text}`;
  };
  const degrees = operating.effectiveDegreesOfFreedom;
  const table: Block = {
    kind: 'table',
    rowHeads: true,
    columns: [
      { head: words.columns.source, share: 0.4 },
      { head: words.columns.type, share: 0.13 },
      { head: words.columns.size, share: 0.15, right: true },
      { head: words.columns.takenAs, share: 0.2 },
      { head: words.columns.u, share: 0.12, right: true },
    ],
    rows: operating.budget.map((line) => [
      words.sources[line.source] ?? capital(line.source),
      line.type ?? (line.source === 'scatter' ? 'A' : 'B'),
      size(line),
      words.distributions[line.distribution] ?? line.distribution,
      fixedText(line.standardUncertainty, decimals, numbers),
    ]),
  };
  return {
    key: 'budget',
    title,
    place: 'left',
    blocks: [
      table,
      {
        kind: 'paragraph',
        spans: [
          {
            text: words.combined(
              noBreak(withUnit(fixedText(operating.standardUncertainty, decimals, numbers), operating.unit)),
              operating.coverageFactor === null ? '–' : fixedText(operating.coverageFactor, 2, numbers),
              degrees === null || degrees > 1000 ? null : fixedText(degrees, 0, numbers),
            ),
          },
          {
            text: noBreak(
              words.expanded(withUnit(fixedText(U, decimalsForUncertainty(U), numbers), operating.unit)),
            ),
            strong: true,
          },
          { text: '.' },
        ],
      },
    ],
  };
}
