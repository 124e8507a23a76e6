import type { GaugeBandCheck, GaugeReadingsCheck } from '#formats/gauge-check.ts';
import { rounded } from '#formats/number.ts';
import type { Spec } from '#formats/spec.ts';
import {
  fixedText,
  decimalsForUncertainty,
  shareText,
  statedText,
  TRUE_MINUS,
  withUnit,
} from '#units/number-text.ts';
import { listLines, part } from './list-lines.ts';
import type { Terminal } from './terminal.ts';
import { paragraphLines, tableLines, type Row } from './text-table.ts';

/** Significant digits of coefficients; the file holds them whole. */
const DIGITS = 5;
const short = (value: number): string => statedText(Number(value.toPrecision(DIGITS)));

/** A gauge held against a reference, for people. */
export function gaugeReadingsText(found: GaugeReadingsCheck, terminal: Terminal): string {
  const { unit } = found;
  const correction = found.rigChannel?.correction;
  const sized = (value: number | null): string => (value === null ? '' : withUnit(short(value), unit));
  const rows: [string, string][] = [
    ['points', String(found.points)],
    [
      `correction at ${withUnit(short(found.t0), unit)}`,
      `${sized(found.intercept)}${found.interceptStandardUncertainty === null ? '' : `, standard uncertainty ${sized(found.interceptStandardUncertainty)}`}`,
    ],
    [
      'its change with the reading',
      `${short(found.slope)}${found.slopeStandardUncertainty === null ? '' : `, standard uncertainty ${short(found.slopeStandardUncertainty)}`}`,
    ],
    ['scatter about the line', sized(found.residualStandardDeviation)],
    ['largest error', `${shareText(found.largestErrorShareOfSpan, 2)} of the span`],
    [
      'accuracy class that holds it',
      found.accuracyClass === null || found.accuracyClass === undefined
        ? ''
        : `± ${statedText(found.accuracyClass)} %`,
    ],
    ...(found.stated === undefined
      ? []
      : [
          [
            'class stated',
            `± ${statedText(found.stated.percentOfSpan)} % of ${statedText(found.stated.range.low)} to ${withUnit(statedText(found.stated.range.high), unit)} allows ± ${sized(found.stated.allowed)}: ${found.stated.holds ? 'held' : 'not held'}, largest error ${sized(found.stated.largestError)}`,
          ] satisfies [string, string],
        ]),
    ['hysteresis', sized(found.hysteresis)],
  ];
  return [
    ...(correction
      ? paragraphLines(
          terminal.ink(
            'strong',
            `True value = ${short(correction.slope)} · reading ${correction.offset < 0 ? TRUE_MINUS : '+'} ${withUnit(short(Math.abs(correction.offset)), unit)}`,
          ),
          terminal,
        )
      : [terminal.ink('strong', 'No correction can be given')]),
    ...(found.reason === undefined ? [] : paragraphLines(`${found.reason}.`, terminal)),
    '',
    ...tableLines(
      ['', ''],
      rows
        .filter(([, text]) => text !== '')
        .map(([name, text]): Row => ({ cells: [{ text: name }, { text }] })),
      terminal,
    ),
    ...(found.rigChannel === null
      ? []
      : part(
          'For the channel in the rig file',
          JSON.stringify(found.rigChannel, null, 2).split('\n').slice(1, -1),
          terminal,
        )),
    ...part(
      'Remarks',
      listLines(
        (found.remarks ?? []).map(({ text }) => text),
        terminal,
      ),
      terminal,
    ),
    '',
  ].join('\n');
}

/** What a gauge leaves of a band, for people. */
export function gaugeBandText(found: GaugeBandCheck, band: Spec, terminal: Terminal): string {
  const { passFrom, passTo, unit, expandedUncertainty, room } = found;
  const decimals = decimalsForUncertainty(expandedUncertainty);
  const sized = (value: number): string => fixedText(value, decimals);
  // Rounded inwards: what is printed as an end of the zone must pass. A narrow zone gets digits enough to stay one.
  const narrow = room !== null && room !== undefined && room < 2 * 10 ** -decimals;
  const digits = Math.max(0, decimals) + (narrow ? 2 : 0),
    scale = 10 ** digits;
  const from = (value: number): string => fixedText(Math.ceil(rounded(value * scale)) / scale, digits),
    to = (value: number): string => fixedText(Math.floor(rounded(value * scale)) / scale, digits);
  const zone = !found.canPass
    ? 'Nothing can pass'
    : passFrom !== null && passTo !== null
      ? `Passes from ${from(passFrom)} to ${withUnit(to(passTo), unit)}`
      : passFrom !== null
        ? `Passes from ${withUnit(from(passFrom), unit)} up`
        : `Passes up to ${withUnit(to(passTo ?? NaN), unit)}`;
  return [
    terminal.ink('strong', zone),
    ...paragraphLines(
      `The gauge is sure to ± ${withUnit(sized(expandedUncertainty), unit)} (k = 2, guarded rule); band: ${band.name}${room === null || room === undefined || !found.canPass ? '' : `, of which ${withUnit(sized(room), unit)} are left`}.`,
      terminal,
    ),
    ...part(
      'Remarks',
      listLines(
        (found.remarks ?? []).map(({ text }) => text),
        terminal,
      ),
      terminal,
    ),
    '',
  ].join('\n');
}
