import type { Comparison } from '#formats/comparison.ts';
import { verdictWords } from '#formats/criterion-text.ts';
import { durationText, fixedText, shareText, uncertainText, withUnit } from '#units/number-text.ts';
import { listLines, part } from './list-lines.ts';
import type { Terminal } from './terminal.ts';
import { tableLines, type Row } from './text-table.ts';

const beyondWords = {
  value: 'beyond the limits',
  'moving-range': 'jump from the run before',
  both: 'beyond the limits, and a jump',
} as const;

/** Runs side by side, for people. */
export function comparisonText(found: Comparison, terminal: Terminal): string {
  const { unit, runs, limits, capability, passedAtFirstTest: first } = found;
  const one = (value: number): string => withUnit(fixedText(value, 1), unit);
  const rows = runs.map((run): Row => {
    const { value, expandedUncertainty } = run.operatingPressure;
    return {
      cells: [
        { text: run.fileName ?? 'standard input' },
        { text: verdictWords[run.verdict] },
        {
          text:
            value === null
              ? ''
              : expandedUncertainty === null || expandedUncertainty === 0
                ? one(value)
                : uncertainText(value, expandedUncertainty, unit),
          right: true,
        },
        { text: run.drift.overHold === null ? '' : one(run.drift.overHold), right: true },
        { text: run.settling.time_s === null ? '' : durationText(run.settling.time_s), right: true },
        { text: run.beyond === null ? '' : beyondWords[run.beyond] },
      ],
    };
  });
  const facts = [
    ...(limits === null
      ? []
      : [
          `Control limits over ${limits.runs} runs: ${fixedText(limits.low, 1)} to ${one(limits.high)} about ${one(limits.center)}.`,
        ]),
    capability.cpk === null
      ? `No capability: ${capability.reason ?? 'too few runs'}.`
      : `Capability over ${capability.runs} runs: ${capability.cp === null ? '' : `Cp ${fixedText(capability.cp, 2)}, `}Cpk ${fixedText(capability.cpk, 2)}.`,
    ...(first.share === null
      ? []
      : [`Passed at the first test: ${first.passed} of ${first.units} (${shareText(first.share, 0)}).`]),
  ];
  return [
    ...tableLines(['Run', '', 'Operating pressure', 'Over the hold', 'Settled after', ''], rows, terminal),
    '',
    ...listLines(facts, terminal),
    ...part(
      'Remarks',
      listLines(
        found.remarks.map(({ text }) => text),
        terminal,
      ),
      terminal,
    ),
    '',
  ].join('\n');
}
