/* oxlint-disable max-lines -- a language is one file */
import type { ChartWords } from '#drawing/chart-words.ts';
import { criterionNames } from '#formats/criterion-names.ts';
import type { Phrases } from './phrases.ts';

const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];
function dateInWords(isoDate: string): string {
  const [year = '', month = '', day = ''] = isoDate.split('-');
  return `${Number(day)} ${months[Number(month) - 1] ?? month} ${year}`;
}
const countWords = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine', 'Ten'];
const countWord = (count: number): string => countWords[count] ?? String(count);
const at = (clock: string | null): string => (clock === null ? '' : ` ${clock}`);
const unitOfAxis = { s: 'Seconds', min: 'Minutes', h: 'Hours' };

const chart: ChartWords = {
  wholeRunFromZero: (to, unit) => `Whole run from zero: 0 to ${to} ${unit}`,
  oneMillimetreIs: (amount) => `1 mm = ${amount}`,
  millimetresAre: (millimetres, time) => `${millimetres} mm = ${time}`,
  enlargedBelow: (from, to) => ['this part enlarged', `below: ${from} to ${to}`],
  engaged: (clock) => `engaged${at(clock)}`,
  released: (clock) => `released${at(clock)}`,
  engagements: (count) => `engaged ${count} times`,
  noReadings: (duration) => [`no readings, ${duration}`, duration],
  aboveThePane: (pressure, cold) => `${cold ? 'cold: ' : ''}up to ${pressure}`,
  belowThePane: (pressure, cold) => `${cold ? 'cold: ' : ''}down to ${pressure}`,
  spikesSetAside: (count) => `set aside: ${count} ${count === 1 ? 'spike' : 'spikes'}`,
  pressureAxis: (unit) => `pressure, ${unit} (gauge)`,
  oilAxis: (unit) => `oil, ${unit}`,
  startsAt: (figure) => ['starts at', `${figure}, not 0`],
  warmingUp: ['warming up, not judged', 'warming up', 'cold'],
  judged: (duration, warm) => [
    ...(warm ? [`warm and steady: judged, ${duration}`] : []),
    `judged, ${duration}`,
    'judged',
  ],
  notJudged: ['not judged'],
  oilWhileJudged: (temperature) => [`oil ${temperature} while judged`, `oil ${temperature}`],
  warmFrom: (temperature) => `warm from ${temperature}`,
  warmUpTo: (temperature) => `at most ${temperature}`,
  hoursSinceEngaging: (unit, charged) => `${unitOfAxis[unit]} since ${charged ? 'charging' : 'engaging'}`,
  hoursSinceFirstReading: (unit) => `${unitOfAxis[unit]} since the first reading`,
  started: (time, date) => `(started ${time}${date === null ? '' : ` on ${date}`})`,
  atFullSize: (pane, time, oil) =>
    `Printed at full size, 1 mm = ${pane} in the large pane, ${time}${oil === null ? '' : `, 1 mm = ${oil}`}.`,
  upperLimit: (value) => `upper limit ${value}`,
  lowerLimit: (value) => `lower limit ${value}`,
  passUpTo: (value) => `pass up to ${value}`,
  passFrom: (value) => `pass from ${value}`,
  average: (value) => `average ${value}`,
  gaugeNotStated: ['gauge uncertainty', 'not stated'],
  noClearPart: 'no clear part left',
  noAverage: ['no average:', 'not assessed'],
  grey: 'grey: lowest to highest reading',
  smoothedLine: (method, window) =>
    `black line: ${window} ${{ median: 'median', mean: 'mean', 'savitzky-golay': 'polynomial', none: '' }[method]}`,
  firstTest: 'first test',
  reTest: 're-test',
  stopped: 'stopped',
  shims: 'shims',
  stack: (from, to) => ['stack', `${from} to`, to],
  notLikeForLike: ['not like', 'for like'],
  dateInWords,
  timeUnit: { s: 's', min: 'min', h: 'h' },
};

const few = (count: number): string => (countWords[count] ?? String(count)).toLowerCase();
export const english: Phrases = {
  chart,
  sentence: (text) => text,
  chartTitle: (logName) => `Bench run${logName === null ? '' : ` ${logName}`}`,
  dateInWords,
  title: 'Delivery record',
  subtitle: 'Hydraulic overdrive unit: bench test after rebuild',
  record: (number) => `Record ${number}`,
  recordWord: 'Record',
  issued: (date) => `issued ${date}`,
  inPlaceOf: (number) => `in place of ${number}`,
  verdict: { pass: 'pass', fail: 'fail', undecided: 'undecided', 'not-assessed': 'not assessed' },
  criteria: {
    ...criterionNames,
    'time-in-band': { plain: 'time within the limits', engineer: 'time in band' },
    settling: { plain: 'time until steady', engineer: 'settling' },
    'hold-temperature': { plain: 'oil temperature', engineer: 'hold temperature' },
    'engagement-rise': { plain: 'time to engage', engineer: 'rise on engaging' },
    'fall-after-release': { plain: 'time to release', engineer: 'fall after release' },
    'leak-down': { plain: 'pressure kept after stopping', engineer: 'leak-down to half' },
    'solenoid-current': { plain: 'solenoid current', engineer: 'solenoid current, highest' },
  },
  facts: {
    unit: 'Unit',
    serial: 'Serial number',
    cameIn: 'Came in',
    customer: 'Customer',
    rebuiltBy: 'Rebuilt by',
    testedOn: 'Tested on',
  },
  sameReason: 'for the same reason',
  between: (low, high) => `${low} to ${high}`,
  atMost: (limit) => `at most ${limit}`,
  atLeast: (limit) => `at least ${limit}`,
  upOrDown: (allowed) => `${allowed}, up or down`,
  up: (size) => `${size} up`,
  down: (size) => `${size} down`,
  table: {
    tested: 'What was tested',
    allowed: 'Allowed',
    found: 'Found',
    foundAgainstAllowed: 'Found against allowed (hatched: not allowed)',
    result: 'Result',
  },
  moreMet: (count, name, page) =>
    count === 1
      ? `One more limit, ${name}, was met: page ${page}.`
      : `${countWord(count)} more limits were met: page ${page}.`,
  moreRows: (count, page) =>
    `${countWord(count)} more ${count === 1 ? 'limit is' : 'limits are'} listed on page ${page}.`,
  headline: {
    passed: 'The unit met every limit of the test.',
    passedAfter: (count) =>
      `After ${few(count)} ${count === 1 ? 'adjustment' : 'adjustments'} the unit met every limit.`,
    failed: (count, clause) =>
      `${countWord(count)} ${count === 1 ? 'limit was' : 'limits were'} not met: ${clause}.`,
    gaugeTooCoarse: 'Undecided: the gauge is too coarse to tell.',
    tooNear: 'Undecided: too near to the limit to tell.',
    tooNearNamed: (name) => `Undecided: ${name} is too near to its limit to tell.`,
    notAssessed: (reason) => `Not assessed: ${reason}.`,
    notAssessedNamed: (count, name) =>
      count === 1
        ? `Not assessed: ${name}.`
        : `${countWord(count)} limits were not assessed: ${name} and ${count === 2 ? 'one other' : 'others'}.`,
    noLimits: 'Not assessed: no limit was set.',
  },
  failure: {
    pressure: (size, high) => `the pressure is ${size} too ${high ? 'high' : 'low'}`,
    timeInBand: (share) => `the pressure was within the limits for only ${share} of the time`,
    drift: (size) => `the pressure changed by ${size} while warm`,
    settling: (duration) =>
      duration === null ? 'the pressure never became steady' : `it took ${duration} to become steady`,
    runLength: (duration) => `the run lasted only ${duration}`,
    oil: (size, hot) => `the oil was ${size} too ${hot ? 'hot' : 'cold'}`,
    coverage: (share) => `only ${share} of the run is on record`,
    other: (name, found, allowed) => `${name} was ${found}, allowed is ${allowed}`,
  },
  body: {
    firstTest: (average, place) =>
      `In the first test the pressure averaged ${average}${place === null ? '' : `, which is ${place}`}.`,
    firstTestPlace: (size, above) => `${size} ${above ? 'above the upper' : 'below the lower'} limit`,
    changedShims: (change, added) =>
      `We ${added ? 'added' : 'took out'} ${change} of shims under the relief spring`,
    ran: (duration, speed, again) =>
      again
        ? ` and tested again for ${duration}${speed === null ? '' : ` at ${speed}`}.`
        : `We ran the rebuilt unit on the bench for ${duration}${speed === null ? '' : ` at ${speed}`}.`,
    warmAfter: (duration, oil) => `After ${duration} it was ${oil ? 'warm and ' : ''}steady.`,
    judgedFrom: (duration) =>
      `It was judged from ${duration} on; the pressure was not at rest the whole time.`,
    averaged: (duration, value, uncertainty) => [
      { text: `From then on, for ${duration}, the oil pressure that works the clutch averaged ` },
      { text: value, strong: true },
      { text: uncertainty === null ? '.' : `, give or take ${uncertainty}.` },
    ],
    hasToBe: (allowed) => `It has to be ${allowed}`,
    hasToLie: (low, high) => `It has to lie between ${low} and ${high}`,
    withRoom: (both) =>
      both ? ', and it does so with room to spare on both sides.' : ', and it is, with room to spare.',
    within: (both) => (both ? ', and it does.' : ', and it is.'),
    upperLimitIs: (limit) => `The upper limit is ${limit}.`,
    lowerLimitIs: (limit) => `The lower limit is ${limit}.`,
    couldBeOut: (uncertainty) =>
      `, but the figure can be out by ${uncertainty} either way, and that reaches beyond a limit.`,
    othersMet: (count) => (count === 1 ? 'The other limit was met.' : 'The other limits were met.'),
    stillRunning: 'The run was still going on when this was made.',
    gaugeNotStated: 'How good the gauge is was not stated.',
    concession: (page) =>
      `The unit goes out with this known and agreed (concession, page ${page}); the agreement does not turn the result into a pass.`,
    notReleased: 'It has not been released.',
    releasedWithoutConcession: 'It was released without a concession on record.',
    alsoNotMet: (name, found, allowed) => `${name}: ${found}, allowed is ${allowed}.`,
    because: (name, reason) => `${name}: ${reason}.`,
    noOilTemperature: 'The oil temperature was not recorded.',
    nothingEngaged: 'The log shows no engagement, so nothing could be judged.',
  },
  howToRead: {
    judged:
      'How to read it: where the bar below the large pane is black, the black line should run between the two thick lines, clear of the hatching. The cold start is shown but not judged.',
    column: 'The average, in the column at the right, passes in the clear part.',
    notJudged:
      'How to read it: the large pane shows a part of the strip above it, enlarged. Nothing of this run was judged.',
    noLimits:
      'How to read it: the large pane shows a part of the strip above it, enlarged. No limits were set.',
  },
  oilNotice: {
    drained: 'NO OIL IN THIS UNIT.',
    fill: 'Fill it before it turns, as the unit’s workshop manual says.',
    filled: (quantity, grade) => `Filled with ${quantity === null ? '' : `${quantity} of `}${grade}.`,
    keep: (page) =>
      page === null
        ? 'Keep this record with the unit.'
        : `Keep this record with the unit. Page ${page} has room for later readings; they show whether it has changed.`,
  },
  footer: (number, serial) =>
    `${number === null ? 'Delivery record' : `Delivery record ${number}`}. Relates only to the unit tested${serial === null ? '' : `, serial ${serial}`}. Copy it whole or not at all.`,
  page: (number, of) => `page ${number} of ${of}`,
  endOfRecord: 'end of record',
  engineer: {
    head: 'For the engineer.',
    tested: (serial, date) =>
      `Overdrive unit${serial === null ? '' : ` ${serial}`}${date === null ? '' : `, tested ${date}`}`,
  },
  sections: {
    criteria: 'Criteria',
    budget: 'Uncertainty of the operating pressure',
    setAside: 'Readings set aside',
    remarks: 'Deviations and remarks',
    instruments: 'Instruments',
    method: 'How it was worked out',
    relief: 'Relief setting',
    work: 'Work on the unit',
    concession: 'Concession. The verdict stays:',
    fitter: 'For the fitter',
    later: 'Later readings (they compare only at like oil, shaft speed and oil temperature)',
    release: 'Log and release',
    howToRead: 'How to read the chart on page 1',
  },
  criteriaTable: {
    criterion: 'Criterion',
    allowed: 'Allowed',
    found: 'Found',
    uncertainty: 'U',
    rule: 'Decision rule',
    chance: 'Chance that it conforms',
    verdict: 'Verdict',
  },
  notUsed: 'not used',
  rules: { guarded: 'guarded', simple: 'simple' },
  ruleSentence: {
    guarded:
      'Guarded: pass only if the value lies inside the limits by at least U; fail only if outside by more than U; between, undecided.',
    guardedFactor: (factor) =>
      `Guarded: pass only if the value lies inside the limits by at least ${factor} U; fail only if outside by more than ${factor} U; between, undecided.`,
    simple: 'Simple: inside is a pass.',
    uncertainty: (coverage) => `U is the expanded uncertainty at about ${coverage}.`,
  },
  limitsFrom: (source) => `Limits: ${source}.`,
  shownUnits: {
    band: (allowed, shown) => `Stated and judged as ${allowed}; shown in ${shown}.`,
    pressure: (from, to) => `1 ${from} = ${to}.`,
    temperature: (from, to) => `Temperatures are judged in ${from} and shown in ${to}.`,
  },
  noSource: 'Limits: where they come from is not stated.',
  chance: { almostSure: 'more than 0.9999', almostNone: 'less than 0.0001' },
  budget: {
    heading: (unit) => `Uncertainty of the operating pressure, ${unit}`,
    columns: { source: 'Source', type: 'Type', size: 'Size', takenAs: 'Taken as', u: 'u' },
    sources: {
      scatter: 'Scatter of the readings',
      accuracy: 'Gauge, accuracy',
      resolution: 'Display step',
      calibration: 'Calibration',
      zero: 'Zero',
      temperature: 'Temperature',
    },
    distributions: {
      rectangular: 'rectangular',
      normal: 'normal',
      triangular: 'triangular',
      arcsine: 'arcsine',
      t: 'readings',
    },
    combined: (u, k, degrees) =>
      `Combined u = ${u}; k = ${k}${degrees === null ? '' : ` (${degrees} degrees of freedom)`}; `,
    expanded: (U) => `U = ${U}`,
    none: (reason) =>
      reason === null ? 'No uncertainty could be given.' : `No uncertainty could be given: ${reason}.`,
  },
  setAside: {
    columns: { why: 'Why', count: 'Count', rule: 'Rule' },
    why: {
      missing: 'Missing',
      faultToken: 'Fault token',
      outOfRange: 'Out of range',
      stuck: 'Stuck',
      spike: 'Spike (× in the chart)',
    },
    whyPlain: {
      missing: 'missing',
      faultToken: 'fault token',
      outOfRange: 'out of range',
      stuck: 'stuck',
      spike: 'spike',
    },
    rule: {
      missing: 'empty cell',
      faultToken: 'not a number',
      outOfRange: 'beyond the range',
      stuck: 'one value for over 60 s',
      spike: 'over 6 × scaled MAD',
    },
    used: (used, of) => `${used} of ${of} pressure readings used.`,
    noneOf: (names) =>
      `${names.join(', ').replace(/^./, (first) => first.toUpperCase())}: 0${names.length > 1 ? ' each' : ''}.`,
    otherChannel: (column, used, of) => `${column}: ${used} of ${of} used.`,
    gaps: (count) => (count === 1 ? 'One gap' : `${countWord(count)} gaps`),
    gap: (duration, from, to) => (from === null || to === null ? duration : `${duration}, ${from} to ${to}`),
    noGap: 'No gap.',
    notBridged: 'not bridged.',
    moreGaps: (count) => `and ${count} more`,
    coverage: (share) => `Record coverage ${share}.`,
    skippedRows: (count) => `${countWord(count)} ${count === 1 ? 'row' : 'rows'} could not be read.`,
  },
  remarks: {
    notPart: 'Not part of this test: driving load, gear noise, fit in the vehicle.',
    criterion: (name, verdict, reason) => `${name}: ${verdict}. ${reason}.`,
    choice: (what, from, to, by, on, why) =>
      `Set by hand: ${what}${from === null ? '' : `, from ${from}`}${to === null ? '' : ` to ${to}`} (${by}${on === null ? '' : `, ${on}`}): ${why}`,
    choiceKinds: {
      'join-engagements': 'engagements joined',
      'gap-not-clock-step': 'a jump of the clock taken as a gap',
      'hold-start': 'start of the judged part',
      'hold-end': 'end of the judged part',
      'leave-out': 'a part left out',
    },
    stillRunning: 'The run was still going on when this was made: the verdict may change.',
    replaces: (number, reason) => `This record replaces record ${number}: ${reason}.`,
    leftOut: (sections) => `Left out of this record: ${sections.join('; ')}.`,
    lettersMissing: (letters) => `Letters that this type does not hold are printed as “?”: U+${letters}.`,
    clockStep: (size, at) => `The logger’s clock jumped by ${size} after ${at}.`,
    stoppedBefore: (name) => `${name} is shown in the chart and counted.`,
  },
  instruments: {
    columns: { instrument: 'Instrument', range: 'Range, accuracy', calibrated: 'Calibrated', due: 'Due' },
    roles: {
      pressure: 'Pressure',
      'oil-temperature': 'Oil probe',
      'ambient-temperature': 'Room probe',
      'shaft-speed': 'Shaft speed',
      'solenoid-current': 'Solenoid current',
      'solenoid-command': 'Solenoid command',
      flow: 'Flow',
    },
    notSet: 'not set',
    none: 'Instruments and their calibration: not stated.',
    ofSpan: 'Accuracy in per cent of range.',
    ofReading: (percent) => `${percent} of reading`,
    interval: (interval, column) =>
      `One reading each ${interval}${column === null ? '' : `; pressure from column “${column}”`}.`,
  },
  method: {
    labels: {
      smoothing: 'Smoothing',
      judged: 'Judged part',
      settled: 'Settled means',
      drift: 'Drift',
      bench: 'Bench',
      oil: 'Oil',
      zero: 'Zero at rest',
      behaviour: 'Engagements',
    },
    smoothing: (method, window) =>
      method === 'none'
        ? 'none'
        : `${{ median: 'running median', mean: 'running mean', 'savitzky-golay': 'Savitzky–Golay' }[method]}, ${window}`,
    judged: (from, to) => `${from} to ${to} of the log`,
    settled: (tolerance) => `stays within ${tolerance} of the final value`,
    drift: 'robust slope of block medians',
    zero: (value, subtracted) => `${value}, ${subtracted ? 'subtracted' : 'not subtracted'}`,
    ambient: (text) => `room ${text}`,
    drained: 'drained',
    leftIn: 'left in the unit',
    joined: (count) => `${count} joined into one run`,
  },
  relief: {
    columns: { step: 'Step', shims: 'Shims, mm', pressure: 'Pressure', verdict: 'Verdict' },
    asFound: 'As found',
    asLeft: 'As left',
    after: (number) => `After step ${number}`,
    notRecorded: 'not recorded',
  },
  work: {
    done: 'Done: ',
    renewed: 'Renewed: ',
    condition: 'Condition on receipt: ',
    notes: 'Notes: ',
    warranty: 'Terms: ',
  },
  concession: {
    heading: 'Concession. The verdict stays:',
    delivered: (what) => `${what}: delivered as it is.`,
    reason: 'Reason: ',
    agreedBy: 'agreed by (customer), name',
    signature: 'signature',
    date: 'date',
  },
  fitter: [
    'The unit’s workshop manual and the local rules come first; this record replaces neither.',
    'The oil passages hold pressure after the shaft stops. Release it as the manual says before opening a plug or fitting a gauge.',
    'Fill with the oil that the manual names, prime, and check the level before the first drive.',
  ],
  fitterSolenoid: (current) =>
    `The solenoid drew up to ${current} on the bench; wiring, fuse and switch as the manual says.`,
  later: {
    heading: 'Later readings (they compare only at like oil, shaft speed and oil temperature)',
    columns: {
      date: 'Date',
      distance: 'Distance or hours',
      pressure: 'Pressure',
      oil: 'Oil',
      speed: 'Shaft speed',
      gauge: 'Gauge',
      readBy: 'Read by',
    },
    atDelivery: 'at delivery',
    thisRecord: 'this record',
  },
  release: {
    log: (name, rows, firstTest) =>
      `${firstTest === null ? '' : firstTest ? 'First test: ' : 'Re-test: '}${name}, ${rows} rows.`,
    part: (name) => `Part ${name}.`,
    hash: (hash) => `SHA-256 ${hash}.`,
    assessmentHash: (hash) => `Assessment: SHA-256 ${hash}.`,
    attached: 'The log is attached to this file; the hash shows if a copy is the same.',
    contact: 'Questions: ',
    workedOutBy: (version) => `Worked out by overdrive-bench ${version}.`,
    notAttached: 'The log is kept apart from this file; the hash shows if a copy is the same.',
    code: 'The square code holds record number and hash of the log.',
    by: 'tested and released by, name',
    signature: 'signature',
    date: 'date',
  },
  alt: {
    chart: (pressureUnit, oilUnit, charged) =>
      `Line chart of oil pressure in ${pressureUnit}${oilUnit === null ? '' : ` and oil temperature in ${oilUnit}`} against time since ${charged ? 'charging' : 'engaging'}.`,
    firstTest: (text, step) => `First test: ${text} Then ${step}. Re-test:`,
    startsHigh: 'Pressure starts high while cold.',
    settles: (duration) => `It settles within ${duration}.`,
    stays: (value, duration) => `It averages ${value} for ${duration} while judged.`,
    limits: (low, high) =>
      low !== null && high !== null
        ? `Limits ${low} and ${high}.`
        : low === null
          ? `Upper limit ${high ?? ''}.`
          : `Lower limit ${low}.`,
    noReadings: (duration, after) => `No readings for ${duration} after ${after}.`,
    beyond: (text) => `Readings beyond the pane: ${text}.`,
    oil: (mean) => `Oil ${mean} while judged.`,
    notJudged: 'Nothing of it was judged.',
    figures: 'All figures are in the tables.',
    strip: (name, found, allowed, verdict) => `${name}: ${found}, allowed ${allowed}: ${verdict}`,
    code: 'Square code with record number and hash of the log',
    logo: (shop) => (shop === null ? 'Logo of the shop' : `Logo of ${shop}`),
  },
};
