import { chartPng, type PictureSize } from '#record/chart-png.ts';
import { chartSvg, type ChartSvgInput } from '#record/chart-svg.ts';
import { recordHtml } from '#record/record-html.ts';
import type { RecordInput } from '#record/record-input.ts';
import { recordPdf } from '#record/record-pdf.ts';
import { resultsCsv } from '#record/results-csv.ts';
import { runCsv } from '#record/run-csv.ts';
import { recordEnding, type RecordEnding } from './record-endings.ts';
import { recordFonts } from './record-fonts.ts';
import type { Output } from './write-outputs.ts';

type Content = Output['content'];

const chartOf = (input: RecordInput): ChartSvgInput => ({
  ...input,
  adjustment: input.unitRecord?.adjustments?.at(-1) ?? null,
});

/** What each ending stands for. */
const makers: Readonly<
  Record<RecordEnding, (input: RecordInput, picture: PictureSize) => Content | Promise<Content>>
> = {
  '.pdf': recordPdf,
  '.html': (input) => [recordHtml(input)],
  '.svg': (input) => [chartSvg({ ...chartOf(input), embedFonts: true })],
  '.png': async (input, picture) => {
    const { renderPicture } = await import('./render-picture.ts');
    return chartPng(chartOf(input), picture, renderPicture);
  },
  '.csv': ({ assessment, series }) => runCsv(assessment, series),
  '.results.csv': ({ assessment }) => [resultsCsv(assessment)],
};

/** Makes each record that was asked for. Loaded when one is: the writing of PDF takes as long to load as all else together. */
export async function recordOutputs(
  names: readonly string[],
  run: Omit<RecordInput, 'fonts'>,
  picture: PictureSize,
): Promise<Output[]> {
  const input = { ...run, fonts: recordFonts() };
  const outputs: Output[] = [];
  for (const name of names) {
    const ending = recordEnding(name);
    if (ending !== null) outputs.push({ name, content: await makers[ending](input, picture) });
  }
  return outputs;
}
