/**
 * Every word of the printed chart. Numbers arrive as finished text with their digits, decimal mark and unit; a language supplies the
 * words around them. Where several are listed, the first that fits its place is used.
 */
export interface ChartWords {
  wholeRunFromZero(to: string, unit: string): string;
  oneMillimetreIs(amount: string): string;
  /** "20 mm = 1 h" */
  millimetresAre(millimetres: string, time: string): string;
  enlargedBelow(from: string, to: string): string[];
  engaged(clock: string | null): string;
  released(clock: string | null): string;
  engagements(count: number): string;
  noReadings(duration: string): string[];
  aboveThePane(pressure: string, cold: boolean): string;
  belowThePane(pressure: string, cold: boolean): string;
  spikesSetAside(count: number): string;
  pressureAxis(unit: string): string;
  oilAxis(unit: string): string;
  startsAt(figure: string): string[];
  warmingUp: string[];
  judged(duration: string, warm: boolean): string[];
  notJudged: string[];
  oilWhileJudged(temperature: string): string[];
  warmFrom(temperature: string): string;
  warmUpTo(temperature: string): string;
  hoursSinceEngaging(unit: 's' | 'min' | 'h', charged: boolean): string;
  hoursSinceFirstReading(unit: 's' | 'min' | 'h'): string;
  started(time: string, date: string | null): string;
  atFullSize(pane: string, time: string, oil: string | null): string;
  upperLimit(value: string): string;
  lowerLimit(value: string): string;
  passUpTo(value: string): string;
  passFrom(value: string): string;
  average(value: string): string;
  /** Under the average when it has no uncertainty: several lines. */
  gaugeNotStated: string[];
  noClearPart: string;
  noAverage: string[];
  grey: string;
  smoothedLine(method: 'median' | 'mean' | 'savitzky-golay' | 'none', window: string): string;
  firstTest: string;
  reTest: string;
  stopped: string;
  shims: string;
  stack(from: string, to: string): string[];
  notLikeForLike: string[];
  dateInWords(isoDate: string): string;
  timeUnit: Record<'s' | 'min' | 'h', string>;
}
