import { chart } from '#drawing/chart.ts';
import { drawingToSvg } from '#drawing/drawing-to-svg.ts';
import type { Assessment } from '#formats/assessment.ts';
import type { RecordUnits } from '#formats/record-data.ts';
import type { Series } from '#formats/series.ts';
import type { Adjustment } from '#formats/unit-record.ts';
import { chartAlt } from './chart-alt.ts';
import { fontFaceCss, FONT_FAMILY } from './font-face-css.ts';
import { openFonts } from './font-set.ts';
import type { RecordFonts } from './fonts.ts';
import { phrasesOf, type Language } from './phrases.ts';
import type { RecordedTest } from './record-input.ts';
import { inRecordUnits } from './shown-units.ts';

/** What a chart of its own is made from. */
export interface ChartSvgInput {
  assessment: Assessment;
  series: Series;
  fonts: RecordFonts;
  language: Language;
  /** Faces put into the file, so that it looks the same wherever it is opened; true unless said. */
  embedFonts?: boolean;
  /** The test before an adjustment, and the step between them. */
  earlier?: RecordedTest | null;
  adjustment?: Adjustment | null;
  /** Units that it shows; left out: those of the limits and the log. */
  units?: RecordUnits;
}

/** The record's chart as an SVG file at true size, with a title and a description that can be read out. */
export function chartSvg(input: ChartSvgInput): string {
  const { assessment, series, fonts, language, embedFonts, earlier, adjustment } = inRecordUnits(input);
  const last = { assessment, series };
  const { phrases, numbers } = phrasesOf(language);
  const set = openFonts(fonts);
  const drawing = chart({
    runs: earlier ? [earlier, last] : [last],
    adjustment: adjustment ?? null,
    words: phrases.chart,
    numbers,
    width: set.width,
  });
  return drawingToSvg(drawing, {
    title: phrases.chartTitle(assessment.log.fileName),
    description: chartAlt({
      assessment,
      unitRecord: null,
      earlier: earlier ?? null,
      stated: null,
      phrases,
      numbers,
    }),
    language,
    fontFamily: FONT_FAMILY,
    ...(embedFonts !== false ? { css: fontFaceCss(fonts, set.used) } : {}),
    ground: '#ffffff',
  });
}
