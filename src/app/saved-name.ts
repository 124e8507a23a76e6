import type { UnitRecord } from '#formats/unit-record.ts';
import type { SavedKind } from '#worker/messages.ts';
import type { Run } from './state.ts';

/** "B-0411 record.pdf", "run assessment.json": the unit's serial, or the log's name without its ending. */
export function savedName(run: Run, unitRecord: UnitRecord | null, as: SavedKind): string {
  const serial = unitRecord?.unit?.serial?.trim() ?? '';
  const base = serial === '' ? (run.file.name ?? 'run').replace(/\.[^.]*$/u, '') : serial;
  const what = {
    pdf: 'record.pdf',
    html: 'record.html',
    svg: 'chart.svg',
    png: 'chart.png',
    'print-png': 'chart for print.png',
    csv: 'run.csv',
    'results-csv': 'results.csv',
    json: 'assessment.json',
  }[as];
  // Characters that a file name may not hold on some system.
  return `${base.replace(/[\\/:*?"<>|\p{Cc}]/gu, '-')} ${what}`;
}
