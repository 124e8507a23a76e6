import type { Comparison } from '#formats/comparison.ts';
import type { Spec } from '#formats/spec.ts';
import { comparisonPdf, comparisonPng, comparisonSvg } from '#record/comparison-chart.ts';
import { comparisonCsv } from '#record/comparison-csv.ts';
import type { PictureSize } from '#record/chart-png.ts';
import { programVersion } from './program.ts';
import { recordEnding } from './record-endings.ts';
import { recordFonts } from './record-fonts.ts';
import type { Output } from './write-outputs.ts';

/** Makes each file that `compare --record` was asked for: the rows as a table, the individuals chart as a picture. */
export async function comparisonOutputs(
  names: readonly string[],
  comparison: Comparison,
  band: Spec['pressureBand'],
  picture: PictureSize,
): Promise<Output[]> {
  const input = { comparison, band, fonts: recordFonts() };
  const outputs: Output[] = [];
  for (const name of names)
    switch (recordEnding(name)) {
      case '.csv':
        outputs.push({ name, content: [comparisonCsv(comparison)] });
        break;
      case '.svg':
        outputs.push({ name, content: [comparisonSvg(input)] });
        break;
      case '.png': {
        const { renderPicture } = await import('./render-picture.ts');
        outputs.push({ name, content: await comparisonPng(input, picture, renderPicture) });
        break;
      }
      case '.pdf':
        outputs.push({ name, content: await comparisonPdf(input, programVersion) });
        break;
      default:
    }
  return outputs;
}
