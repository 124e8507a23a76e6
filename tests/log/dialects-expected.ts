import type { Encoding, Log, TimeForm } from '#formats/log.ts';
import type { Problem } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';

/** What must be found in a sample; a key that is left out is not looked at. */
export interface Found {
  rig?: Partial<Rig>;
  encoding?: Encoding;
  delimiter?: string;
  decimal?: '.' | ',';
  headerLine?: number | null;
  unitLine?: number | null;
  form?: TimeForm;
  start?: string | null;
  time_s?: number[];
  median_s?: number;
  gaps?: number[][];
  steps?: Log['clockSteps'];
  skipped?: string[];
  timeColumns?: string[];
  remarks?: string[];
  candidates?: Log['roleCandidates'];
  /** Every channel by name; of each the named facts. */
  channels?: Record<string, FoundChannel>;
}
interface FoundChannel {
  role?: string | null;
  unit?: string | null;
  unitFrom?: string | null;
  decimals?: number | null;
  tokens?: string[];
  values?: (number | string)[];
}

const P = [0.4, 120.5, 405.2, 410.1, 411, 410.6];
const T = [18.3, 20.1, 35.7, 48.2, 55, 55.4];
const seconds = [0, 1, 2, 3, 4, 5];
const halves = [0, 0.5, 1, 1.5, 2, 2.5];
const minutes = [0, 60, 120, 180, 240, 300];
const pressure = (unit: string, values: (number | string)[] = P): FoundChannel => ({
  role: 'pressure',
  unit,
  values,
});
const oil = (unit = 'degC', values: (number | string)[] = T): FoundChannel => ({
  role: 'oil-temperature',
  unit,
  values,
});
/** The two columns of most samples. */
const PT: Record<string, FoundChannel> = { 'P [psi]': pressure('psi'), 'Oil [degC]': oil() };
const other = (values: (number | string)[]): FoundChannel => ({ role: null, unit: null, values });

export const readings: Record<string, Found> = {
  // Times and letters
  'iso-with-fraction-and-z.csv': {
    form: 'iso-8601',
    start: '2026-03-04T08:15:00.0Z',
    time_s: [0, 0.5, 1, 1.5, 2, 2.5],
    channels: { 'pressure (psi)': pressure('psi'), 'oil (°C)': oil() },
  },
  'year-first-with-strokes.csv': {
    form: 'date-time',
    start: '2026-03-04T08:15:00',
    time_s: seconds,
    channels: { 'Pressure (psi)': pressure('psi'), 'Oil (°C)': oil() },
  },
  'date-before-time.csv': {
    form: 'date-time',
    delimiter: ';',
    start: '2026-03-04T08:15:00',
    time_s: seconds,
    timeColumns: ['Date', 'Time'],
    channels: { 'Pressure (psi)': pressure('psi'), 'Oil (°C)': oil() },
  },
  'utf-16le-without-mark.csv': {
    encoding: 'utf-16le',
    time_s: seconds,
    channels: { 'pressure (psi)': pressure('psi'), 'oil (°C)': oil() },
  },
  'utf-16be-with-mark.csv': {
    encoding: 'utf-16be',
    time_s: seconds,
    channels: { 'pressure (psi)': pressure('psi'), 'oil (°C)': oil() },
  },
  'durations-of-iso-8601.csv': {
    form: 'elapsed-hms',
    start: null,
    time_s: [0, 30.5, 61, 91.5, 3722, 3752.5],
    channels: PT,
  },
  'minutes-and-seconds-in-letters.csv': {
    form: 'elapsed-hms',
    start: null,
    time_s: seconds,
    skipped: [],
    channels: PT,
  },
  'hours-minutes-seconds-in-letters.csv': {
    form: 'time-of-day',
    start: '23:59:58',
    time_s: seconds,
    steps: [],
    channels: PT,
  },
  'unit-behind-hours-minutes-seconds.csv': {
    form: 'elapsed-hms',
    start: null,
    time_s: seconds,
    channels: PT,
  },
  'hours-and-a-word-behind.csv': {
    form: 'date-time',
    start: '2026-03-04T08:15:00',
    time_s: seconds,
    channels: PT,
  },
  'lengths-in-letters-beside-a-time.csv': {
    form: 'elapsed-seconds',
    time_s: seconds,
    timeColumns: ['Time (s)'],
    channels: { Dwell: {}, ...PT },
  },
  'lines-above-with-times-in-words.csv': {
    form: 'epoch-milliseconds',
    headerLine: 5,
    time_s: seconds,
    channels: PT,
  },
  'duration-of-a-step-beside-an-epoch.csv': {
    form: 'epoch-milliseconds',
    time_s: seconds,
    timeColumns: ['timestamp'],
  },
  'hours-run-in-letters-beside-a-clock.csv': {
    form: 'iso-8601',
    time_s: seconds,
    timeColumns: ['Time'],
  },
  'cycles-beside-date-and-time.csv': {
    form: 'date-time',
    time_s: seconds,
    timeColumns: ['Date', 'Time'],
  },
  'seconds-like-modified-julian-days.csv': {
    form: 'elapsed-seconds',
    time_s: [0, 0.01, 0.02, 0.03, 0.04, 0.05],
  },
  'taps-named-like-durations.csv': {
    form: 'time-of-day',
    headerLine: 1,
    time_s: seconds,
    timeColumns: ['Time'],
    channels: { P1D: { values: P }, PT1H: { values: T } },
  },
  'sample-numbers-like-thousandths.csv': {
    form: 'date-time',
    start: '2026-03-04T08:15:00',
    time_s: seconds,
    timeColumns: ['Date', 'Time'],
    channels: { Sample: {}, ...PT },
  },
  'garbled-hour-among-times-of-day.csv': {
    form: 'time-of-day',
    start: '08:15:00',
    time_s: [0, 1, 3, 4, 5],
    skipped: ['4: no usable time: "38:15:02"'],
    steps: [],
    remarks: [],
  },
  'digits-of-other-scripts.csv': {
    form: 'iso-8601',
    decimal: '.',
    start: '2026-03-04T08:15:00',
    time_s: seconds,
    channels: PT,
  },
  'epoch-microseconds.csv': {
    form: 'epoch-microseconds',
    start: '2026-03-04T08:15:00.000000Z',
    time_s: [0, 0.500125, 1.00025, 1.500375, 2.0005, 2.500625],
    channels: PT,
  },
  'epoch-microseconds-by-size.csv': {
    form: 'epoch-microseconds',
    start: '2026-03-04T08:15:00.000000Z',
    time_s: seconds,
    channels: PT,
  },
  'epoch-nanoseconds.csv': {
    form: 'epoch-nanoseconds',
    start: '2026-03-04T08:15:00.000000000Z',
    time_s: [0, 1.000000123, 2.000000246, 3.000000369, 4.000000492, 5.000000615],
    channels: PT,
  },
  'ticks-from-1601.csv': {
    form: 'ticks-from-1601',
    start: '2026-03-04T08:15:00.0000000Z',
    time_s: [0, 1.0000003, 2.0000006, 3.0000009, 4.0000012, 5.0000015],
    channels: PT,
  },
  'ticks-from-1.csv': {
    form: 'ticks-from-1',
    start: '2026-03-04T08:15:00.0000000',
    time_s: [0, 1.0000007, 2.0000014, 3.0000021, 4.0000028, 5.0000035],
    channels: PT,
  },
  'julian-days.csv': {
    form: 'julian-day',
    start: '2026-03-04T08:15:00.00',
    time_s: seconds,
    remarks: [],
    channels: PT,
  },
  'julian-days-by-size.csv': {
    form: 'julian-day',
    start: '2026-03-04T08:15:00.000',
    time_s: seconds,
    channels: PT,
  },
  'modified-julian-days.csv': {
    form: 'modified-julian-day',
    start: '2026-03-04T08:15:00.000',
    time_s: halves,
    channels: PT,
  },
  'modified-julian-days-by-size.csv': {
    form: 'modified-julian-day',
    start: '2026-03-04T08:15:00.000',
    time_s: seconds,
    remarks: ['days-modified-julian'],
    channels: PT,
  },
  'nanoseconds-from-switching-on.csv': {
    form: 'elapsed-seconds',
    start: null,
    time_s: seconds,
    channels: PT,
  },
  'pulses-like-ticks.csv': {
    rig: { time: { column: 'Pulse count', form: 'ticks-from-1601' } },
    form: 'ticks-from-1601',
    start: '2026-03-04T08:15:00.0000000Z',
    time_s: seconds,
    channels: PT,
  },
  'dates-without-year.csv': {
    form: 'time-of-day',
    start: '23:59:58',
    time_s: seconds,
    remarks: ['dates-without-year'],
    channels: PT,
  },
  'dates-without-year-in-numbers.csv': {
    form: 'time-of-day',
    start: '23:59:58.5',
    time_s: halves,
    remarks: ['dates-without-year'],
    channels: PT,
  },
  'dates-without-year-over-new-year.csv': {
    form: 'time-of-day',
    start: '23:59:58',
    time_s: seconds,
    remarks: ['dates-without-year'],
    channels: PT,
  },
  'dates-without-year-over-february.csv': {
    form: 'time-of-day',
    start: '23:59:58',
    time_s: seconds,
    remarks: ['dates-without-year', 'clock-step-joined'],
    channels: PT,
  },
  'dates-without-year-untold.csv': {
    form: 'time-of-day',
    start: '08:15:00',
    time_s: seconds,
    remarks: ['dates-without-year'],
    channels: PT,
  },
  'clock-beside-that-disagrees.csv': {
    form: 'elapsed-seconds',
    start: '2026-03-04T08:15:00',
    time_s: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11],
    timeColumns: ['Elapsed (s)'],
    remarks: ['clock-beside-disagrees'],
  },
  'clock-beside-in-gusts.csv': {
    form: 'elapsed-seconds',
    start: '2026-03-04T08:15:00',
    time_s: seconds,
    remarks: [],
  },
  'date-and-time-with-thousandths-without-marks.csv': {
    form: 'date-time',
    start: '2026-03-04T08:15:00.000',
    time_s: halves,
    channels: PT,
  },
  'microseconds-beside-a-clock.csv': {
    form: 'epoch-microseconds',
    start: '2026-03-04T08:15:00.000000Z',
    time_s: [0, 0.25, 0.5, 0.75, 1, 1.25],
    channels: PT,
  },
  'microseconds-beside-their-clock.csv': {
    form: 'iso-8601',
    start: '2026-03-04T08:15:00',
    time_s: seconds,
    timeColumns: ['Time'],
  },
  'hours-and-minutes-in-letters.csv': {
    form: 'time-of-day',
    start: '08:14:00',
    time_s: minutes,
    channels: PT,
  },
  // Tables
  'semicolon-decimal-comma.csv': {
    delimiter: ';',
    decimal: ',',
    headerLine: 1,
    unitLine: null,
    form: 'date-time',
    start: '2026-03-04T08:15:00',
    time_s: seconds,
    channels: {
      'Druck [bar]': { ...pressure('bar', [0.04, 12.05, 40.52, 41.01, 41.1, 41.06]), unitFrom: 'header' },
      'Öl [°C]': oil(),
    },
  },
  'tab-separated.txt': {
    delimiter: '\t',
    form: 'elapsed-seconds',
    start: null,
    time_s: seconds,
    channels: { 'Pressure (kPa)': pressure('kPa'), 'Oil (deg F)': oil('degF') },
  },
  'pipe-separated.txt': {
    delimiter: '|',
    form: 'iso-8601',
    channels: { 'pressure psi': pressure('psi'), 'oil degC': oil() },
  },
  'runs-of-blanks.txt': {
    delimiter: ' ',
    form: 'elapsed-seconds',
    time_s: seconds,
    channels: { p_psi: pressure('psi'), oil_degC: oil() },
  },
  'runs-of-blanks-date-and-time.txt': {
    delimiter: ' ',
    start: '2026-03-04T08:15:00',
    timeColumns: ['Date', 'Time'],
    channels: { P_bar: pressure('bar', [0.04, 12.05, 40.52, 41.01, 41.1, 41.06]), T_degC: oil() },
  },
  'utf-16le-with-mark.csv': {
    encoding: 'utf-16le',
    decimal: ',',
    channels: { 'Druck [bar]': pressure('bar'), 'Öl [°C]': oil() },
  },
  'utf-16be-without-mark.csv': {
    encoding: 'utf-16be',
    channels: { 'Pressure [bar]': pressure('bar'), 'Oil [°C]': oil() },
  },
  'windows-1252.csv': {
    encoding: 'windows-1252',
    remarks: ['encoding-assumed'],
    channels: { 'Druck [bar]': pressure('bar'), 'Öl [°C]': oil() },
  },
  'carriage-returns-alone.csv': { time_s: seconds, channels: { p_psi: pressure('psi') } },
  'mixed-line-ends.csv': { time_s: seconds, skipped: [], channels: { p_psi: pressure('psi') } },
  'damaged-byte-among-good-letters.csv': {
    encoding: 'utf-8',
    remarks: [],
    channels: {
      'Öl vorn [\uFFFDC]': oil('degC', [18.5, 19.5, 20.5, 21.5, 22.5, 23.5]),
      'Druck über Grund [bar]': pressure('bar'),
    },
  },
  'damaged-degree-sign.csv': {
    encoding: 'utf-8',
    channels: {
      'Oil [\uFFFDC]': oil('degC', [18.3, 20.1]),
      'Case [°F]': { unit: 'degF' },
      'Tank [Â°C]': { unit: 'degC' },
      'Case 2 [?C]': { unit: 'degC' },
      'p [PSIG]': pressure('psi', [0.4, 120.5]),
    },
  },
  'nul-bytes.csv': {
    time_s: [0, 1, 2, 3, 4],
    remarks: ['nul-bytes'],
    skipped: [],
    channels: { p_psi: { values: [0.4, 'faultToken', 405.2, 410.1, 411], tokens: ['12␀.5×1'] } },
  },
  'hundred-with-three-decimals.csv': {
    decimal: ',',
    channels: {
      'Feuchte [%]': { unit: 'percent', decimals: 3, values: [100, 100, 100, 100, 100, 100] },
      'Druck [bar]': pressure('bar', [27.125, 28.125, 29.125, 30.125, 31.125, 32.125]),
    },
  },
  'thousands-proven.csv': {
    decimal: '.',
    remarks: ['thousands-separators'],
    channels: { 'Pressure [kPa]': { decimals: 1, values: [998.5, 1002.5, 1250, 2760], tokens: [] } },
  },
  'thousands-not-proven.csv': {
    decimal: '.',
    remarks: [],
    channels: {
      'Pressure [kPa]': { values: [998, 'faultToken', 1001], tokens: ['1,002×1'] },
      'Oil [degC]': oil('degC', [18.5, 18.6, 18.7]),
    },
  },
  'thousands-with-points.csv': {
    decimal: ',',
    channels: {
      'Druck [Pa]': { unit: 'Pa', values: [1002500, 998500, 2760000.5] },
      'Öl [°C]': oil('degC', [18.5, 18.6, 18.7]),
    },
  },
  'everything-quoted.csv': {
    delimiter: ',',
    time_s: seconds,
    channels: { 'Pressure, psi': pressure('psi'), 'Oil, °C': oil() },
  },
  'quoted-decimal-comma-between-commas.csv': {
    delimiter: ',',
    decimal: ',',
    time_s: seconds,
    channels: { 'Druck [bar]': pressure('bar'), 'Öl [°C]': oil() },
  },
  'quoted-note-with-line-end.csv': {
    time_s: [0, 1, 2, 3, 4],
    skipped: [],
    channels: {
      'Pressure (psi)': pressure('psi', [0.4, 120.5, 405.2, 410.1, 411]),
      Note: { tokens: ['started, by hand\nat the bench×1', 'said "go"×1', '2" hose×1'] },
    },
  },
  'quote-never-closed.csv': {
    time_s: [0, 1, 2, 3],
    channels: {
      'Pressure (psi)': pressure('psi', [0.4, 120.5, 405.2, 410.1]),
      Note: { tokens: ['"oil weeps×1'] },
    },
  },
  'trailing-delimiters.csv': {
    delimiter: ';',
    time_s: seconds,
    channels: { 'Pressure [bar]': pressure('bar'), 'Oil [°C]': oil() },
  },
  'sep-line.csv': {
    delimiter: ';',
    headerLine: 2,
    channels: { 'Pressure [bar]': pressure('bar'), 'Oil [°C]': oil() },
  },
  'comment-marks.csv': {
    headerLine: 3,
    time_s: [0, 1],
    skipped: ['5: a comment'],
    channels: { 'Pressure [psi]': pressure('psi', [0.4, 405.2]) },
  },
  'heading-behind-a-comment-mark.csv': {
    headerLine: 2,
    timeColumns: ['time_s'],
    channels: { pressure_psi: pressure('psi'), oil_degC: oil() },
  },
  'key-value-preamble.csv': {
    headerLine: 6,
    time_s: seconds,
    channels: { 'Pressure [bar]': pressure('bar'), 'Oil [°C]': oil() },
  },
  'smaller-table-above.csv': {
    headerLine: 8,
    time_s: seconds,
    channels: { 'Pressure (psi)': pressure('psi'), 'Oil (degC)': oil() },
  },
  'heading-in-two-rows.csv': {
    headerLine: 1,
    unitLine: 3,
    time_s: seconds,
    candidates: [{ role: 'pressure', columns: ['Pressure main', 'Pressure supply'] }],
    channels: {
      'Pressure main': { role: null, unit: 'psi', unitFrom: 'unit-row', values: P },
      'Pressure supply': { role: null, unit: 'psi' },
      'Temperature oil': oil(),
      'Temperature room': { role: 'ambient-temperature', unit: 'degC' },
    },
  },
  'heading-in-three-rows.csv': {
    headerLine: 1,
    unitLine: 4,
    time_s: seconds,
    channels: { 'Slot 1 AI0 Pressure': pressure('bar'), 'Slot 2 AI1 Oil': oil() },
  },
  'unit-row-and-aggregation-row.csv': {
    headerLine: 1,
    unitLine: 2,
    time_s: seconds,
    channels: {
      RECORD: { role: 'ignored', unit: null, values: [812, 813, 814, 815, 816, 817] },
      Pressure: pressure('kPa'),
      Oil: { ...oil('degC', [18.3, 20.1, 'faultToken', 48.2, 55, 55.4]), tokens: ['NAN×1'] },
    },
  },
  'heading-is-numbers.csv': {
    headerLine: 1,
    time_s: seconds,
    channels: { '1': other(P), '2': other(T), '3': other([0.8, 0.8, 0.8, 0.8, 0.8, 0.8]) },
  },
  'units-before-their-values.csv': {
    channels: { Wert: { ...pressure('bar'), unitFrom: 'unit-column' }, 'Wert#2': oil() },
  },
  'blank-before-the-quote.csv': {
    delimiter: ',',
    time_s: seconds,
    channels: { 'P (psi)': pressure('psi'), 'T, oil (C)': oil() },
  },
  'sep-line-with-a-rare-mark.csv': {
    delimiter: '^',
    decimal: ',',
    headerLine: 2,
    time_s: [0, 1, 2, 3, 4],
    channels: {
      'Druck [bar]': pressure('bar', [28, 28.1, 28.2, 28.3, 28.4]),
      'Öl [°C]': oil('degC', [50.5, 51.5, 52.5, 53.5, 54.5]),
    },
  },
  'last-time-cut.csv': {
    time_s: [0, 1, 2],
    steps: [],
    skipped: ['5: the last line is cut short'],
  },
  // "2,830" twice a row says nothing; "50.5" once a row does, and "1,234.5" proves the rest.
  'more-groups-than-marks.csv': {
    decimal: '.',
    remarks: ['thousands-separators'],
    channels: {
      'p main (kPa)': { values: [2830, 2831, 2832, 2833, 2834, 1234.5] },
      'p back (kPa)': { values: [1200, 1201, 1202, 1203, 1204, 1205] },
      'oil (C)': oil('degC', [50.5, 51.5, 52.5, 53.5, 54.5, 55.5]),
    },
  },
  'thousands-with-blanks-not-proven.csv': {
    channels: {
      'p (kPa)': { values: ['faultToken', 'faultToken', 'faultToken', 'faultToken'] },
      'oil (C)': oil('degC', [50.5, 51.5, 52.5, 53.5]),
    },
  },
  'thousands-with-blanks-and-a-unit.csv': {
    decimal: ',',
    channels: {
      Druck: { ...pressure('mbar', [4100.5, 4101.5, 4102.5, 4103.5, 4104.5, 4105.5]), unitFrom: 'cell' },
    },
  },
  'stamps-of-a-console.txt': {
    headerLine: 2,
    form: 'time-of-day',
    start: '08:15:00.020',
    time_s: seconds,
    channels: { P_psi: pressure('psi'), oil_C: oil() },
  },
  'stamps-in-brackets.txt': {
    delimiter: ';',
    decimal: ',',
    start: '23:59:57',
    time_s: seconds,
    channels: { 'Druck [bar]': pressure('bar'), 'Öl [°C]': oil() },
  },
  'heading-repeated.csv': {
    time_s: [0, 1, 2, 3],
    skipped: ['4: the heading again'],
    remarks: ['heading-repeated'],
    channels: { p_psi: pressure('psi', [0.4, 120.5, 405.2, 410.1]) },
  },
  'another-heading.csv': {
    time_s: [0, 1],
    skipped: [
      '4: another heading: what follows may stand in other columns and is not read',
      '5: behind another heading in line 4',
    ],
    remarks: ['other-heading'],
    channels: { 'Pressure (psi)': pressure('psi', [0.4, 120.5]), 'Oil (degC)': oil('degC', [18.3, 20.1]) },
  },
  'summary-lines-at-the-end.csv': {
    time_s: seconds,
    skipped: [
      '9: no usable time: "Maximum"',
      '10: no usable time: "Average"',
      '11: no usable time: "END OF DATA"',
    ],
    channels: { 'Pressure (psi)': pressure('psi') },
  },
  'same-name-twice.csv': {
    candidates: [{ role: 'pressure', columns: ['P [psi]', 'P [psi]#2'] }],
    channels: {
      'P [psi]': { role: null, values: P },
      'P [psi]#2': { role: null, values: P.map((value) => Number((value + 1).toFixed(1))) },
      'Oil [degC]': oil(),
    },
  },
  'value-and-unit-columns.txt': {
    delimiter: '\t',
    decimal: ',',
    timeColumns: ['Date', 'Time'],
    start: '2026-03-04T08:15:00',
    channels: {
      No: { role: 'ignored', values: [1, 2, 3, 4, 5, 6] },
      Value: { ...pressure('psi'), unitFrom: 'unit-column' },
      T1: { role: 'oil-temperature', unit: 'degC', unitFrom: 'unit-column', values: T },
    },
  },
  'meter-that-changes-its-range.csv': {
    form: 'time-of-day',
    start: '08:15:00',
    channels: {
      Current: {
        unit: 'mA',
        decimals: null,
        values: [812, 998.5, 1021, 997, 'faultToken'],
        tokens: ['OL×1'],
      },
    },
  },
  'unit-in-the-cell.csv': {
    channels: {
      Line: { ...pressure('psi'), unitFrom: 'cell', decimals: 1 },
      Oil: { ...oil(), unitFrom: 'cell' },
    },
  },
  'no-heading.csv': {
    headerLine: null,
    timeColumns: ['column 2'],
    median_s: 60,
    start: '2026-03-04T08:15:00',
    remarks: ['sentinel'],
    channels: {
      'column 1': other(seconds),
      'column 3': other(P),
      'column 4': other(T),
      'column 5': other(seconds.map(() => 'outOfRange')),
    },
  },

  // Times without marks, parts of days, and what is no time
  'temperature-headed-t.csv': {
    rig: { time: { interval_s: 2 } },
    form: 'sample-number',
    time_s: [0, 2, 4, 6, 8, 10],
    channels: {
      T: { role: 'oil-temperature', unit: null, values: [18.3, 18.4, 18.4, 18.7, 19.1, 19.2] },
      'p (psi)': pressure('psi', [410, 410.1, 410.2, 410.3, 410.4, 410.5]),
    },
  },
  'uneven-seconds-headed-t.csv': {
    form: 'elapsed-seconds',
    time_s: [0, 0.5, 1.02, 1.51, 2, 2.55],
    remarks: ['time-unit-assumed'],
  },
  'temperature-in-brackets-is-no-time.csv': {
    rig: { time: { interval_s: 0.5 } },
    form: 'sample-number',
    time_s: [0, 0.5, 1, 1.5, 2, 2.5],
    channels: { 'p (psi)': pressure('psi'), 'T (C)': oil() },
  },
  'beyond-24-hours.csv': { form: 'elapsed-hms', time_s: [0, 1, 2, 3], skipped: [] },
  // Month first, the log would go back by 29 days; day first, it goes on after 30.
  'order-told-by-no-step-back.csv': { start: '2026-01-12T23:59:58', steps: [] },
  'two-numbers-a-time.csv': {
    form: 'elapsed-hms',
    time_s: seconds,
    remarks: ['time-parts-assumed'],
  },
  'two-numbers-beyond-a-day.csv': { form: 'elapsed-hms', time_s: [0, 30, 60, 90, 120, 150], remarks: [] },
  'elapsed-hours.csv': { form: 'elapsed-seconds', time_s: [0, 45, 90, 135, 180, 225], remarks: [] },
  'microseconds.csv': { form: 'elapsed-seconds', time_s: [0, 0.01, 0.02, 0.03, 0.04, 0.05], remarks: [] },
  'nanoseconds.csv': { form: 'elapsed-seconds', time_s: [0, 0.25, 0.5, 0.75, 1, 1.25], remarks: [] },
  'elapsed-days.csv': {
    form: 'elapsed-seconds',
    time_s: [0, 864, 1728, 2592, 3456, 4320],
    remarks: [],
  },
  'date-and-time-without-marks.csv': {
    form: 'date-time',
    start: '2026-03-04T08:15:57',
    time_s: seconds,
    remarks: [],
  },
  'time-without-marks.csv': {
    form: 'time-of-day',
    start: '2026-03-04T23:59:57',
    time_s: seconds,
    steps: [],
    remarks: [],
    channels: { 'P [bar]': pressure('bar') },
  },
  'time-without-marks-unpadded.csv': {
    form: 'time-of-day',
    start: '08:58:30',
    time_s: Array.from({ length: 14 }, (_, i) => 10 * i),
    remarks: [],
  },
  'compact-time-of-day.csv': {
    form: 'time-of-day',
    start: '08:15:54',
    time_s: seconds,
    remarks: [],
  },
  'fractions-of-a-day.csv': {
    form: 'spreadsheet-serial',
    start: '08:15:00',
    time_s: seconds,
    remarks: [],
  },
  'parts-of-a-day.csv': {
    form: 'spreadsheet-serial',
    start: '23:59:58',
    time_s: seconds,
    steps: [],
    remarks: [],
  },
  'seconds-from-1904.csv': {
    form: 'epoch-seconds',
    start: '2026-03-04T08:15:00.0Z',
    time_s: [0, 0.5, 1, 1.5, 2, 2.5],
    remarks: ['seconds-from-1904'],
  },
  'hundredths-behind-a-time.csv': {
    form: 'time-of-day',
    timeColumns: ['Time', '1/100 s'],
    time_s: [0, 0.25, 0.5, 0.75, 1, 1.25],
    remarks: [],
  },
  'epoch-with-microseconds.csv': {
    timeColumns: ['tv_sec', 'tv_usec'],
    time_s: [0, 0.25, 0.5, 0.75, 1, 1.25],
    remarks: [],
  },
  'blanks-in-the-date.csv': {
    start: '2026-03-13T08:15:00',
    time_s: seconds,
    channels: { 'Tlak [bar]': pressure('bar') },
  },
  'date-without-marks-time-with.csv': { start: '2026-03-04T08:15:00', time_s: seconds },
  'zone-in-brackets.csv': { start: '2026-03-04T08:15:00+01:00', time_s: seconds },
  'merged-heading-over-three-rows.csv': {
    form: 'elapsed-seconds',
    headerLine: 1,
    unitLine: 3,
    time_s: seconds,
    channels: {
      'Pressure Line': { role: null, unit: 'bar', values: P },
      'Pressure Return': { role: null, unit: 'bar' },
      'Temperature Oil': oil(),
      'Temperature Room': { role: 'ambient-temperature', unit: 'degC' },
    },
  },
  'units-above-the-names.csv': {
    form: 'elapsed-seconds',
    headerLine: 2,
    unitLine: 1,
    time_s: seconds,
    channels: { Press: { ...pressure('psi'), unitFrom: 'unit-row' }, Oil: oil() },
  },

  // Names and columns
  'reading-missing-between-blanks.txt': {
    time_s: [0, 1, 2, 4, 5],
    skipped: ['5: 2 fields where the others have 3: it may be cut'],
    channels: {
      p_psi: pressure('psi', [0.4, 120.5, 405.2, 411, 410.6]),
      oil_degC: oil('degC', [18.3, 20.1, 35.7, 55, 55.4]),
    },
  },
  'one-name-over-date-and-time.txt': {
    start: '2026-03-04T08:15:00',
    time_s: seconds,
    timeColumns: ['DateTime', 'column 2'],
    remarks: [],
    channels: { T_degC: oil(), P_psi: pressure('psi') },
  },
  'names-with-blanks.txt': {
    delimiter: ' ',
    time_s: seconds,
    remarks: [],
    channels: { 'Oil temp (deg C)': oil(), 'Line (psi)': pressure('psi') },
  },
  'names-with-commas.csv': {
    delimiter: ',',
    time_s: seconds,
    remarks: [],
    channels: { 'Line, psi': pressure('psi'), 'Oil, °C': oil() },
  },
  'rows-counted-without-a-name.csv': {
    time_s: seconds,
    timeColumns: ['Time'],
    remarks: ['heading-behind-the-count'],
    channels: { 'column 1': other([1, 2, 3, 4, 5, 6]), T_degC: oil(), P_psi: pressure('psi') },
  },
  'more-columns-than-names.csv': {
    time_s: seconds,
    remarks: ['heading-from-the-left'],
    channels: {
      T_degC: oil(),
      P_psi: pressure('psi'),
      'column 4': other([12, 12.1, 12.2, 12.3, 12.4, 12.5]),
    },
  },
  'more-columns-than-names.txt': {
    time_s: seconds,
    headerLine: null,
    remarks: ['heading-does-not-fit'],
    channels: {
      'column 2': other(T),
      'column 3': other(P),
      'column 4': other([12, 12.1, 12.2, 12.3, 12.4, 12.5]),
    },
  },
  'units-over-other-columns.txt': {
    time_s: seconds,
    remarks: [],
    channels: {
      T: { role: 'oil-temperature', unit: null, values: T },
      P: { role: 'pressure', unit: null, values: P },
    },
  },

  'unit-changes-under-another-heading.csv': {
    time_s: seconds,
    remarks: ['other-heading'],
    channels: { 'Pressure [bar]': pressure('bar', [28, 28.1, 28.2, 28.3, 28.4, 28.5]) },
  },
  'unit-row-changes.csv': {
    time_s: seconds,
    skipped: [
      '9: the heading again',
      '10: another heading: what follows may stand in other columns and is not read',
      '11: behind another heading in line 10',
      '12: behind another heading in line 10',
      '13: behind another heading in line 10',
    ],
    channels: { Pressure: pressure('bar', [28, 28.1, 28.2, 28.3, 28.4, 28.5]) },
  },
  'mark-of-the-encoding-in-mid-file.csv': {
    time_s: seconds,
    remarks: ['heading-repeated'],
    channels: { 'Pressure [psi]': pressure('psi') },
  },
  'longer-table-below.csv': {
    start: '08:15:10',
    headerLine: 5,
    remarks: ['table-above-not-read'],
    channels: { 'Pressure [psi]': pressure('psi') },
  },
  'statistics-at-the-end.csv': {
    time_s: seconds,
    steps: [],
    remarks: ['other-heading'],
    channels: { p_psi: pressure('psi'), oil_degC: oil() },
  },
  'milliamps-beside-the-clock.csv': {
    time_s: seconds,
    timeColumns: ['Time'],
    channels: {
      'Pressure psi': pressure('psi'),
      'Solenoid milliamps': { role: 'solenoid-current', unit: 'mA', values: [500, 501, 502, 500, 501, 502] },
    },
  },
  'times-of-two-parts.csv': { form: 'elapsed-hms', time_s: seconds, remarks: ['time-parts-assumed'] },
  'hours-and-minutes-by-the-heading.csv': { time_s: [0, 60, 120, 180, 240, 300], remarks: [] },
  'minutes-and-seconds-by-the-heading.csv': {
    form: 'elapsed-hms',
    time_s: [0, 60, 120, 180, 240, 300].map((at) => at / 60),
    remarks: [],
  },
  'absolute-in-words.csv': {
    remarks: ['absolute-pressure'],
    channels: { 'Absolute pressure [bar]': { role: 'pressure', unit: null }, 'Oil [°C]': oil() },
  },
  'temperature-that-rises-first.csv': {
    time_s: seconds,
    timeColumns: ['t'],
    channels: { 'T [°C]': oil(), 'P [psi]': pressure('psi') },
  },
  'least-and-greatest-temperature.csv': {
    time_s: seconds,
    timeColumns: ['Time'],
    channels: { 'T min': { values: T }, 'T max': { values: T }, P_psi: pressure('psi') },
  },
  'days-elapsed.csv': { time_s: [0, 0.9999936, 1.9999872, 2.9999808, 3.9999744, 4.999968], remarks: [] },
  'ten-times-the-unit.csv': { channels: { 'Pressure x10 [psi]': { role: 'pressure', unit: null } } },
  'setpoint-and-board.csv': {
    candidates: [],
    channels: {
      'Pressure [psi]': pressure('psi'),
      'Pressure setpoint [psi]': { role: null },
      'Board temp [°C]': { role: null, unit: 'degC' },
    },
  },
  'thousands-with-points-not-proven.csv': {
    channels: {
      'Druck [kPa]': { values: [998, 999, 'faultToken', 'faultToken', 999], tokens: ['1.000×1', '1.001×1'] },
    },
  },
  'mode-that-reads-as-noon.csv': {
    start: '2026-03-04T08:15:00',
    channels: { 'P [psi]': pressure('psi'), Mode: {} },
  },
  'thin-blank-before-am.csv': { start: '2026-03-14T20:15:00', time_s: seconds },
  'zone-as-gmt-and-hours.csv': { start: '2026-03-04T08:15:00+01:00', time_s: seconds },
  'direction-marks.csv': {
    start: '2026-03-04T08:15:00',
    time_s: seconds,
    channels: { 'P [psi]': pressure('psi') },
  },
  'heading-and-unit-row-differ.csv': {
    remarks: ['units-differ'],
    channels: { 'P [psi]': { role: 'pressure', unit: null }, 'T [°C]': oil() },
  },
  'unit-in-some-cells.csv': {
    remarks: ['unit-in-some-cells'],
    channels: { Line: { ...pressure('psi'), unitFrom: 'cell' } },
  },
  'each-channel-its-own-times.csv': {
    time_s: [0, 0.5, 1, 1.5, 2, 2.5],
    remarks: ['other-times-beside'],
    channels: { 'P [psi]': pressure('psi'), 'Time [s]#2': {}, 'T [°C]': oil() },
  },

  'day-numbers-above-a-summary.csv': {
    form: 'spreadsheet-serial',
    start: '2026-03-04T08:15:00',
    skipped: ['32: no usable time: "Average"'],
  },
  'day-numbers-above-counts.csv': {
    form: 'spreadsheet-serial',
    start: '2026-03-04T08:15:00',
    steps: [],
    remarks: ['time-out-of-line'],
  },
  'small-table-above-epochs.csv': {
    form: 'epoch-seconds',
    start: '2026-03-04T08:15:00Z',
    median_s: 1,
    gaps: [],
    remarks: ['time-out-of-line'],
  },
  'interval-stated-beside-t-oil.csv': {
    rig: { time: { interval_s: 0.5 } },
    form: 'sample-number',
    time_s: [0, 0.5, 1, 1.5, 2, 2.5],
    channels: { P_psi: pressure('psi'), 'T oil': { role: 'oil-temperature', unit: null, values: T } },
  },
  'settings-above-no-heading.csv': {
    headerLine: null,
    channels: { 'column 2': other(P), 'column 3': other(T) },
  },

  'hundredths-below-ten.csv': { time_s: [0, 0.03, 0.06, 1, 1.03, 1.06] },
  'time-of-day-with-milliseconds.csv': { form: 'time-of-day', time_s: [0, 0.5, 1, 1.5, 2, 2.5] },
  'created-beside-the-time.csv': { timeColumns: ['Time'], start: '2026-03-04T08:15:00', time_s: seconds },

  // Times
  'offset-changes-in-the-night.csv': {
    form: 'iso-8601',
    start: '2026-10-25T02:59:58+02:00',
    time_s: [0, 1, 2, 3],
    steps: [],
  },
  'offset-to-the-west.csv': { start: '2026-11-01T01:59:58-04:00', time_s: [0, 1, 2, 3], steps: [] },
  'month-first.csv': { start: '2026-03-14T08:15:00', time_s: [0, 1] },
  'day-or-month-first-untold.csv': { start: null, time_s: [0, 1], remarks: ['date-order-undecided'] },
  'order-told-by-midnight.csv': { start: '2026-03-04T23:59:59', time_s: [0, 1, 2], remarks: [] },
  'two-digit-years.csv': { start: '2026-03-04T23:59:59', time_s: [0, 1, 2], remarks: [] },
  'unpadded.csv': { form: 'date-time', start: '2026-03-04T08:05:09', time_s: [0, 1] },
  'month-names.csv': { form: 'date-time', start: '2026-03-04T08:15:00', time_s: [0, 1] },
  'twelve-hour-clock.csv': { start: '2026-03-14T11:59:59', time_s: [0, 1, 2, 1801] },
  'am-and-pm-in-a-column.csv': {
    start: '2026-03-14T11:59:59',
    timeColumns: ['Date', 'Time'],
    time_s: [0, 1, 2, 1802, 3602],
    channels: { 'Pressure (psi)': pressure('psi', [410.1, 410.2, 410.3, 410.3, 410.4]) },
  },
  'logger-started-again.csv': {
    headerLine: 3,
    time_s: [0, 1, 2, 3, 4],
    steps: [{ at_s: 2, step_s: -3, cuts: true }],
    skipped: ['7: no usable time: "Booting"', '8: no usable time: "sensor ok"', '9: the heading again'],
    remarks: ['clock-step-cuts', 'heading-repeated'],
    channels: { psi: pressure('psi', [0.5, 1.5, 2.5, 3.5, 4.5]), tempC: { unit: 'degC' } },
  },
  'blank-behind-the-comma.csv': {
    time_s: seconds,
    channels: { 'Pressure (psi)': pressure('psi'), 'Oil (degC)': oil() },
  },
  'time-before-date.csv': { timeColumns: ['Time', 'Date'], start: '2026-03-04T08:15:00', time_s: [0, 1] },
  'newest-first.csv': {
    start: '2026-03-04T08:15:00',
    time_s: [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12],
    steps: [],
    gaps: [],
    remarks: ['newest-first'],
    channels: {
      pressure_psi: pressure(
        'psi',
        [410, 410.1, 410.2, 410.3, 410.4, 410.5, 410.6, 410.7, 410.8, 410.9, 411, 411.1, 411.2],
      ),
    },
  },
  'newest-first-by-epoch.csv': {
    form: 'epoch-milliseconds',
    start: '2026-03-04T08:15:00.000Z',
    time_s: [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6],
    remarks: ['newest-first'],
  },
  'zone-by-name.csv': { start: '2026-03-04T08:15:00', time_s: [0, 1, 2], steps: [] },
  'hours-between-points.csv': { form: 'time-of-day', start: '08:14:58', time_s: [0, 1, 2] },
  'date-and-hours-between-points.csv': { form: 'date-time', time_s: [0, 1, 2] },
  'weekday-and-year-last.csv': { form: 'date-time', start: '2026-03-04T08:15:00', time_s: [0, 1, 2] },
  'months-in-other-languages.csv': { form: 'date-time', start: '2026-03-04T08:15:00', time_s: [0, 1, 2] },
  'days-and-hours-elapsed.csv': { form: 'elapsed-hms', time_s: [0, 1, 2] },
  'solenoid-in-words.csv': {
    channels: {
      pressure_psi: pressure('psi', [410, 410.1, 410.2, 410.3, 410.4]),
      solenoid: { role: 'solenoid-command', values: [0, 1, 1, 0, 'faultToken'], tokens: ['?×1'] },
    },
  },
  'off-is-no-zero-pressure.csv': {
    channels: {
      pressure_psi: pressure('psi', ['faultToken', 'faultToken', 410.2, 410.3]),
    },
  },
  // Over twelve hours back is a new day, under twelve a clock that was set.
  'over-midnight-after-a-pause.csv': {
    form: 'time-of-day',
    time_s: [0, 1, 2, 41400, 41401],
    gaps: [[2, 41400]],
    steps: [],
  },
  'set-back-by-eleven-hours.csv': {
    form: 'time-of-day',
    time_s: [0, 1, 2, 3, 4],
    steps: [{ at_s: 2, step_s: -39600, cuts: false }],
    remarks: ['clock-step-joined'],
  },
  'over-midnight.csv': { form: 'time-of-day', start: '23:59:58', time_s: [0, 1, 2, 3], steps: [] },
  'epoch-seconds.csv': { form: 'epoch-seconds', start: '2026-03-04T08:15:00Z', time_s: [0, 1, 2] },
  'epoch-milliseconds.csv': {
    form: 'epoch-milliseconds',
    start: '2026-03-04T08:15:00.000Z',
    time_s: [0, 0.5, 1],
  },
  'epoch-with-hundredths.csv': {
    form: 'epoch-seconds',
    timeColumns: ['POSIXt', 'frac.seconds'],
    time_s: [0, 0.25, 0.5, 0.75, 1],
    channels: { 'Pressure.mbar': pressure('mbar', [1029.3, 1029.6, 1029, 1028.5, 1029]) },
  },
  'elapsed-hours-minutes-seconds.csv': { form: 'elapsed-hms', start: null, time_s: [0, 0.5, 1, 90000.5] },
  'elapsed-minutes.csv': { form: 'elapsed-minutes', time_s: [0, 30, 60] },
  'milliseconds-counter-wraps.csv': {
    form: 'elapsed-seconds',
    time_s: [0, 1, 2, 3, 4, 5, 6, 7],
    steps: [],
    remarks: ['counter-wrapped'],
  },
  'spreadsheet-day-numbers.csv': {
    form: 'spreadsheet-serial',
    start: '2026-03-04T08:15:00',
    time_s: [0, 1, 2, 3, 4],
    channels: { 'Druck [bar]': pressure('bar', [27.5, 27.6, 27.7, 27.8, 27.9]) },
  },
  'sample-counter.csv': {
    rig: { time: { column: 'Sample', form: 'sample-number', interval_s: 0.1 } },
    form: 'sample-number',
    time_s: [0, 0.1, 0.2, 0.4],
    timeColumns: ['Sample'],
  },
  'readings-alone.txt': {
    rig: { time: { interval_s: 2 }, channels: [{ column: 'column 1', role: 'pressure', unit: 'psi' }] },
    form: 'sample-number',
    time_s: [0, 2, 4, 6],
    channels: { 'column 1': { ...pressure('psi', [410.1, 410.2, 410.3, 410.4]), unitFrom: 'rig' } },
  },
  'clock-set-back-an-hour.csv': {
    time_s: seconds,
    steps: [{ at_s: 2, step_s: -3600, cuts: false }],
    remarks: ['clock-step-joined'],
    gaps: [],
  },
  'clock-set-forward-an-hour.csv': {
    time_s: seconds,
    steps: [{ at_s: 2, step_s: 3600, cuts: false }],
    remarks: ['clock-step-joined'],
    gaps: [],
  },
  'clock-falls-to-its-default.csv': {
    time_s: seconds,
    steps: [{ at_s: 2, step_s: -825933596, cuts: true }],
    remarks: ['clock-step-cuts'],
  },
  'record-numbers-go-on-over-a-step.csv': {
    time_s: [0, 1, 2, 3, 4],
    steps: [{ at_s: 1, step_s: -1020.8, cuts: false }],
    remarks: ['clock-step-joined'],
  },
  'elapsed-beside-the-clock.csv': {
    form: 'elapsed-seconds',
    start: '2026-03-04T08:15:00',
    timeColumns: ['Elapsed (s)'],
    time_s: [0, 1, 2, 3],
    steps: [],
    channels: { 'Pressure (psi)': {} },
  },
  'gap.csv': { gaps: [[4, 9]], median_s: 1 },
  'same-time-twice.csv': { time_s: [0, 1, 1, 2], steps: [] },
  'no-such-date.csv': {
    time_s: [0, 2],
    skipped: ['3: no such date: "2026-02-31"'],
    channels: { 'Pressure (psi)': pressure('psi', [410.1, 410.3]) },
  },

  // Values
  'fault-tokens.csv': {
    channels: {
      p_psi: {
        values: [
          0.4,
          'faultToken',
          'faultToken',
          'faultToken',
          'faultToken',
          'faultToken',
          'faultToken',
          'missing',
          410.5,
        ],
        tokens: ['OL×2', '---×1', 'ERR×1', 'NaN×1', 'Open×1'],
      },
      oil_degC: { values: [18.3, 18.4, 18.5, 18.6, 'faultToken', 18.8, 18.9, 19, 19.1], tokens: ['#-1×1'] },
    },
  },
  'sentinels.csv': {
    remarks: ['sentinel', 'sentinel', 'sentinel'],
    channels: {
      p_psi: { values: [410, 410.1, 'outOfRange', 410.3, 410.4, 'outOfRange', 410.6, 410.7] },
      oil_degC: { values: [55, 'outOfRange', 55.2, 55.3, 'outOfRange', 55.5, 'outOfRange', 55.7] },
      spare: { values: Array.from({ length: 8 }, () => 'outOfRange') },
    },
  },
  'sentinel-below-a-wide-range.csv': {
    remarks: ['sentinel'],
    channels: {
      'P (kPa)': { values: [0, 480, 960, 'outOfRange', 1920, 'outOfRange', 2880] },
      'n (rpm)': {},
      T_degC: { values: [-30, 21, 22, 23, 24, 25, 26] },
    },
  },
  'nines-beside-their-like.csv': {
    remarks: [],
    channels: { 'Druck [kPa]': { values: [998, 999, 998, 999, 999] } },
  },
  'sentinel-once-is-a-reading.csv': {
    remarks: [],
    channels: { p_psi: pressure('psi', [410, 410.1, 9999.9, 410.3, 410.4]) },
  },
  'last-whole-number-cut.csv': {
    remarks: ['last-reading-left-out'],
    channels: { p_mbar: { values: [28, 28, 28, 'missing'] } },
  },
  'solenoid-that-says-nothing.csv': {
    channels: { p_psi: pressure('psi', [410, 411, 412]), Solenoid: { role: null } },
  },
  'lone-nines-are-a-reading.csv': { remarks: [], channels: { p_kPa: { values: [9998, 9999, 9999, 10000] } } },
  'exponents-and-signs.csv': {
    channels: {
      p_psi: { decimals: null, values: [410.1, 410.2, 410, 4.5, 'faultToken'], tokens: ['1e999×1'] },
      oil_degC: { decimals: null, values: [-18.3, -0.5, 0.25, 0.001, 2] },
    },
  },
  'unicode-minus.csv': {
    decimal: ',',
    channels: { p_bar: { values: [-0.02, -0.03, 0.01] }, oil_degC: { values: [-4.5, -4.4, -4.3] } },
  },
  'minus-in-other-letters.csv': {
    decimal: ',',
    channels: { p_bar: { values: [-0.02, -0.03, -0.01] }, oil_degC: { values: [-4.5, -4.4, -4.3] } },
  },
  'sixteen-digits.csv': {
    // As Number() rounds them, once and to nearest.
    channels: { p_psi: { values: [410.1234567890123, 0.1, 9007199254740992, 123456789012345.6] } },
  },
  'signal-4-20-mA.csv': {
    rig: {
      channels: [
        { column: 'AI0 [mA]', role: 'pressure', unit: 'psi', signal: { kind: '4-20mA', low: 0, high: 600 } },
      ],
    },
    remarks: ['signal-faults'],
    channels: {
      'AI0 [mA]': {
        role: 'pressure',
        unit: 'psi',
        unitFrom: 'rig',
        decimals: null,
        values: [0, 300, 600, 'outOfRange', 'outOfRange', -3.75],
      },
      oil_degC: { role: 'oil-temperature' },
    },
  },
  'signal-half-to-four-and-a-half-volts.csv': {
    rig: {
      channels: [
        { column: 'A0 [V]', role: 'pressure', unit: 'psi', signal: { kind: '0.5-4.5V', low: 0, high: 500 } },
        { column: 'A1 [V]', role: 'ignored' },
      ],
    },
    form: 'elapsed-seconds',
    time_s: [0, 0.1, 0.2, 0.3, 0.4],
    channels: {
      'A0 [V]': { role: 'pressure', unit: 'psi', values: [0, 250, 500, 'outOfRange', 'outOfRange'] },
      'A1 [V]': { role: 'ignored', unit: 'V' },
    },
  },
  'power-cut.csv': {
    time_s: [0, 1],
    skipped: ['4: the last line is cut short'],
    channels: { p_psi: pressure('psi', [410.1, 410.2]), oil_degC: oil('degC', [61.5, 61.5]) },
  },
  'last-reading-cut.csv': {
    time_s: [0, 1, 2],
    remarks: ['last-reading-left-out'],
    channels: {
      oil_degC: oil('degC', [61.5, 61.5, 61.5]),
      p_psi: pressure('psi', [410.1, 410.25, 'missing']),
    },
  },
  'last-line-without-end.csv': {
    time_s: [0, 1, 2],
    remarks: [],
    channels: { oil_degC: oil('degC', [61.5, 61.5, 61.5]), p_psi: pressure('psi', [410.1, 410.2, 410.3]) },
  },
  'row-cut-in-the-middle.csv': {
    time_s: [0, 2, 3, 5],
    skipped: ['3: 2 fields where the others have 3: it may be cut', '6: 5 fields where the others have 3'],
    channels: {
      p_psi: pressure('psi', [410.1, 410.3, 410.4, 410.5]),
      oil_degC: oil('degC', [61.5, 61.5, 61.5, 61.5]),
    },
  },
  'two-pressures.csv': {
    candidates: [{ role: 'pressure', columns: ['Line pressure [psi]', 'Pump pressure [psi]'] }],
    channels: {
      'Line pressure [psi]': { role: null, unit: 'psi' },
      'Pump pressure [psi]': { role: null, unit: 'psi' },
      'Oil [degC]': oil(),
    },
  },
  'absolute-pressure.csv': {
    remarks: ['absolute-pressure'],
    channels: { 'Pressure [psia]': { role: 'pressure', unit: null }, 'Oil [degC]': oil() },
  },
  'pressure-without-unit.csv': {
    channels: {
      Pressure: { role: 'pressure', unit: null, unitFrom: null },
      Temperature: { role: 'oil-temperature', unit: null },
    },
  },
  // The clock in several columns, or without marks
  'year-to-second-in-columns.csv': {
    form: 'date-time',
    start: '2026-03-04T23:59:57',
    time_s: seconds,
    remarks: [],
    timeColumns: ['Year', 'Month', 'Day', 'Hour', 'Min', 'Sec'],
    channels: { 'P [psi]': pressure('psi'), 'Oil [°C]': oil() },
  },
  'year-to-milliseconds-in-columns.csv': {
    form: 'date-time',
    start: '2026-03-04T08:15:00.000',
    time_s: halves,
    remarks: [],
    channels: { 'Druck [psi]': pressure('psi'), 'Öl [°C]': oil() },
  },
  'day-of-year-in-columns.csv': { start: '2026-03-04T08:15:00.0', time_s: halves, remarks: [], channels: PT },
  'hour-minute-second-in-columns.csv': {
    form: 'time-of-day',
    start: '08:00:00',
    median_s: 1,
    remarks: [],
    timeColumns: ['Hour', 'Minute', 'Second'],
    channels: { p_psi: { role: 'pressure' } },
  },
  'hours-minutes-seconds-in-columns.csv': {
    form: 'date-time',
    start: '2026-03-04T08:15:00',
    median_s: 1,
    remarks: [],
    channels: { 'P [psi]': { role: 'pressure' } },
  },
  'parts-of-an-elapsed-time.csv': {
    form: 'elapsed-hms',
    start: null,
    time_s: [0, 0.25, 0.5, 0.75, 1, 1.25],
    remarks: [],
    channels: PT,
  },
  'hours-and-minutes-without-marks.csv': {
    form: 'date-time',
    start: '2026-03-04T09:30:00',
    time_s: minutes,
    remarks: [],
    channels: PT,
  },
  'hours-and-minutes-without-marks-assumed.csv': {
    start: '2026-03-04T10:30:00',
    time_s: minutes,
    remarks: ['time-parts-assumed'],
    channels: PT,
  },
  'six-digit-dates.csv': { start: '2026-03-04T23:59:57', time_s: seconds, remarks: [], channels: PT },
  'six-digit-dates-untold.csv': {
    start: null,
    time_s: seconds,
    remarks: ['date-order-undecided'],
    channels: PT,
  },
  'week-dates.csv': { start: '2026-03-04T08:15:00', time_s: seconds, remarks: [], channels: PT },
  'ordinal-dates.csv': { start: '2026-03-04T08:15:00', time_s: seconds, remarks: [], channels: PT },
  'year-or-day-first-untold.csv': {
    start: null,
    time_s: seconds,
    remarks: ['date-order-undecided'],
    channels: PT,
  },
  'year-first-told-by-midnight.csv': {
    start: '2026-03-04T23:59:57',
    time_s: seconds,
    remarks: [],
    channels: PT,
  },
  'order-said-by-the-heading.csv': {
    start: '2026-03-04T08:15:00',
    time_s: seconds,
    remarks: [],
    channels: PT,
  },
  'two-parts-from-noon.csv': {
    form: 'time-of-day',
    start: '12:10:00',
    time_s: minutes,
    remarks: ['time-parts-assumed'],
    channels: PT,
  },
  'two-parts-beyond-23.csv': {
    form: 'elapsed-hms',
    start: null,
    time_s: seconds,
    steps: [],
    remarks: [],
    channels: PT,
  },
  'day-numbers-before-2000.csv': {
    form: 'spreadsheet-serial',
    start: '1998-03-04T08:15:00',
    remarks: ['day-numbers-before-2000'],
    channels: PT,
  },
  'guarded-as-text.csv': { start: '2026-03-04T08:15:00', time_s: seconds, remarks: [], channels: PT },
  'exponents-with-d.csv': {
    time_s: seconds,
    channels: {
      'P [psi]': { ...pressure('psi'), tokens: [] },
      'Oil [degC]': oil('degC', [18.3, 20.1, 35.7, 48.2, -55, 55.4]),
    },
  },
  'wide-digits.csv': {
    start: '08:15:00',
    time_s: seconds,
    channels: { '圧力 [psi]': pressure('psi', [0.4, 120.5, 405.2, 410.1, 411, -410.6]), '油温 [°C]': oil() },
  },
  'minus-behind-the-number.csv': {
    remarks: ['minus-behind-numbers'],
    channels: {
      'P [psi]': pressure('psi', ['faultToken', 120.5, 405.2, 410.1, 411, 410.6]),
      'Oil [degC]': oil(),
    },
  },
  // Odd logs that opened wrongly once
  'hours-and-minutes-unpadded.csv': {
    start: '2026-03-14T08:15:00',
    time_s: minutes,
    remarks: ['time-parts-assumed'],
    channels: PT,
  },
  'year-and-day-of-year.csv': { start: '2026-03-14T08:15:00', time_s: minutes, remarks: [], channels: PT },
  'seconds-beside-hours-and-minutes.csv': {
    start: '2026-03-14T08:15:57',
    time_s: seconds,
    remarks: [],
    channels: PT,
  },
  'seconds-beside-date-and-minutes.csv': {
    start: '2026-03-14T08:15:57',
    time_s: seconds,
    remarks: [],
    channels: PT,
  },
  'fraction-behind-a-comma.csv': {
    start: '2026-03-14T08:15:00.000',
    time_s: halves,
    remarks: ['fraction-behind-a-comma'],
    channels: PT,
  },
  'whole-minutes-beside-a-finer-time.csv': {
    start: '2026-03-14T08:15:00',
    time_s: seconds,
    remarks: [],
    channels: PT,
  },
  'start-in-every-row.csv': {
    form: 'elapsed-seconds',
    start: '2026-03-14T08:15:00',
    time_s: seconds,
    remarks: ['time-unit-assumed'],
    channels: PT,
  },
  'date-in-the-first-row-alone.csv': {
    start: '2026-03-14T08:15:00',
    time_s: seconds,
    skipped: [],
    remarks: [],
    channels: PT,
  },
  'minutes-in-the-cells.csv': { form: 'elapsed-minutes', time_s: minutes, remarks: [], channels: PT },
  'milliseconds-in-the-cells.csv': {
    form: 'elapsed-seconds',
    time_s: [0, 0.25, 0.5, 0.75, 1, 1.25],
    remarks: [],
    channels: PT,
  },
  'uptime-with-days.csv': { form: 'elapsed-hms', time_s: seconds, remarks: [], channels: PT },
  'spanish-halves-of-the-day.csv': { start: '20:15:00', time_s: seconds, remarks: [], channels: PT },
  'hexadecimal-numbers.csv': {
    remarks: ['hexadecimal-numbers'],
    channels: {
      'P psi': pressure(
        'psi',
        Array.from({ length: 6 }, () => 'faultToken'),
      ),
      T: { role: 'oil-temperature', unit: null },
    },
  },
  'thousands-with-points-twice.csv': {
    decimal: ',',
    remarks: ['thousands-separators'],
    channels: { 'P [Pa]': pressure('Pa', [2757, 830727, 2826540, 2827100, 2828000, 2826999]) },
  },
  'most-rows-without-a-time.csv': {
    time_s: [0, 1, 2],
    remarks: ['most-rows-left-out'],
    channels: { 'P [psi]': { role: 'pressure' }, 'Oil [degC]': { role: 'oil-temperature' } },
  },
  // Columns whose names or cells are like those of a clock, beside the true one
  'run-hours-beside-a-time.csv': {
    form: 'time-of-day',
    start: '08:15:00',
    time_s: seconds,
    timeColumns: ['Time'],
    channels: { Hours: { role: null }, Minutes: { role: null }, ...PT },
  },
  'seconds-beside-a-shift.csv': {
    form: 'elapsed-seconds',
    start: null,
    time_s: seconds,
    timeColumns: ['Time (s)'],
    channels: PT,
  },
  'lengths-of-time-beside-a-clock.csv': {
    start: '2026-03-14T08:15:00',
    time_s: seconds,
    timeColumns: ['Date', 'Time'],
    remarks: [],
    channels: { 'Cycle time': { role: null }, ...PT },
  },
  'run-time-in-four-digits.csv': {
    form: 'elapsed-seconds',
    time_s: seconds,
    timeColumns: ['Run time'],
    remarks: ['time-unit-assumed'],
    channels: PT,
  },
  'job-numbers-like-dates.csv': {
    start: '08:15:00',
    time_s: seconds,
    timeColumns: ['Time'],
    remarks: ['dates-not-said'],
    channels: PT,
  },
  'versions-like-dates.csv': {
    start: '2026-03-14T08:15:00',
    time_s: seconds,
    timeColumns: ['Date', 'Time'],
    remarks: [],
    channels: PT,
  },
  'calibrated-on-another-day.csv': {
    start: '08:15:00',
    time_s: seconds,
    timeColumns: ['Time'],
    channels: PT,
  },
  'date-of-a-lot-beside-a-time.csv': {
    start: '08:15:00',
    time_s: seconds,
    remarks: [],
    channels: { 'Lot date': { role: null }, ...PT },
  },
  'seconds-counted-beside-minutes.csv': {
    form: 'elapsed-seconds',
    time_s: [0, 10, 20, 30, 40, 50],
    timeColumns: ['Seconds'],
    channels: PT,
  },
  'seconds-counted-beside-stamps.csv': {
    start: '2026-03-14T08:15:00',
    time_s: [0, 10, 20, 30, 40, 50],
    timeColumns: ['Seconds'],
    channels: PT,
  },
  'seconds-counted-over-midnight.csv': {
    form: 'elapsed-seconds',
    time_s: [0, 10, 20, 30, 40, 50],
    timeColumns: ['Seconds'],
    channels: PT,
  },
  'milliseconds-beside-a-time-from-zero.csv': {
    form: 'elapsed-hms',
    time_s: halves,
    timeColumns: ['Time', 'ms'],
    remarks: [],
    channels: PT,
  },
  'parts-elapsed-beside-minutes.csv': {
    form: 'elapsed-hms',
    time_s: [0, 20, 40, 60, 80, 100],
    timeColumns: ['h', 'min', 's'],
    channels: PT,
  },
  'whole-hours-beside-a-time.csv': {
    start: '08:00:00',
    time_s: [0, 600, 1200, 1800, 2400, 3000],
    timeColumns: ['Time'],
    channels: { Hours: { role: null }, ...PT },
  },
  'version-with-two-points.csv': {
    decimal: '.',
    channels: {
      Version: { role: null },
      'P [psi]': pressure('psi', [401.125, 402.125, 403.125, 404.125, 405.125, 406.125]),
      'Oil [degC]': oil('degC', [55.25, 56.25, 57.25, 58.25, 59.25, 60.25]),
    },
  },
  'fault-code-like-a-hexadecimal.csv': {
    remarks: [],
    channels: {
      RPM: {
        role: 'shaft-speed',
        tokens: ['F012×2'],
        values: [1800, 1801, 1802, 'faultToken', 'faultToken', 1805, 1806, 1807, 1808, 1809, 1810, 1811],
      },
      'P [psi]': { role: 'pressure' },
      'Oil [degC]': { role: 'oil-temperature' },
    },
  },
  'time-left-beside-seconds.csv': {
    form: 'elapsed-seconds',
    time_s: [0, 10, 20, 30, 40, 50],
    steps: [],
    channels: PT,
  },
  'seconds-that-are-a-reading.csv': {
    start: '2026-03-14T08:15:00',
    time_s: minutes,
    timeColumns: ['Stamp'],
    channels: { s: other([0.42, 0.39, 0.51, 0.44, 0.4, 0.41]), ...PT },
  },
  'least-and-mean-by-the-hour.csv': {
    form: 'elapsed-seconds',
    time_s: [0, 3600, 7200, 10800, 14400, 18000],
    timeColumns: ['Hours'],
    channels: { Min: { role: null }, Avg: { role: null }, ...PT },
  },
  'date-and-minutes-without-marks-and-seconds.csv': {
    start: '2026-03-14T08:15:57',
    time_s: seconds,
    timeColumns: ['Date (ddmmyy)', 'Time (hhmm)', 'Sec'],
    remarks: [],
    channels: PT,
  },
  'start-time-beside-a-count.csv': { time_s: seconds, timeColumns: ['Time'], channels: PT },
  'garbled-time-without-marks.csv': {
    start: '2026-03-14T09:50:00',
    time_s: [0, 60, 120, 180, 240, 360, 420, 480, 540, 600, 660],
    remarks: [],
  },
  'whole-psi-under-a-short-heading.csv': {
    start: '08:15:00',
    time_s: seconds,
    remarks: ['heading-from-the-left'],
    channels: { 'P [psi]': pressure('psi', [400, 401, 402, 403, 404, 405]), 'column 3': { role: null } },
  },
  'milliseconds-that-begin-again.csv': {
    start: '08:15:00.000',
    median_s: 0.1,
    steps: [],
    timeColumns: ['Time', 'ms'],
  },
};

/** Files that are no log, or cannot be read without a word from a person. */
export const refusals: Record<
  string,
  {
    rig?: Partial<Rig>;
    code: Problem['code'];
    saying?: string;
  }
> = {
  'decimal-commas-between-commas.csv': { code: 'no-table', saying: 'decimal commas between commas' },
  'decimal-commas-now-and-then.csv': { code: 'no-table', saying: 'decimal commas between commas' },
  'sentences-with-a-number.txt': { code: 'no-table', saying: 'event log' },
  'event-log.txt': { code: 'no-table', saying: 'event log' },
  'console-capture.txt': { code: 'no-table', saying: 'console' },
  'console-capture-with-a-count.txt': { code: 'no-table', saying: 'console' },
  'count-that-runs-down.csv': { code: 'time-runs-down', saying: 'newest' },
  'serial-numbers-like-microseconds.csv': { code: 'no-usable-time' },
  'date-and-hundredths-in-sixteen-digits.csv': {
    code: 'no-usable-time',
    saying: '"Timestamp" holds digits that look like a date and a time',
  },
  'litres-like-julian-days.csv': { code: 'no-usable-time' },
  'steps-like-dates-without-year.csv': { code: 'no-usable-time' },
  'time-in-a-form-unknown.csv': {
    code: 'no-usable-time',
    saying: '"Time" holds a form of time that is not known here ("+00000T")',
  },
  'temperature-headed-small-t.csv': { code: 'no-usable-time', saying: 'numbers without a unit of time' },
  'time-in-a-unit-unknown.csv': {
    code: 'no-usable-time',
    saying: '"t [ticks]" holds numbers in a unit that is not known as one of time',
  },
  'least-and-greatest-by-the-hour.csv': { code: 'no-usable-time' },
  'hundreds-beside-a-date.csv': { code: 'no-usable-time', saying: 'dates without a time of day' },
  'hours-point-minutes.csv': {
    code: 'no-usable-time',
    saying: 'hours and minutes as well as hours ("8.15")',
  },
  'date-and-time-in-twelve-digits.csv': { code: 'no-usable-time', saying: 'twelve digits' },
  'hours-and-minutes-without-date.csv': { code: 'no-usable-time', saying: 'rig file' },
  'picture.csv': { code: 'no-table', saying: 'not text' },
  'only-a-heading.csv': { code: 'no-readings' },
  'empty.csv': { code: 'empty-file' },
};
