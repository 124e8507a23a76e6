import { pressureUnits } from '#units/pressure.ts';
import { temperatureUnits } from '#units/temperature.ts';
import { plainNumber } from './typed-number.ts';

/** One point of a gauge check, as typed. */
export interface GaugePoint {
  reference: string;
  reading: string;
  direction: '' | 'up' | 'down';
}

export const emptyPoint: GaugePoint = { reference: '', reading: '', direction: '' };
/** Units that a gauge of a bench is read in. */
export const gaugeUnits = [...pressureUnits, ...temperatureUnits];

const isEmpty = ({ reference, reading }: GaugePoint): boolean =>
  reference.trim() === '' && reading.trim() === '';

const directionOf = (word: string): GaugePoint['direction'] => {
  const plain = word.trim().toLowerCase();
  if (['up', 'rising', 'u', '↑'].includes(plain)) return 'up';
  return ['down', 'falling', 'd', '↓'].includes(plain) ? 'down' : '';
};

/** Numbers start so; a heading that was pasted along does not. */
const startsAsNumber = (cell: string): boolean => /^[-−+]?[\d.,]/u.test(cell.trim());

/**
 * Lines pasted from a table: reference, reading, direction, parted by tab, semicolon, blanks or a comma that is no decimal comma.
 * Headings fall away; a line with a number in one of the two stays, so that what is wrong in it is seen.
 */
export function pastedPoints(text: string): GaugePoint[] {
  return text.split(/\r?\n/u).flatMap((line) => {
    const cells = /[\t;]/u.test(line)
      ? line.split(/[\t;]/u)
      : /,\s|\d\.\d*,|,.*\./u.test(line) || (line.match(/,/gu) ?? []).length < 2
        ? line.trim().split(/,\s*|\s+/u)
        : line.trim().split(/\s+/u);
    const [reference = '', reading = '', direction = ''] = cells.map((cell) => cell.trim());
    return startsAsNumber(reference) || startsAsNumber(reading)
      ? [{ reference, reading, direction: directionOf(direction) }]
      : [];
  });
}

/** The points as the table that the command line reads too. */
export function pointsTable(points: readonly GaugePoint[], unit: string): string {
  const filled = points.filter((point) => !isEmpty(point));
  const withDirection = filled.some(({ direction }) => direction !== '');
  const head = `reference (${unit}),reading (${unit})${withDirection ? ',direction' : ''}`;
  const rows = filled.map(
    ({ reference, reading, direction }) =>
      `${plainNumber(reference)},${plainNumber(reading)}${withDirection ? `,${direction}` : ''}`,
  );
  return `${[head, ...rows].join('\n')}\n`;
}

/** What is typed and is no number. */
export const oddNumbers = (points: readonly GaugePoint[]): string[] =>
  points
    .filter((point) => !isEmpty(point))
    .flatMap(({ reference, reading }) => [reference, reading])
    .filter((cell) => !/^\s*[-−+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)\s*$/u.test(cell));

/** Points kept as a text in a draft. */
export function pointsOfText(text: string): GaugePoint[] {
  const points = text.split('\n').flatMap((line): GaugePoint[] => {
    const [reference = '', reading = '', direction = ''] = line.split('\t');
    return line === '' ? [] : [{ reference, reading, direction: directionOf(direction) }];
  });
  return [...points, ...Array.from({ length: Math.max(0, 5 - points.length) }, () => emptyPoint)];
}
export const textOfPoints = (points: readonly GaugePoint[]): string =>
  points.map(({ reference, reading, direction }) => `${reference}\t${reading}\t${direction}`).join('\n');
