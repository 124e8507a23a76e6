import { fixedText, noBreak, statedText, unitLabel } from '#units/number-text.ts';
import { isTemperatureUnit } from '#units/unit.ts';
import { convertTemperature } from '#units/temperature.ts';
import { type Frame, LABEL_SIZE_PT, type PlacedRun, PLOT_LEFT } from './chart-frame.ts';
import { extentBetween } from './columns.ts';
import { BLACK, line, text, WHITE, type Item } from './display-list.ts';
import { frameOf, gapsOver, gridStep, HALF_FIGURE, multiples, timeGrid } from './pressure-panes.ts';
import { OIL_HEIGHT } from './scales.ts';

/** Oil temperature on the same hours, the operating temperature dashed and named. Nothing where no oil was logged. */
export function oilPane(frame: Frame): Item[] {
  const { oil } = frame;
  if (!oil) return [];
  const top = frame.y.oil,
    bottom = top + OIL_HEIGHT;
  const y = (temperature: number): number => top + (oil.top - temperature) / oil.perMillimetre;
  const figure = oil.perMillimetre * 8;
  const warm = operatingTemperature(frame, oil.unit);
  const items: Item[] = frame.runs.flatMap((run): Item[] => {
    const width = run.right - run.left;
    return [
      timeGrid(run, gridStep(frame), top, bottom),
      {
        kind: 'lines',
        lines: multiples(figure / 2, oil.bottom, oil.top).map((level) => [
          run.left,
          y(level),
          run.right,
          y(level),
        ]),
        stroke: { width: 0.12, ink: '#9a9a9a' },
      },
      {
        kind: 'lines',
        lines: warm
          .filter(({ level }) => level > oil.bottom && level < oil.top)
          .map(({ level }) => [run.left, y(level), run.right, y(level)]),
        stroke: { width: 0.2, ink: BLACK, dash: [1.6, 1.2] },
      },
      {
        kind: 'clip',
        box: { x: run.left, y: top, width, height: OIL_HEIGHT },
        items: [
          {
            kind: 'lines',
            lines: run.oil.map((points) => points.map((v, index) => (index % 2 === 0 ? v : y(v)))),
            stroke: { width: 0.28, ink: BLACK },
          },
        ],
      },
      ...gapsOver(run, top, bottom),
      ...run.holds
        .slice(0, 1)
        .map((hold) => line(run.x(hold.start_s), top, run.x(hold.start_s), bottom, 0.3)),
      frameOf(run, top, OIL_HEIGHT),
    ];
  });
  for (const level of multiples(figure, oil.bottom, oil.top)) {
    const at = Math.min(Math.max(y(level), top + 1.2), bottom - 0.6);
    items.push(
      line(PLOT_LEFT - 1.1, y(level), PLOT_LEFT, y(level), 0.2),
      text(PLOT_LEFT - 1.6, at + HALF_FIGURE, statedText(level, frame.numbers), { anchor: 'end' }),
    );
  }
  // Named below the words that say where the pressure axis starts, level with the pane's lower part.
  items.push(text(0, bottom - 4.4, frame.words.oilAxis(unitLabel(oil.unit)), { weight: 600 }));
  for (const { level, words } of warm)
    if (level > oil.bottom && level < oil.top)
      items.push(text(frame.right + 1.2, y(level) + HALF_FIGURE, words));
  return [
    ...items,
    ...whileJudged(
      frame,
      frame.last,
      y,
      warm.map(({ level }) => y(level)),
    ),
  ];
}

/** Ends of the operating temperature in the unit of the oil channel, with their words. */
function operatingTemperature(frame: Frame, unit: string): { level: number; words: string }[] {
  const asked = frame.last.assessment.spec?.operatingTemperature;
  if (!asked || !isTemperatureUnit(unit)) return [];
  const say = (value: number): string =>
    noBreak(`${statedText(value, frame.numbers)} ${unitLabel(asked.unit)}`);
  const at = (value: number): number => convertTemperature(value, asked.unit, unit);
  return [
    ...(asked.low === null || asked.low === undefined
      ? []
      : [{ level: at(asked.low), words: frame.words.warmFrom(say(asked.low)) }]),
    ...(asked.high === null || asked.high === undefined
      ? []
      : [{ level: at(asked.high), words: frame.words.warmUpTo(say(asked.high)) }]),
  ];
}

/** "oil 60.8 °C while judged", in the pane where the line leaves room for it. */
function whileJudged(
  frame: Frame,
  run: PlacedRun,
  y: (value: number) => number,
  dashed: readonly number[],
): Item[] {
  const held = run.assessment.quantities.holdTemperature;
  const hold = run.holds.reduce<{ start_s: number; end_s: number } | null>(
    (best, phase) =>
      best === null || phase.end_s - phase.start_s > best.end_s - best.start_s ? phase : best,
    null,
  );
  if (held.mean === null || hold === null) return [];
  const mean = noBreak(`${fixedText(held.mean, 1, frame.numbers)} ${unitLabel(held.unit)}`);
  const top = frame.y.oil,
    bottom = top + OIL_HEIGHT;
  for (const words of frame.words.oilWhileJudged(mean)) {
    const width = frame.width(words, LABEL_SIZE_PT, 400);
    const from = run.x(hold.start_s) + 1,
      to = Math.min(run.x(hold.end_s), run.right) - 1 - width;
    // From two thirds of the hold leftwards and rightwards, on the free levels from the foot up.
    const wanted = from + (to - from) * 0.66;
    const places = multiples(1, 0, Math.max(0, to - from))
      .map((offset) => from + offset)
      .sort((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted));
    for (const x of places) {
      const trace = extentBetween(run.oil, x - 1, x + width + 1);
      const clearOfGaps = run.wideGaps.every((gap) => gap.right < x - 0.6 || gap.left > x + width + 0.6);
      if (!clearOfGaps) continue;
      for (const baseline of [bottom - 5.8, bottom - 1.2, top + 3.4, bottom - 9]) {
        const box = { top: baseline - 2.5, bottom: baseline + 0.8 };
        const onTrace =
          trace !== null && y(trace.highest) < box.bottom + 0.4 && y(trace.lowest) > box.top - 0.4;
        const onDash = dashed.some((level) => level > box.top - 0.2 && level < box.bottom + 0.2);
        if (onTrace || onDash) continue;
        return [
          {
            kind: 'rect',
            x: x - 0.5,
            y: baseline - 2.3,
            width: width + 1,
            height: 3.1,
            fill: WHITE,
          },
          text(x, baseline, words),
        ];
      }
    }
  }
  return [];
}
