import papaparse from 'papaparse';
import { expect, it } from 'vitest';
import type { Assessment } from '#formats/assessment.ts';
import { resultsCsv } from '#record/results-csv.ts';
import { cases } from './cases.ts';

type Row = Record<string, string>;
const rowsOf = (assessment: Assessment): Row[] =>
  papaparse.parse<Row>(resultsCsv(assessment), { header: true, skipEmptyLines: true }).data;

/** As numbers are written everywhere: twelve digits, nothing where nothing is known. */
const written = (value: number | null | undefined): string =>
  value === null || value === undefined ? '' : String(Number(value.toPrecision(12)));

it('has a row for the verdict, each limit and each level, as the assessment has them', () => {
  for (const made of Object.values(cases)) {
    const { assessment } = made();
    const rows = rowsOf(assessment);
    expect(rows[0]).toMatchObject({ row: 'run', verdict: assessment.verdict });
    const limits = rows.filter(({ row }) => row === 'limit');
    expect(limits.map(({ verdict }) => verdict)).toEqual(assessment.criteria.map(({ verdict }) => verdict));
    limits.forEach((row, index) => {
      const { value, unit, limits: allowed, reason } = assessment.criteria[index] ?? {};
      expect(row['value']).toBe(written(value));
      expect(row['limit_high']).toBe(written(allowed?.high));
      expect(row['unit']).toBe(unit);
      expect(row['reason']).toBe(reason);
    });
    const { value, unit } = assessment.quantities.operatingPressure;
    expect(rows.find(({ name }) => name === 'operatingPressure')).toMatchObject({
      row: 'quantity',
      value: written(value),
      unit,
    });
  }
});

it('hands a spreadsheet no formula', () => {
  const [first] = Object.values(cases);
  if (first === undefined) throw new Error('no case');
  const { assessment } = first();
  const named = { ...assessment, log: { ...assessment.log, fileName: '=HYPERLINK("x"),a.csv' } };
  expect(rowsOf(named)[0]?.['name']).toBe(`'=HYPERLINK("x"),a.csv`);
});
