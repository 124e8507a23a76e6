import { writeJson } from '#formats/number.ts';
import type { PictureSize } from '#record/chart-png.ts';
import type { ChartSvgInput } from '#record/chart-svg.ts';
import type { RecordFonts } from '#record/fonts.ts';
import type { RecordInput } from '#record/record-input.ts';
import type { SavedKind } from './messages.ts';
import { sha256Of } from './sha256.ts';

export type RunToSave = Omit<RecordInput, 'fonts' | 'language' | 'assessmentSha256'> &
  Partial<Pick<RecordInput, 'language'>>;

/** Media types of what is saved. */
export const savedTypes: Readonly<Record<SavedKind, string>> = {
  pdf: 'application/pdf',
  html: 'text/html;charset=utf-8',
  svg: 'image/svg+xml',
  png: 'image/png',
  'print-png': 'image/png',
  csv: 'text/csv;charset=utf-8',
  'results-csv': 'text/csv;charset=utf-8',
  json: 'application/json',
};

const bytesOf = (content: string): Uint8Array<ArrayBuffer> => new TextEncoder().encode(content);

async function wholeInput(run: RunToSave, fonts: () => Promise<RecordFonts>): Promise<RecordInput> {
  return {
    ...run,
    fonts: await fonts(),
    language: run.language ?? 'en',
    assessmentSha256: await sha256Of(bytesOf(writeJson(run.assessment))),
  };
}
async function chartInput(run: RunToSave, fonts: () => Promise<RecordFonts>): Promise<ChartSvgInput> {
  const { assessment, series, language, unitRecord, earlier, units } = run;
  return {
    assessment,
    series,
    fonts: await fonts(),
    language: language ?? 'en',
    earlier: earlier ?? null,
    adjustment: unitRecord?.adjustments?.at(-1) ?? null,
    ...(units ? { units } : {}),
  };
}

/** A judged run as a file. The record's part of the program is loaded when it is first asked for: reading and judging start sooner. */
export async function savedBytes(
  as: SavedKind,
  run: RunToSave,
  fonts: () => Promise<RecordFonts>,
): Promise<Uint8Array<ArrayBuffer>> {
  const picture = async (size: PictureSize): Promise<Uint8Array<ArrayBuffer>> => {
    const [{ chartPng }, { renderPicture }] = await Promise.all([
      import('#record/chart-png.ts'),
      import('./render-picture.ts'),
    ]);
    return (await chartPng(await chartInput(run, fonts), size, renderPicture)).slice();
  };
  switch (as) {
    case 'json':
      return bytesOf(writeJson(run.assessment));
    case 'csv': {
      const { runCsv } = await import('#record/run-csv.ts');
      return bytesOf([...runCsv(run.assessment, run.series)].join(''));
    }
    case 'results-csv': {
      const { resultsCsv } = await import('#record/results-csv.ts');
      return bytesOf(resultsCsv(run.assessment));
    }
    case 'svg': {
      const { chartSvg } = await import('#record/chart-svg.ts');
      return bytesOf(chartSvg({ ...(await chartInput(run, fonts)), embedFonts: true }));
    }
    case 'png':
      return picture('screen');
    case 'print-png':
      return picture('print');
    case 'html': {
      const { recordHtml } = await import('#record/record-html.ts');
      return bytesOf(recordHtml(await wholeInput(run, fonts)));
    }
    case 'pdf': {
      const { recordPdf } = await import('#record/record-pdf.ts');
      return (await recordPdf(await wholeInput(run, fonts))).slice();
    }
  }
}

/** The record's pages for looking at them, an SVG text each. */
export async function recordPages(run: RunToSave, fonts: () => Promise<RecordFonts>): Promise<string[]> {
  const { pagePictures } = await import('#record/page-pictures.ts');
  return pagePictures(await wholeInput(run, fonts));
}
