import type { Assessment } from '#formats/assessment.ts';
import { SetAside, type SetAsideKind } from '#formats/log.ts';
import { rounded } from '#formats/number.ts';
import type { Series } from '#formats/series.ts';

/** Rows in one chunk of text. */
const CHUNK_ROWS = 2000;

const whyOf: Readonly<Record<SetAsideKind, string>> = {
  missing: 'missing',
  faultToken: 'fault-token',
  outOfRange: 'out-of-range',
  stuck: 'stuck',
  spike: 'spike',
};
const whyByFlag = new Map<number, string>(
  Object.entries(SetAside).map(([kind, flag]) => [flag, kind === 'kept' ? '' : whyOf[kind as SetAsideKind]]),
);

/**
 * A text cell: what a spreadsheet would take for a formula gets an apostrophe before it, commas and quotes are wrapped.
 * Numbers are not text and keep their sign. Quoting after RFC 4180.
 */
export function textCell(text: string): string {
  const harmless = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replace(/"/g, '""')}"` : harmless;
}
const numberCell = (value: number | undefined): string =>
  value === undefined || Number.isNaN(value) ? '' : String(rounded(value));

/** Whether a heading says its unit already: in brackets, or behind a blank or an underscore. */
const namesUnit = (column: string, unit: string): boolean =>
  [`[${unit}]`, `(${unit})`].some((said) => column.includes(said)) ||
  [`_${unit}`, ` ${unit}`].some((said) => column.endsWith(said));

/**
 * The run as judged, a row a reading, in chunks of text: seconds from the first row, the pressure as read and smoothed in the judged
 * unit, why a reading was set aside, the phase, and every other channel; units in the header. Comma, decimal point, CRLF.
 */
export function* runCsv(assessment: Assessment, series: Series): Generator<string> {
  const { pressure, oil, time_s } = series;
  const others = [...(oil ? [oil] : []), ...series.others];
  const heads = [
    'elapsed_s',
    ...(pressure ? [`pressure_${pressure.unit}`, `smoothed_${pressure.unit}`, 'set_aside'] : []),
    'phase',
    ...others.map(({ column, unit }) =>
      unit === null || namesUnit(column, unit) ? column : `${column} (${unit})`,
    ),
  ];
  let text = `${heads.map(textCell).join(',')}\r\n`;
  let phase = 0;
  const { phases } = assessment;
  for (let row = 0; row < time_s.length; row++) {
    const t = time_s[row] ?? NaN;
    while (phase < phases.length - 1 && t >= (phases[phase]?.end_s ?? Infinity)) phase++;
    const cells = [numberCell(t)];
    if (pressure)
      cells.push(
        numberCell(pressure.values[row]),
        numberCell(pressure.smoothed[row]),
        whyByFlag.get(pressure.flags[row] ?? SetAside.kept) ?? '',
      );
    cells.push(phases[phase]?.kind ?? '');
    for (const channel of others) cells.push(numberCell(channel.values[row]));
    text += `${cells.join(',')}\r\n`;
    if ((row + 1) % CHUNK_ROWS === 0) {
      yield text;
      text = '';
    }
  }
  if (text !== '') yield text;
}
