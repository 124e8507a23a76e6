import { civilDate, dayNumber, fullYear } from './civil-day.ts';
import { countScales, readCount, type CountForm } from './clock-count.ts';
import { Kind } from './column-kind.ts';
import { plainText } from './plain-text.ts';
import { newClockParts, NO_OFFSET, NS_PER_S, fractionUnit_ns, type ClockParts } from './read-clock.ts';
import { readYearless, yearsOn } from './yearless-date.ts';
import { readNumber, type NumberMarks } from './read-number.ts';

const hyphen = 45;
/** Stands for the separator of a date without marks. */
export const UNMARKED = 1;
/** `260304`, and `04032026` with the year at its end. */
const shortDate = /^(\d{2})(\d{2})(\d{2}|\d{4})$/u;

/** A row's clock as its cells come, one part each, until the row is whole. */
export class ClockCells {
  private year = 0;
  private month = 1;
  private day = 1;
  private dayOfYear = 0;
  private yearDigits = 4;
  private separator = hyphen;
  private dated = false;
  private hour = 0;
  private whole = false;
  private minute = 0;
  private second_ns = 0;
  private fractionDigits = 0;
  /** Nanoseconds of the day where one cell holds date and time; NaN where none does. */
  private clock_ns = NaN;
  /** How a count is read, where there is one. */
  count: { form: CountForm; places: number } | null = null;
  private offset_min = NO_OFFSET;
  /** A date without a year, the one before it, and the years that have begun since the first. */
  private readonly now = newClockParts();
  private readonly last = newClockParts();
  private yearsOn = 0;

  /** Takes one part from its cell; false where it cannot be one. */
  read(kind: number, text: string, marks: NumberMarks): boolean {
    const cell = plainText(text.trim());
    if (kind === Kind.shortDate) return this.readShortDate(cell);
    if (kind === Kind.count) return this.readCount(cell);
    if (kind === Kind.yearless) return this.readYearless(cell);
    if (kind === Kind.hourMinute || kind === Kind.hourMinuteSecond) return this.readUnmarked(kind, cell);
    const reading = readNumber(cell, marks);
    if (reading.kind !== 'number' || reading.unit !== null || reading.value < 0) return false;
    const { value } = reading;
    if (kind === Kind.second) {
      this.second_ns = Math.round(value * NS_PER_S);
      this.fractionDigits = Math.min(9, reading.decimals ?? 9);
      return value < 61;
    }
    if (!Number.isInteger(value)) return false;
    switch (kind) {
      case Kind.year:
        this.dated = true;
        this.year = fullYear(value, value < 100 ? 2 : 4);
        return value < 10_000;
      case Kind.month:
        this.month = value;
        return value >= 1 && value <= 12;
      case Kind.day:
        this.day = value;
        return value >= 1 && value <= 31;
      case Kind.dayOfYear:
        this.dayOfYear = value;
        return value >= 1 && value <= 366;
      case Kind.hour:
        this.hour = value;
        this.whole = true;
        return value < 1e5;
      default:
        this.minute = value;
        return value < 60;
    }
  }

  private readCount(cell: string): boolean {
    const counted = this.count === null ? null : readCount(cell, this.count.form, this.count.places);
    if (counted === null || this.count === null) return false;
    const { year, month, day } = civilDate(counted.day);
    this.dated = true;
    [this.year, this.month, this.day] = [year, month, day];
    this.clock_ns = counted.clock_ns;
    this.fractionDigits = counted.fractionDigits;
    this.offset_min = countScales[this.count.form].universal ? 0 : NO_OFFSET;
    return true;
  }

  private readYearless(cell: string): boolean {
    const { now, last } = this;
    if (!readYearless(cell, now)) return false;
    if (last.a >= 0) this.yearsOn += yearsOn(last, now);
    last.a = now.a;
    last.b = now.b;
    this.clock_ns = now.clock_ns;
    this.fractionDigits = now.fractionDigits;
    return true;
  }

  private readShortDate(cell: string): boolean {
    const [, a, b, c] = shortDate.exec(cell) ?? [];
    if (a === undefined || c === undefined) return false;
    this.dated = true;
    this.separator = UNMARKED;
    this.yearDigits = c.length;
    [this.year, this.month, this.day] = [Number(a), Number(b), Number(c)];
    return true;
  }

  /** Cells that a spreadsheet or a number's print robbed of the zeros in front: `930` and `15` are 9:30 and 0:15. */
  private readUnmarked(kind: number, cell: string): boolean {
    const [whole = '', fraction = ''] = cell.split(/[.,]/u);
    const seconds = kind === Kind.hourMinuteSecond;
    if (!/^\d+$/u.test(whole) || !/^\d{0,9}$/u.test(fraction) || (!seconds && fraction !== '')) return false;
    // `081500250`: three digits more are the thousandths.
    const long = seconds && whole.length === 9;
    const digits = (long ? whole.slice(0, 6) : whole).padStart(seconds ? 6 : 4, '0');
    const rest = long ? whole.slice(6) : fraction;
    if (digits.length > (seconds ? 6 : 4)) return false;
    this.whole = true;
    this.hour = Number(digits.slice(0, 2));
    this.minute = Number(digits.slice(2, 4));
    // Those of hours and minutes may stand in a column of their own.
    if (!seconds) return this.hour < 24 && this.minute < 60;
    this.fractionDigits = rest.length;
    this.second_ns =
      Number(digits.slice(4)) * NS_PER_S +
      (rest === '' ? 0 : Number(rest) * (fractionUnit_ns[rest.length] ?? 1));
    return this.hour < 24 && this.minute < 60 && this.second_ns < 60 * NS_PER_S;
  }

  /** Puts what was read in place of a date and of a time of day. */
  into(date: ClockParts, clock: ClockParts | null): void {
    if (this.dayOfYear > 0) {
      // The year may stand behind it. Day 366 of a year without one is no date.
      const { year, month, day } = civilDate(dayNumber(this.year, 1, 1) + this.dayOfYear - 1);
      this.month = year === this.year ? month : 13;
      this.day = day;
    }
    if (this.dated) {
      date.a = this.year;
      date.b = this.month;
      date.c = this.day;
      date.digitsA = this.separator === UNMARKED ? 2 : 4;
      date.digitsC = this.separator === UNMARKED ? this.yearDigits : 2;
      date.separator = this.separator;
    }
    if (!Number.isNaN(this.clock_ns)) {
      date.clock_ns = this.clock_ns;
      date.fractionDigits = this.fractionDigits;
      date.offset_min = this.offset_min;
      if (!this.dated) {
        date.a = this.now.a;
        date.b = this.now.b;
        date.c = this.now.c + this.yearsOn;
        date.digitsA = this.now.digitsA;
        date.digitsC = this.now.digitsC;
        date.separator = this.now.separator;
      }
    }
    if (clock === null) return;
    // Seconds alone stand beside a time of hours and minutes.
    if (!this.whole) clock.clock_ns += this.second_ns;
    else clock.clock_ns = (this.hour * 3600 + this.minute * 60) * NS_PER_S + this.second_ns;
    clock.fractionDigits = this.fractionDigits;
  }
}
