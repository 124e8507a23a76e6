import type { Comparison } from '#formats/comparison.ts';
import { rounded } from '#formats/number.ts';
import { textCell } from './run-csv.ts';

const numberCell = (value: number | null): string => (value === null ? '' : String(rounded(value)));

/** The comparison as a table, a row a run in its order; what is not known is an empty cell, with its reason behind. Comma, decimal point, CRLF. */
export function comparisonCsv({ runs, unit }: Comparison): string {
  const heads = [
    'run',
    'file',
    'start',
    'verdict',
    `operating_pressure_${unit}`,
    `expanded_uncertainty_${unit}`,
    `drift_over_hold_${unit}`,
    'settling_s',
    'beyond_limits_of_chart',
    'why_no_pressure',
  ];
  const rows = runs.map(({ operatingPressure, drift, settling, ...row }, index) => [
    String(index + 1),
    textCell(row.fileName ?? ''),
    textCell(row.start ?? ''),
    row.verdict,
    numberCell(operatingPressure.value),
    numberCell(operatingPressure.expandedUncertainty),
    numberCell(drift.overHold),
    numberCell(settling.time_s),
    row.beyond ?? '',
    operatingPressure.value === null ? textCell(operatingPressure.reason ?? '') : '',
  ]);
  return [heads.map(textCell), ...rows].map((cells) => `${cells.join(',')}\r\n`).join('');
}
