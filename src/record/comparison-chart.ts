import { logClock } from '#drawing/clock.ts';
import { drawingToSvg } from '#drawing/drawing-to-svg.ts';
import { individualsChart } from '#drawing/individuals-chart.ts';
import type { Comparison } from '#formats/comparison.ts';
import type { Spec } from '#formats/spec.ts';
import { fixedText, withUnit } from '#units/number-text.ts';
import { drawingPng, type PictureSize, type Renderer } from './chart-png.ts';
import { drawingPdf } from './drawing-pdf.ts';
import { fontFaceCss, FONT_FAMILY } from './font-face-css.ts';
import { openFonts } from './font-set.ts';
import type { RecordFonts } from './fonts.ts';

/** What the chart of a comparison is made from. */
export interface ComparisonChartInput {
  comparison: Comparison;
  /** Of the spec that all runs were judged by; the comparison is in its unit. */
  band: Spec['pressureBand'];
  fonts: RecordFonts;
}

const TITLE = 'Operating pressure, run by run';

const drawn = ({ comparison, band }: ComparisonChartInput, set: ReturnType<typeof openFonts>) =>
  individualsChart({
    comparison,
    band: { low: band.low ?? null, high: band.high ?? null },
    width: set.width,
  });

/** What the chart shows, in a sentence or two with their numbers. */
function alt({ runs, limits, unit }: Comparison): string {
  const beyond = runs.flatMap(({ beyond: off }, index) => (off === null ? [] : [String(index + 1)]));
  const one = (value: number): string => withUnit(fixedText(value, 1), unit);
  return `${runs.length} runs in order.${
    limits === null
      ? ' Too few have a value for limits.'
      : ` Limits of the chart ${one(limits.low)} to ${one(limits.high)} about ${one(limits.center)}; ${beyond.length === 0 ? 'no run lies beyond them' : `beyond them: run ${beyond.join(', ')}`}.`
  }`;
}

/** The individuals and moving-range chart as an SVG file with its letters. */
export function comparisonSvg(input: ComparisonChartInput): string {
  const set = openFonts(input.fonts);
  const drawing = drawn(input, set);
  for (const item of drawing.items) if (item.kind === 'text') set.runs(item.text, item.weight);
  return drawingToSvg(drawing, {
    title: TITLE,
    description: alt(input.comparison),
    language: 'en',
    fontFamily: FONT_FAMILY,
    css: fontFaceCss(input.fonts, set.used),
    ground: '#ffffff',
  });
}
/** The same as a PNG at true size. */
export function comparisonPng(
  input: ComparisonChartInput,
  size: PictureSize,
  render: Renderer,
): Promise<Uint8Array> {
  const set = openFonts(input.fonts);
  return drawingPng({ drawing: drawn(input, set), set, fonts: input.fonts, language: 'en' }, size, render);
}
/** The same as a PDF of one page of A4; as in the record no clock is asked, the metadata names the last day that the logs know. */
export function comparisonPdf(input: ComparisonChartInput, version: string): Promise<Uint8Array> {
  const set = openFonts(input.fonts);
  const days = input.comparison.runs.flatMap(({ start }) => logClock(start ?? null)?.date ?? []);
  return drawingPdf({
    drawing: drawn(input, set),
    set,
    title: TITLE,
    alt: alt(input.comparison),
    language: 'en',
    day: days.toSorted().at(-1) ?? null,
    version,
  });
}
