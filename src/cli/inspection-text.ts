import type { Inspection } from '#formats/assessment.ts';
import type { UnitOrigin } from '#formats/log.ts';
import { fixedText, statedText, unitLabel } from '#units/number-text.ts';
import { isPressureUnit } from '#units/unit.ts';
import { listLines, part } from './list-lines.ts';
import { rowsText, setAsideText, timeLines, skippedText } from './log-words.ts';
import type { Terminal } from './terminal.ts';
import { paragraphLines, tableLines, type Row } from './text-table.ts';

const delimiters: Readonly<Record<string, string>> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  '|': 'upright bar',
  ' ': 'blank',
};
const origins: Readonly<Record<UnitOrigin, string>> = {
  header: 'from its heading',
  'unit-row': 'from the unit row',
  'unit-column': 'from a unit column',
  cell: 'from its cells',
  rig: 'from the rig file',
  user: 'as you said',
};
/** Digits of a statistic that nobody judges. */
const DIGITS = 6;

/** What would mend columns whose role or unit cannot be told from the log. */
function untoldLines(channels: Inspection['log']['channels'], terminal: Terminal): string[] {
  const untold = channels.filter(({ role, unit }) => role === null || unit === null);
  if (untold.length === 0) return [];
  const pressures = channels.filter(
    ({ unit, role }) => role === null && unit !== null && isPressureUnit(unit),
  );
  return [
    '',
    ...paragraphLines(
      [
        'What is not told is not guessed.',
        ...(pressures.length > 1
          ? ['More than one column has a unit of pressure: say which one is to be judged.']
          : []),
        'A rig file names role and unit of a column ("ignored" for one that is not wanted); overdrive-bench schema rig has its form.',
      ].join(' '),
      terminal,
    ),
  ];
}

/** An inspection for people. */
export function inspectionText({ log, remarks }: Inspection, terminal: Terminal): string {
  const { dialect } = log;
  const headed = dialect.headerLine === null ? 'no heading' : `heading in line ${dialect.headerLine}`;
  const how = [
    dialect.encoding,
    delimiters[dialect.delimiter] ?? `"${dialect.delimiter}"`,
    dialect.decimal === ',' ? 'decimal comma' : 'decimal point',
    dialect.unitLine === null ? headed : `${headed}, units in line ${dialect.unitLine}`,
    `time as ${log.timeForm}${log.start === null ? '' : ` from ${log.start}`}`,
  ].join(', ');
  const rows = log.channels.map((channel): Row => {
    const aside = setAsideText(channel);
    const figure = (value: number | null): string =>
      value === null ? '' : statedText(Number(value.toPrecision(DIGITS)));
    return {
      cells: [
        { text: channel.column, ink: 'strong' },
        { text: channel.role ?? 'not told' },
        {
          text:
            channel.unit === null
              ? 'not told'
              : `${channel.unit === '1' ? 'share' : unitLabel(channel.unit)}${channel.unitFrom === null ? '' : `, ${origins[channel.unitFrom]}`}`,
        },
        { text: fixedText(channel.valid, 0), right: true },
        { text: figure(channel.min), right: true },
        { text: figure(channel.median), right: true },
        { text: figure(channel.max), right: true },
      ],
      ...(aside === '' ? {} : { under: `set aside: ${aside}` }),
    };
  });
  const skipped = skippedText(log);
  return [
    `${terminal.ink('strong', log.fileName ?? 'standard input')}: ${rowsText(log)}`,
    ...paragraphLines(`Read as ${how}.`, terminal),
    ...timeLines(log),
    ...(skipped === '' ? [] : paragraphLines(skipped, terminal)),
    '',
    ...tableLines(['Column', 'Role', 'Unit', 'Readings', 'Lowest', 'Middle', 'Highest'], rows, terminal),
    ...untoldLines(log.channels, terminal),
    ...part(
      'Remarks',
      listLines(
        (remarks ?? []).map(({ text }) => text),
        terminal,
      ),
      terminal,
    ),
    '',
    `SHA-256 ${log.sha256 ?? 'of its parts only'}`,
    '',
  ].join('\n');
}
