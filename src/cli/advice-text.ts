import {
  adviceTitle,
  earlierFigures,
  earlierSentence,
  instruction,
  millimetres,
  offersSomething,
  optionReason,
  perMillimetreText,
  predictedText,
  readingText,
  stackText,
  turnsText,
} from '#formats/advice-words.ts';
import type { Advice, AdviceOption } from '#formats/advice.ts';
import type { Assessment } from '#formats/assessment.ts';
import { asSentence, chanceText, statedText, withUnit } from '#units/number-text.ts';
import { listLines, part } from './list-lines.ts';
import type { Terminal } from './terminal.ts';
import { paragraphLines, tableLines, type Row } from './text-table.ts';

/** Advice for people. The cautions are part of it and cannot be left out. */
export function adviceText(
  advice: Advice,
  fitted_mm: readonly number[] | null,
  { log }: Assessment,
  terminal: Terminal,
): string {
  const { heldBack, options, target, earlier } = advice;
  const [best] = options;
  const offers = offersSomething(advice);
  const title = adviceTitle(advice);
  const read = readingText(advice);
  const aim = withUnit(statedText(Number(target.value.toPrecision(5))), target.unit);
  const { pressurePerShim } = advice;
  const perMillimetre =
    pressurePerShim === null
      ? ''
      : `, one millimetre gives ${perMillimetreText(advice)} (${pressurePerShim.from})`;
  return [
    `${terminal.ink('strong', title)}  ${log.fileName ?? 'standard input'}`,
    ...(heldBack === null
      ? offers && best
        ? paragraphLines(instruction(best, fitted_mm), terminal)
        : []
      : paragraphLines(heldBack.text, terminal)),
    ...(read === '' ? [] : paragraphLines(`Read ${read}, aim ${aim}${perMillimetre}.`, terminal)),
    ...(options.length === 0
      ? []
      : [
          '',
          ...tableLines(
            ['', 'Change', 'Predicted', 'Lands in the band', 'Passes the re-test'],
            options.map((option) => optionRow(option, advice)),
            terminal,
          ),
        ]),
    ...part(
      'What earlier changes did',
      listLines(
        [...(earlier ?? []).map(earlierLine), earlierSentence(advice)].filter((line) => line !== ''),
        terminal,
      ),
      terminal,
    ),
    ...part(
      'Remarks',
      listLines(
        advice.remarks.map(({ text }) => text),
        terminal,
      ),
      terminal,
    ),
    ...part('Before you open it', listLines(advice.cautions, terminal), terminal),
    '',
  ].join('\n');
}

function optionRow(option: AdviceOption, advice: Advice): Row {
  const { leave, fit_mm, turns, change_mm } = option;
  const what = leave
    ? 'leave it'
    : fit_mm === null
      ? `${turns !== null && turns > 0 ? 'in' : 'out'} ${turnsText(turns ?? 0)}`
      : stackText(fit_mm);
  return {
    cells: [
      { text: what },
      { text: leave ? 'none' : millimetres(change_mm), right: true },
      { text: predictedText(option), right: true },
      { text: chanceText(option.probabilityOfConformity), right: true },
      { text: chanceText(option.probabilityOfPass), right: true },
    ],
    under: asSentence(optionReason(option, advice)),
  };
}

function earlierLine(earlier: NonNullable<Advice['earlier']>[number]): string {
  const { date, serial, change_mm, outlier, notAlike } = earlier;
  const who = [date, serial].filter((part) => part !== undefined).join(', ');
  return `${who === '' ? '' : `${who}: `}${millimetres(change_mm)}, ${earlierFigures(earlier)}${outlier ? ': outside, check what else changed' : ''}${notAlike === undefined ? '' : `; not like for like: ${notAlike}`}`;
}
