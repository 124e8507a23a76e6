import type { Assessment } from '#formats/assessment.ts';
import { criterionNames } from '#formats/criterion-names.ts';
import { rounded } from '#formats/number.ts';
import { textCell } from './run-csv.ts';

const heads = [
  'row',
  'name',
  'value',
  'unit',
  'expanded_uncertainty',
  'limit_low',
  'limit_high',
  'decision_rule',
  'probability_of_conformity',
  'verdict',
  'reason',
] as const;
type Row = Partial<Record<(typeof heads)[number], string | number | null | undefined>>;

/** A level that a quantity holds, however deep: value and unit, with its uncertainty and its reason where it has them. */
interface Level {
  name: string;
  value: number | null;
  unit: string;
  expandedUncertainty: number | null;
  reason: string | null;
}
function* levelsIn(name: string, quantity: unknown): Generator<Level> {
  if (typeof quantity !== 'object' || quantity === null) return;
  const fields = new Map<string, unknown>(Object.entries(quantity));
  const value = fields.get('value'),
    unit = fields.get('unit'),
    u = fields.get('expandedUncertainty'),
    reason = fields.get('reason');
  if ((typeof value === 'number' || value === null) && typeof unit === 'string')
    yield {
      name,
      value,
      unit,
      expandedUncertainty: typeof u === 'number' ? u : null,
      reason: typeof reason === 'string' ? reason : null,
    };
  for (const [key, inner] of fields) yield* levelsIn(`${name}.${key}`, inner);
}

const cell = (of: string | number | null | undefined): string =>
  of === null || of === undefined ? '' : typeof of === 'number' ? String(rounded(of)) : textCell(of);
const line = (row: Row): string => `${heads.map((head) => cell(row[head])).join(',')}\r\n`;

/**
 * What came of a run, a row each: the verdict, every limit, and every level among the quantities, named as in the assessment. What is not
 * assessed has an empty value and its reason. Comma, decimal point, CRLF; quoting after RFC 4180.
 */
export function resultsCsv(assessment: Assessment): string {
  const { log, verdict, criteria, quantities } = assessment;
  const rows: Row[] = [
    { row: 'run', name: log.fileName ?? 'standard input', verdict },
    ...criteria.map((each): Row => ({
      row: 'limit',
      name: criterionNames[each.id].engineer,
      value: each.value,
      unit: each.unit,
      expanded_uncertainty: each.expandedUncertainty,
      limit_low: each.limits.low,
      limit_high: each.limits.high,
      decision_rule: each.decisionRule,
      probability_of_conformity: each.probabilityOfConformity,
      verdict: each.verdict,
      reason: each.reason,
    })),
    ...Object.entries(quantities).flatMap(([name, quantity]) =>
      [...levelsIn(name, quantity)].map((level): Row => ({
        row: 'quantity',
        name: level.name,
        value: level.value,
        unit: level.unit,
        expanded_uncertainty: level.expandedUncertainty,
        reason: level.reason,
      })),
    ),
  ];
  return [`${heads.join(',')}\r\n`, ...rows.map(line)].join('');
}
