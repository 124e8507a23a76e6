/* oxlint-disable max-lines -- a language is one file */
import type { ChartWords } from '#drawing/chart-words.ts';
import type { Phrases } from './phrases.ts';
import { saidIn, type Saying } from './said-in.ts';

/** German, as proof that a language is one file. */

const months = [
  'Januar',
  'Februar',
  'März',
  'April',
  'Mai',
  'Juni',
  'Juli',
  'August',
  'September',
  'Oktober',
  'November',
  'Dezember',
];
function dateInWords(isoDate: string): string {
  const [year = '', month = '', day = ''] = isoDate.split('-');
  return `${Number(day)}. ${months[Number(month) - 1] ?? month} ${year}`;
}
/** Feminine, as "Grenze", "Einstellung", "Lücke" ask for. */
const countWords = [
  'Keine',
  'Eine',
  'Zwei',
  'Drei',
  'Vier',
  'Fünf',
  'Sechs',
  'Sieben',
  'Acht',
  'Neun',
  'Zehn',
];
const countWord = (count: number): string => countWords[count] ?? String(count);
const at = (clock: string | null): string => (clock === null ? '' : ` ${clock}`);
const unitOfAxis = { s: 'Sekunden', min: 'Minuten', h: 'Stunden' };

const chart: ChartWords = {
  wholeRunFromZero: (to, unit) => `Ganzer Lauf ab null: 0 bis ${to} ${unit}`,
  oneMillimetreIs: (amount) => `1 mm = ${amount}`,
  millimetresAre: (millimetres, time) => `${millimetres} mm = ${time}`,
  enlargedBelow: (from, to) => ['dieser Teil unten', `größer: ${from} bis ${to}`],
  engaged: (clock) => `ein${at(clock)}`,
  released: (clock) => `aus${at(clock)}`,
  engagements: (count) => `${count}-mal eingerückt`,
  noReadings: (duration) => [`keine Werte, ${duration}`, duration],
  aboveThePane: (pressure, cold) => `${cold ? 'kalt: ' : ''}bis ${pressure}`,
  belowThePane: (pressure, cold) => `${cold ? 'kalt: ' : ''}bis hinab auf ${pressure}`,
  spikesSetAside: (count) => `ausgesondert: ${count} ${count === 1 ? 'Spitze' : 'Spitzen'}`,
  pressureAxis: (unit) => `Druck, ${unit} (Überdruck)`,
  oilAxis: (unit) => `Öl, ${unit}`,
  startsAt: (figure) => ['beginnt bei', `${figure}, nicht 0`],
  warmingUp: ['warmlaufen, nicht beurteilt', 'warmlaufen', 'kalt'],
  judged: (duration, warm) => [
    ...(warm ? [`warm und ruhig: beurteilt, ${duration}`] : []),
    `beurteilt, ${duration}`,
    'beurteilt',
  ],
  notJudged: ['nicht beurteilt'],
  oilWhileJudged: (temperature) => [`Öl ${temperature}, beurteilt`, `Öl ${temperature}`],
  warmFrom: (temperature) => `warm ab ${temperature}`,
  warmUpTo: (temperature) => `höchstens ${temperature}`,
  hoursSinceEngaging: (unit, charged) =>
    `${unitOfAxis[unit]} seit dem ${charged ? 'Druckaufbau' : 'Einrücken'}`,
  hoursSinceFirstReading: (unit) => `${unitOfAxis[unit]} seit dem ersten Wert`,
  started: (time, date) => `(Beginn ${time}${date === null ? '' : ` am ${date}`})`,
  atFullSize: (pane, time, oil) =>
    `In voller Größe: 1 mm = ${pane} im großen Feld, ${time}${oil === null ? '' : `, 1 mm = ${oil}`}.`,
  upperLimit: (value) => `obere Grenze ${value}`,
  lowerLimit: (value) => `untere Grenze ${value}`,
  passUpTo: (value) => `gut bis ${value}`,
  passFrom: (value) => `gut ab ${value}`,
  average: (value) => `Mittel ${value}`,
  gaugeNotStated: ['Unsicherheit', 'nicht angegeben'],
  noClearPart: 'kein freier Teil',
  noAverage: ['kein Mittel:', 'nicht beurteilt'],
  grey: 'grau: kleinster bis größter Wert',
  smoothedLine: (method, window) =>
    `schwarz: ${{ median: 'Median', mean: 'Mittel', 'savitzky-golay': 'Polynom', none: '' }[method]} über ${window}`,
  firstTest: 'erster Test',
  reTest: 'zweiter Test',
  stopped: 'Halt',
  shims: 'Scheiben',
  stack: (from, to) => ['Paket', `${from} auf`, to],
  notLikeForLike: ['nicht', 'vergleichbar'],
  dateInWords,
  timeUnit: { s: 's', min: 'min', h: 'h' },
};

/** The sentences of the assessment; slots as `saidIn` has them. The first that fits is taken. */
const sayings: readonly Saying[] = [
  ['{q1} to {q2}', '{q1} bis {q2}'],
  ['at most {q1}', 'höchstens {q1}'],
  ['at least {q1}', 'mindestens {q1}'],
  ['at most {q1} up or down', 'höchstens {q1} auf oder ab'],
  ['band {c1}', 'Band {c1}'],
  ['allowed {c1}', 'erlaubt {c1}'],
  ['no limit', 'keine Grenze'],
  ['{q1} up', '{q1} aufwärts'],
  ['{q1} down', '{q1} abwärts'],
  // Where a value lies.
  ['on the limit', 'auf der Grenze'],
  ['{q1} above the band', '{q1} über dem Band'],
  ['{q1} below the band', '{q1} unter dem Band'],
  ['{q1} inside the band', '{q1} innerhalb des Bandes'],
  ['{q1} above the range', '{q1} über dem Bereich'],
  ['{q1} below the range', '{q1} unter dem Bereich'],
  ['{q1} inside the range', '{q1} innerhalb des Bereichs'],
  ['{q1} above the limit', '{q1} über der Grenze'],
  ['{q1} below the limit', '{q1} unter der Grenze'],
  ['{q1} clear of the limit', '{q1} Abstand zur Grenze'],
  ['clear of the nearer limit by {q1}', '{q1} Abstand zur näheren Grenze'],
  ['clear of the limit by {q1}', '{q1} Abstand zur Grenze'],
  ['{c1}, but the gauge is only sure to {q1}', '{c1}, aber das Messgerät ist nur auf {q1} sicher'],
  ['{c1}, and the gauge is only sure to {q1}', '{c1}, und das Messgerät ist nur auf {q1} sicher'],
  ['{c1}, but the reading is only sure to {q1}', '{c1}, aber der Wert ist nur auf {q1} sicher'],
  ['{c1}, and the reading is only sure to {q1}', '{c1}, und der Wert ist nur auf {q1} sicher'],
  [
    '{c1}, but the rule asks for {q1} ({q2} times the uncertainty) to be sure',
    '{c1}, aber die Regel verlangt {q1} (das {q2}-Fache der Unsicherheit), um sicher zu sein',
  ],
  [
    '{c1}, and the rule asks for {q1} ({q2} times the uncertainty) to be sure',
    '{c1}, und die Regel verlangt {q1} (das {q2}-Fache der Unsicherheit), um sicher zu sein',
  ],
  // What was found.
  ['the oil averaged {q1} over the hold', 'das Öl hatte während der Haltezeit im Mittel {q1}'],
  ['the highest pressure was {q1}', 'der höchste Druck betrug {q1}'],
  ['the released pressure was {q1}', 'der Druck in ausgerücktem Zustand betrug {q1}'],
  ['the highest solenoid current was {q1}', 'der höchste Magnetstrom betrug {q1}'],
  ['the pressure trembled by {q1} from peak to peak', 'der Druck zitterte um {q1} von Spitze zu Spitze'],
  ['the engagements ended within {q1} of each other', 'die Einrückungen endeten höchstens {q1} auseinander'],
  ['the pressure rose in {q1}', 'der Druck stieg in {q1}'],
  ['the pressure dipped by {q1}', 'der Druck brach um {q1} ein'],
  ['the pressure was back after {q1}', 'der Druck war nach {q1} wieder da'],
  ['the pressure fell in {q1}', 'der Druck fiel in {q1}'],
  [
    'the pressure took {q1} to fall to half after stopping',
    'der Druck brauchte nach dem Halt {q1} bis auf die Hälfte',
  ],
  ['the unit ran {q1}', 'das Gerät lief {q1}'],
  ['{q1} of the run is on record', '{q1} des Laufs sind aufgezeichnet'],
  [
    '{c1} in the worst of {q1} engagements (number {q2}, at {q3} of the log)',
    '{c1} bei der schlechtesten von {q1} Einrückungen (Nummer {q2}, bei {q3} der Aufzeichnung)',
  ],
  [
    '{c1} in the worst of {q1} engagements (number {q2}, at {q3} of the log, {q4} could not be measured)',
    '{c1} bei der schlechtesten von {q1} Einrückungen (Nummer {q2}, bei {q3} der Aufzeichnung, {q4} nicht messbar)',
  ],
  [
    '{c1} ({q1} of {q2} engagements, {q3} could not be measured)',
    '{c1} ({q1} von {q2} Einrückungen, {q3} nicht messbar)',
  ],
  ['{c1}, exactly the {q1} asked for', '{c1}, genau die verlangten {q1}'],
  ['{c1}, exactly the {q1} allowed', '{c1}, genau die erlaubten {q1}'],
  ['{c1}, {q1} more than the {q2} allowed', '{c1}, {q1} mehr als die erlaubten {q2}'],
  ['{c1}, more than the {q1} allowed', '{c1}, mehr als die erlaubten {q1}'],
  ['{c1}, within the {q1} allowed', '{c1}, innerhalb der erlaubten {q1}'],
  ['{c1}, {q1} short of the {q2} asked for', '{c1}, {q1} weniger als die verlangten {q2}'],
  ['{c1}, short of the {q1} asked for', '{c1}, weniger als die verlangten {q1}'],
  ['{c1}, at least {q1} asked for', '{c1}, verlangt sind mindestens {q1}'],
  // Change over the hold.
  ['the pressure did not move over the hold', 'der Druck änderte sich über die Haltezeit nicht'],
  ['the pressure fell by {q1} over the hold', 'der Druck fiel über die Haltezeit um {q1}'],
  ['the pressure rose by {q1} over the hold', 'der Druck stieg über die Haltezeit um {q1}'],
  ['{c1} (between {c2} and {c3})', '{c1} (zwischen {c2} und {c3})'],
  [
    '{c1}, too wide a range to tell from the {q1} allowed',
    '{c1}, eine zu weite Spanne, um sie von den erlaubten {q1} zu unterscheiden',
  ],
  ['{c1}, against the {q1} allowed', '{c1}, gegen die erlaubten {q1}'],
  // Time within the limits.
  [
    'the pressure was never inside the band during the hold',
    'der Druck lag während der Haltezeit nie im Band',
  ],
  ['the pressure was inside the band for the whole hold', 'der Druck lag die ganze Haltezeit im Band'],
  ['the pressure was inside the band for {q1} of the hold', 'der Druck lag {q1} der Haltezeit im Band'],
  ["the gauge's {q1}", '{q1} (Messgerät)'],
  ["the resolution's {q1}", '{q1} (Auflösung)'],
  [
    '{c1}, and for {q1} of it even with the limits drawn in by {c2}, {q2} asked for',
    '{c1}, und {q1} davon selbst mit um {c2} engeren Grenzen, verlangt sind {q2}',
  ],
  [
    '{c1}, even with the limits drawn in by {c2}, {q2} asked for',
    '{c1}, selbst mit um {c2} engeren Grenzen, verlangt sind {q2}',
  ],
  [
    '{c1}, and only for {q1} of it even with the limits pushed out by {c2}, {q2} asked for',
    '{c1}, und nur {q1} davon selbst mit um {c2} weiteren Grenzen, verlangt sind {q2}',
  ],
  [
    '{c1}, even with the limits pushed out by {c2}, {q2} asked for',
    '{c1}, selbst mit um {c2} weiteren Grenzen, verlangt sind {q2}',
  ],
  [
    '{c1}, but that may be anything from {q1} to {q2} with {c2}, {q3} asked for',
    '{c1}, das können aber mit {c2} zwischen {q1} und {q2} sein, verlangt sind {q3}',
  ],
  ['{c1}, {q1} asked for', '{c1}, verlangt sind {q1}'],
  ['{c1}, {q1} allowed', '{c1}, erlaubt sind {q1}'],
  // Bounds.
  ['the pressure fell within {q1}', 'der Druck fiel innerhalb von {q1}'],
  ['the pressure rose within {q1}', 'der Druck stieg innerhalb von {q1}'],
  [
    '{c1}, inside the {q1} allowed; too few readings to say more',
    '{c1}, innerhalb der erlaubten {q1}; für mehr sind es zu wenige Werte',
  ],
  [
    '{c1}, but the readings are too far apart to tell whether it kept the {q1} allowed',
    '{c1}, aber die Werte liegen zu weit auseinander, um zu sagen, ob er die erlaubten {q1} einhielt',
  ],
  [
    'the pressure was still above half of what it was {q1} after stopping',
    'der Druck war {q1} nach dem Halt noch über der Hälfte von vorher',
  ],
  [
    'the pressure had not fallen to a tenth {q1} later',
    'der Druck war {q1} später nicht auf ein Zehntel gefallen',
  ],
  [
    "the pressure stood at the end of the gauge's range: at least {q1}",
    'der Druck stand am Ende des Messbereichs: mindestens {q1}',
  ],
  [
    'the solenoid current stood at the end of its range: at least {q1}',
    'der Magnetstrom stand am Ende seines Messbereichs: mindestens {q1}',
  ],
  [
    'the oil temperature stood at the end of its range, or beyond it, for {q1} of the hold',
    'die Öltemperatur stand für {q1} der Haltezeit am Ende ihres Messbereichs oder darüber hinaus',
  ],
  [
    'the solenoid current stood at the end of its range ({q1}): how high it went is not known',
    'der Magnetstrom stand am Ende seines Messbereichs ({q1}): Wie hoch er ging, ist nicht bekannt',
  ],
  [
    "the pressure stood at the end of the gauge's range ({q1}): how high it went is not known",
    'der Druck stand am Ende des Messbereichs ({q1}): Wie hoch er ging, ist nicht bekannt',
  ],
  [
    '{c1}, where the rule asks for {q1} ({q2} times the uncertainty)',
    '{c1}, wo die Regel {q1} verlangt (das {q2}-Fache der Unsicherheit)',
  ],
  [
    'no engagement was found: without a solenoid channel a unit that holds its charge shows one only by a dip, and a quick dip falls between two readings',
    'keine Einrückung gefunden: Ohne Magnetkanal zeigt ein Gerät, das seine Ladung hält, sie nur durch einen Einbruch, und ein schneller Einbruch fällt zwischen zwei Werte',
  ],
  ['the pressure was not back {q1} later', 'der Druck war {q1} später nicht wieder da'],
  // Settling.
  [
    'the pressure settled within {q1} of its final value after {q2}',
    'der Druck kam nach {q2} innerhalb von {q1} um seinen Endwert zur Ruhe',
  ],
  ['the pressure settled after {q1}', 'der Druck kam nach {q1} zur Ruhe'],
  [
    'the pressure never stayed within {q1} of its final value in {q2}',
    'der Druck blieb in {q2} nie innerhalb von {q1} um seinen Endwert',
  ],
  [
    'the pressure never stayed within {q1} of its final value',
    'der Druck blieb nie innerhalb von {q1} um seinen Endwert',
  ],
  ['the pressure never stayed in {q1}', 'der Druck blieb in {q1} nie stehen'],
  ['the pressure never stayed', 'der Druck blieb nie stehen'],
  [
    'the run ended after {q1}, before the pressure had settled and before the {q2} allowed were over',
    'der Lauf endete nach {q1}, bevor der Druck zur Ruhe kam und bevor die erlaubten {q2} um waren',
  ],
  [
    'the run ended, before the pressure had settled and before the {q1} allowed were over',
    'der Lauf endete, bevor der Druck zur Ruhe kam und bevor die erlaubten {q1} um waren',
  ],
  [
    'the pressure has not settled yet after {q1}, {q2} allowed; the run is still going on',
    'der Druck ist nach {q1} noch nicht zur Ruhe gekommen, erlaubt sind {q2}; der Lauf dauert noch an',
  ],
  [
    'the pressure has not settled yet, {q1} allowed; the run is still going on',
    'der Druck ist noch nicht zur Ruhe gekommen, erlaubt sind {q1}; der Lauf dauert noch an',
  ],
  ['so far: {c1}; the run is still going on', 'bis jetzt: {c1}; der Lauf dauert noch an'],
  ['{c1} so far, {c2}; the run is still going on', '{c1} bis jetzt, {c2}; der Lauf dauert noch an'],
  // Not assessed.
  ['this log does not show it', 'diese Aufzeichnung zeigt es nicht'],
  [
    'the rule needs the uncertainty of the reading, and there is none',
    'die Regel braucht die Unsicherheit des Werts, und es gibt keine',
  ],
  [
    'the rule needs the uncertainty of the reading, and there is none: {c1}',
    'die Regel braucht die Unsicherheit des Werts, und es gibt keine: {c1}',
  ],
  [
    'the rule needs an interval for the change over the hold, and there is none',
    'die Regel braucht ein Intervall für die Änderung über die Haltezeit, und es gibt keines',
  ],
  [
    'the hold has only {q1} valid reading; to pass needs {q2}',
    'die Haltezeit hat nur {q1} gültigen Wert; zum Bestehen braucht es {q2}',
  ],
  [
    'the hold has only {q1} valid readings; to pass needs {q2}',
    'die Haltezeit hat nur {q1} gültige Werte; zum Bestehen braucht es {q2}',
  ],
  ['the hold lasted {q1}; to pass needs {q2}', 'die Haltezeit dauerte {q1}; zum Bestehen braucht es {q2}'],
  [
    'the hold has only {q1} valid reading; an uncertainty needs {q2}',
    'die Haltezeit hat nur {q1} gültigen Wert; eine Unsicherheit braucht {q2}',
  ],
  [
    'the hold has only {q1} valid readings; an uncertainty needs {q2}',
    'die Haltezeit hat nur {q1} gültige Werte; eine Unsicherheit braucht {q2}',
  ],
  [
    'only {q1} of {q2} equal parts of the hold are at least half recorded; an uncertainty needs {q3}',
    'nur {q1} von {q2} gleichen Teilen der Haltezeit sind mindestens zur Hälfte aufgezeichnet; eine Unsicherheit braucht {q3}',
  ],
  ['no engagement in this log', 'keine Einrückung in dieser Aufzeichnung'],
  ['there is no engagement in this log', 'in dieser Aufzeichnung gibt es keine Einrückung'],
  [
    'there is no engagement in this log, and no shaft speed',
    'in dieser Aufzeichnung gibt es keine Einrückung und keine Drehzahl',
  ],
  ['there is no engagement of {q1} or more', 'es gibt keine Einrückung von {q1} oder mehr'],
  [
    'there is only one engagement with a plateau: no spread to tell',
    'es gibt nur eine Einrückung mit ruhigem Ende: keine Streuung zu nennen',
  ],
  [
    'there is no run to judge in this log',
    'in dieser Aufzeichnung gibt es keinen Lauf, der sich beurteilen lässt',
  ],
  ['there is no run', 'es gibt keinen Lauf'],
  ['there is no hold', 'es gibt keine Haltezeit'],
  ['no band was given', 'es war kein Band vorgegeben'],
  ['the pressure column has no usable reading', 'die Druckspalte hat keinen brauchbaren Wert'],
  [
    'the pressure never rose: there is no engagement in this log',
    'der Druck stieg nie: In dieser Aufzeichnung gibt es keine Einrückung',
  ],
  [
    'the oil never reached operating temperature: cold is not a result',
    'das Öl erreichte nie Betriebstemperatur: Kalt ist kein Ergebnis',
  ],
  [
    'the oil never reached operating temperature (no oil temperature): cold is not a result',
    'das Öl erreichte nie Betriebstemperatur (keine Öltemperatur): Kalt ist kein Ergebnis',
  ],
  ['the oil never reached operating temperature', 'das Öl erreichte nie Betriebstemperatur'],
  ['nothing of the run is left as a hold', 'vom Lauf bleibt keine Haltezeit übrig'],
  ['the hold has no valid reading', 'die Haltezeit hat keinen gültigen Wert'],
  ['the hold is shorter than {q1}', 'die Haltezeit ist kürzer als {q1}'],
  [
    'the hold gives only {q1} block medians; a drift needs {q2}',
    'die Haltezeit gibt nur {q1} Blockmediane; eine Drift braucht {q2}',
  ],
  ['the block medians of the hold give no line', 'die Blockmediane der Haltezeit geben keine Gerade'],
  ['too few blocks for an interval of the slope', 'zu wenige Blöcke für ein Intervall der Steigung'],
  [
    'the pressure left the tolerance in the last tenth of the run: it never settled',
    'der Druck verließ die Toleranz im letzten Zehntel des Laufs: Er kam nie zur Ruhe',
  ],
  ['the pressure never came within tolerance', 'der Druck kam nie in die Toleranz'],
  [
    'the clock jumped by no whole number of hours, so how long the unit ran in all is not known; the longest part was judged',
    'die Uhr sprang nicht um ganze Stunden, daher ist nicht bekannt, wie lange das Gerät im Ganzen lief; beurteilt wurde der längste Teil',
  ],
  ['the run is a single reading', 'der Lauf ist ein einziger Wert'],
  ['there are not three pressure readings together', 'es gibt keine drei Druckwerte hintereinander'],
  ['the log has no oil temperature', 'die Aufzeichnung hat keine Öltemperatur'],
  [
    'the oil temperature has no valid reading in the hold',
    'die Öltemperatur hat in der Haltezeit keinen gültigen Wert',
  ],
  ['the log has no shaft speed', 'die Aufzeichnung hat keine Drehzahl'],
  ['the log has no solenoid current', 'die Aufzeichnung hat keinen Magnetstrom'],
  ['the solenoid current has no unit of current', 'der Magnetstrom hat keine Einheit eines Stroms'],
  [
    'the solenoid current has no valid reading while engaged',
    'der Magnetstrom hat in eingerücktem Zustand keinen gültigen Wert',
  ],
  [
    'the log has no shaft speed: when the shaft stopped is not known',
    'die Aufzeichnung hat keine Drehzahl: Wann die Welle stand, ist nicht bekannt',
  ],
  [
    'the pressure was released with the stop, or gone by the first reading after it: that is no leak-down that could be timed',
    'der Druck wurde mit dem Halt abgelassen oder war beim ersten Wert danach schon weg: Ein Abfall, den man stoppen könnte, ist das nicht',
  ],
  ['the shaft did not stop with pressure up', 'die Welle hielt nicht an, während Druck da war'],
  [
    'the pressure was still above half of what it was {q1} after the shaft stopped, where the record ends',
    'der Druck war {q1} nach dem Halt der Welle, wo die Aufzeichnung endet, noch über der Hälfte von vorher',
  ],
  [
    'the shaft did not turn for long enough with nothing engaged',
    'die Welle drehte nicht lange genug in ausgerücktem Zustand',
  ],
  ['too few readings after the first release', 'zu wenige Werte nach dem ersten Ausrücken'],
  [
    'a unit that stays charged has no released pressure',
    'ein Gerät, das unter Druck bleibt, hat keinen Druck in ausgerücktem Zustand',
  ],
  [
    'the log begins with pressure: there is no rest before it',
    'die Aufzeichnung beginnt mit Druck: Davor gibt es keine Ruhe',
  ],
  [
    'the shaft turns from the first reading: there is no rest',
    'die Welle dreht vom ersten Wert an: Es gibt keine Ruhe',
  ],
  ['too few readings at rest before the first rise', 'zu wenige Werte in Ruhe vor dem ersten Anstieg'],
  [
    'the shaft speed was not varied enough to tell',
    'die Drehzahl wurde nicht genug verändert, um es zu sagen',
  ],
  [
    'sampled every {q1}; ripple needs {q2} samples a second',
    'alle {q1} ein Wert; die Welligkeit braucht {q2} Werte je Sekunde',
  ],
  ['the hold has no second with enough readings', 'die Haltezeit hat keine Sekunde mit genug Werten'],
  [
    'sampled {q1} times a second with the shaft at {q2} turns a second: a frequency would be an alias',
    '{q1} Werte je Sekunde bei {q2} Umdrehungen je Sekunde: Eine Frequenz wäre eine Täuschung',
  ],
  ['no frequency stands out of the noise', 'keine Frequenz ragt aus dem Rauschen'],
  [
    'the log begins engaged: no rise to measure',
    'die Aufzeichnung beginnt eingerückt: Es gibt keinen Anstieg zu messen',
  ],
  [
    'the pressure stood no higher engaged than before: there is no rise',
    'der Druck stand eingerückt nicht höher als vorher: Es gibt keinen Anstieg',
  ],
  [
    'the pressure was never at its idle level before the rise',
    'der Druck war vor dem Anstieg nie auf seinem Ruhewert',
  ],
  [
    'the pressure did not reach nine tenths of its plateau',
    'der Druck erreichte neun Zehntel seines Endes nicht',
  ],
  [
    'the log ends engaged: no fall to measure',
    'die Aufzeichnung endet eingerückt: Es gibt keinen Abfall zu messen',
  ],
  [
    'the pressure did not fall to a tenth of its step after release',
    'der Druck fiel nach dem Ausrücken nicht auf ein Zehntel seines Sprungs',
  ],
  [
    'no reading within the rise: it is known only as at most {q1}',
    'kein Wert im Anstieg: Bekannt ist nur, dass er höchstens {q1} dauerte',
  ],
  [
    'only {q1} reading within the rise: it is known only as at most {q2}',
    'nur {q1} Wert im Anstieg: Bekannt ist nur, dass er höchstens {q2} dauerte',
  ],
  [
    'only {q1} readings within the rise: it is known only as at most {q2}',
    'nur {q1} Werte im Anstieg: Bekannt ist nur, dass er höchstens {q2} dauerte',
  ],
  [
    'no reading within the fall: it is known only as at most {q1}',
    'kein Wert im Abfall: Bekannt ist nur, dass er höchstens {q1} dauerte',
  ],
  [
    'only {q1} reading within the fall: it is known only as at most {q2}',
    'nur {q1} Wert im Abfall: Bekannt ist nur, dass er höchstens {q2} dauerte',
  ],
  [
    'only {q1} readings within the fall: it is known only as at most {q2}',
    'nur {q1} Werte im Abfall: Bekannt ist nur, dass er höchstens {q2} dauerte',
  ],
  ['no pressure was logged before engaging', 'vor dem Einrücken ist kein Druck aufgezeichnet'],
  ['no pressure was logged after engaging', 'nach dem Einrücken ist kein Druck aufgezeichnet'],
  [
    'no reading within the dip: at one reading each {q1} it may be deeper than it looks',
    'kein Wert im Einbruch: Bei einem Wert je {q1} kann er tiefer sein, als er aussieht',
  ],
  [
    'only {q1} reading within the dip: at one reading each {q2} it may be deeper than it looks',
    'nur {q1} Wert im Einbruch: Bei einem Wert je {q2} kann er tiefer sein, als er aussieht',
  ],
  [
    'only {q1} readings within the dip: at one reading each {q2} it may be deeper than it looks',
    'nur {q1} Werte im Einbruch: Bei einem Wert je {q2} kann er tiefer sein, als er aussieht',
  ],
  [
    'engaged for less than {q1}: no plateau to measure against',
    'weniger als {q1} eingerückt: kein ruhiges Ende, an dem sich messen ließe',
  ],
  [
    'the pressure goes with the shaft speed: there is no plateau to measure against',
    'der Druck geht mit der Drehzahl: Es gibt kein ruhiges Ende, an dem sich messen ließe',
  ],
  [
    'there is no whole-hour step of the clock at {q1}',
    'bei {q1} gibt es keinen Uhrensprung um ganze Stunden',
  ],
  [
    'the pressure fell from {q1} on ({q2}), and no release is logged: a mean does not pass that',
    'der Druck fiel ab {q1} ({q2}), und ein Ausrücken ist nicht aufgezeichnet: Ein Mittel lässt das nicht bestehen',
  ],
  [
    'the pressure was lost from {q1} on ({q2}), and no release is logged: a mean does not pass that',
    'der Druck war ab {q1} weg ({q2}), und ein Ausrücken ist nicht aufgezeichnet: Ein Mittel lässt das nicht bestehen',
  ],
  [
    'the pressure gave way before the run ended and did not come back: a mean does not pass that',
    'der Druck gab vor dem Ende des Laufs nach und kam nicht wieder: Ein Mittel lässt das nicht bestehen',
  ],
  [
    "the pressure was not back within {q1} before the next engagement, within {q2} or to the log's end",
    'der Druck war vor der nächsten Einrückung, binnen {q2} oder bis zum Ende der Aufzeichnung nicht auf {q1} wieder da',
  ],
  // Remarks on the run.
  [
    'the pressure column has no usable reading, so nothing is judged',
    'die Druckspalte hat keinen brauchbaren Wert, daher ist nichts beurteilt',
  ],
  [
    'the pressure reached {q1}, but for less than {q2} together in a log of {q3} reading over {q4}: that is no engagement, so nothing is judged',
    'der Druck erreichte {q1}, aber weniger als {q2} lang in einer Aufzeichnung von {q3} Wert über {q4}: Das ist keine Einrückung, daher ist nichts beurteilt',
  ],
  [
    'the pressure reached {q1}, but for less than {q2} together in a log of {q3} readings over {q4}: that is no engagement, so nothing is judged',
    'der Druck erreichte {q1}, aber weniger als {q2} lang in einer Aufzeichnung von {q3} Werten über {q4}: Das ist keine Einrückung, daher ist nichts beurteilt',
  ],
  [
    "within the gauge's range the pressure never held more than {q1} for {q2}: there is no engagement in this log, so nothing is judged",
    'im Bereich des Messgeräts hielt der Druck nie {q2} lang mehr als {q1}: In dieser Aufzeichnung gibt es keine Einrückung, daher ist nichts beurteilt',
  ],
  [
    "within the gauge's range the pressure never held more than {q1} for {q2}, under a tenth of {q3}: there is no engagement in this log, so nothing is judged",
    'im Bereich des Messgeräts hielt der Druck nie {q2} lang mehr als {q1}, weniger als ein Zehntel von {q3}: In dieser Aufzeichnung gibt es keine Einrückung, daher ist nichts beurteilt',
  ],
  [
    'the pressure never held more than {q1} for {q2}: there is no engagement in this log, so nothing is judged',
    'der Druck hielt nie {q2} lang mehr als {q1}: In dieser Aufzeichnung gibt es keine Einrückung, daher ist nichts beurteilt',
  ],
  [
    'the pressure never held more than {q1} for {q2}, under a tenth of {q3}: there is no engagement in this log, so nothing is judged',
    'der Druck hielt nie {q2} lang mehr als {q1}, weniger als ein Zehntel von {q3}: In dieser Aufzeichnung gibt es keine Einrückung, daher ist nichts beurteilt',
  ],
  [
    'whether the oil reached operating temperature ({q1}) is not known, since its readings are none: what is judged warm is not assessed',
    'ob das Öl Betriebstemperatur ({q1}) erreichte, ist nicht bekannt, denn seine Werte sind keine: Was warm zu beurteilen ist, ist nicht beurteilt',
  ],
  [
    'the oil never reached operating temperature ({q1}): cold is not a result, so what is judged warm is not assessed',
    'das Öl erreichte nie Betriebstemperatur ({q1}): Kalt ist kein Ergebnis, daher ist nicht beurteilt, was warm zu beurteilen ist',
  ],
  ['run on until the oil is warm', 'weiterlaufen lassen, bis das Öl warm ist'],
  [
    'the clock jumped by no whole number of hours, which cuts the log: its longest part is judged, from {q1} to {q2}',
    'die Uhr sprang nicht um ganze Stunden, was die Aufzeichnung zerschneidet: Beurteilt ist ihr längster Teil, von {q1} bis {q2}',
  ],
  [
    'the pressure stood at {q1}, under half of the low limit {q2}: it is judged as a run all the same',
    'der Druck stand bei {q1}, unter der Hälfte der unteren Grenze {q2}: Es ist trotzdem als Lauf beurteilt',
  ],
  [
    '{q1} of the log is judged: the joined engagements, from {q2} to {q3}',
    'beurteilt sind {q1} der Aufzeichnung: die verbundenen Einrückungen, von {q2} bis {q3}',
  ],
  [
    '{q1} of the log is judged: the longest engagement, from {q2} to {q3}',
    'beurteilt sind {q1} der Aufzeichnung: die längste Einrückung, von {q2} bis {q3}',
  ],
  [
    'there is one more engagement; they can be joined into one run',
    'es gibt eine weitere Einrückung; sie lassen sich zu einem Lauf verbinden',
  ],
  [
    'there are {q1} more engagements; they can be joined into one run',
    'es gibt {q1} weitere Einrückungen; sie lassen sich zu einem Lauf verbinden',
  ],
  [
    'the run is made of {q1} engagements; the stretches between them are not judged and do not count as running',
    'der Lauf besteht aus {q1} Einrückungen; die Strecken dazwischen sind nicht beurteilt und zählen nicht als Laufzeit',
  ],
  [
    'the pressure fell below nine tenths of its final value ({q1}) more than a minute before the run ended and did not come back',
    'der Druck fiel mehr als eine Minute vor dem Ende des Laufs unter neun Zehntel seines Endwerts ({q1}) und kam nicht wieder',
  ],
  [
    'from {q1} to {q2} the pressure was lost while the shaft turned: it stood at {q3}',
    'von {q1} bis {q2} war der Druck weg, während die Welle drehte: Er stand bei {q3}',
  ],
  [
    'from {q1} to {q2} the pressure was lost while the solenoid was on: it stood at {q3}',
    'von {q1} bis {q2} war der Druck weg, während der Magnet an war: Er stand bei {q3}',
  ],
  [
    'a unit that gives way is not released, so that time is judged with the rest',
    'ein Gerät, das nachgibt, ist nicht ausgerückt, daher ist diese Zeit mit beurteilt',
  ],
  [
    'from {q1} to {q2} the pressure stood at {q3}, far below its level and far above released, and nothing in the log says that the unit was released: it may have given way',
    'von {q1} bis {q2} stand der Druck bei {q3}, weit unter seinem Wert und weit über dem ausgerückten, und nichts in der Aufzeichnung sagt, dass das Gerät ausgerückt wurde: Es kann nachgegeben haben',
  ],
  [
    'if it was released there, set the end of the hold by hand',
    'wurde es dort ausgerückt, so setze man das Ende der Haltezeit von Hand',
  ],
  [
    'from {q1} to {q2} the pressure was gone ({q3}) with the solenoid on, and the log has no shaft speed: whether the bench was stopped or the unit gave way is not known',
    'von {q1} bis {q2} war der Druck weg ({q3}), während der Magnet an war, und die Aufzeichnung hat keine Drehzahl: Ob der Prüfstand stand oder das Gerät nachgab, ist nicht bekannt',
  ],
  [
    'if it was stopped, set the end of the hold by hand',
    'stand er, so setze man das Ende der Haltezeit von Hand',
  ],
  [
    'the pressure was never within tolerance of its final value for {q1} together: the hold starts when the oil reached operating temperature',
    'der Druck blieb nie {q1} lang in der Toleranz um seinen Endwert: Die Haltezeit beginnt, sobald das Öl Betriebstemperatur erreichte',
  ],
  [
    'the pressure was never within tolerance of its final value for {q1} together and the log has no oil temperature: the hold is the second half of the run',
    'der Druck blieb nie {q1} lang in der Toleranz um seinen Endwert, und die Aufzeichnung hat keine Öltemperatur: Die Haltezeit ist die zweite Hälfte des Laufs',
  ],
  [
    'the pressure was never within tolerance of its final value for {q1} together and no operating temperature is known: the hold is the second half of the run',
    'der Druck blieb nie {q1} lang in der Toleranz um seinen Endwert, und eine Betriebstemperatur ist nicht bekannt: Die Haltezeit ist die zweite Hälfte des Laufs',
  ],
  [
    'the log has no oil temperature: whether the unit was warm is not known, and the hold was found by the pressure alone',
    'die Aufzeichnung hat keine Öltemperatur: Ob das Gerät warm war, ist nicht bekannt, und die Haltezeit wurde allein am Druck gefunden',
  ],
  [
    'the hold pauses once, after a gap, a step of the clock or a release, until {c1}',
    'die Haltezeit ruht einmal, nach einer Lücke, einem Uhrensprung oder einem Ausrücken, bis {c1}',
  ],
  [
    'the hold pauses {q1} times, after a gap, a step of the clock or a release, until {c1}',
    'die Haltezeit ruht {q1}-mal, nach einer Lücke, einem Uhrensprung oder einem Ausrücken, bis {c1}',
  ],
  ['the oil is back at operating temperature', 'das Öl wieder Betriebstemperatur hat'],
  ['the pressure is steady again', 'der Druck wieder ruhig steht'],
  [
    'the pressure wanders or bends so slowly that the hold is too short for it: its parts are not independent, and the scatter in the uncertainty is likely too small',
    'der Druck wandert oder biegt sich so langsam, dass die Haltezeit dafür zu kurz ist: Ihre Teile sind nicht unabhängig, und die Streuung in der Unsicherheit ist wahrscheinlich zu klein',
  ],
  ['a longer hold would tell', 'eine längere Haltezeit würde es zeigen'],
  ['the operating pressure has no uncertainty: {c1}', 'der Betriebsdruck hat keine Unsicherheit: {c1}'],
  [
    'the mean of the hold, {q1}, lies inside the band, but in its last tenth the pressure was below it for {q2} of the time',
    'das Mittel der Haltezeit, {q1}, liegt im Band, aber in ihrem letzten Zehntel lag der Druck für {q2} der Zeit darunter',
  ],
  [
    'the mean of the hold, {q1}, lies inside the band, but in its last tenth the pressure was above it for {q2} of the time',
    'das Mittel der Haltezeit, {q1}, liegt im Band, aber in ihrem letzten Zehntel lag der Druck für {q2} der Zeit darüber',
  ],
  [
    'the mean of the hold, {q1}, lies inside the band, but in its last tenth the pressure was outside it for {q2} of the time',
    'das Mittel der Haltezeit, {q1}, liegt im Band, aber in ihrem letzten Zehntel lag der Druck für {q2} der Zeit außerhalb',
  ],
  [
    '{q1} into the log the pressure stepped from {q2} to {q3} and stayed there',
    '{q1} nach Beginn der Aufzeichnung sprang der Druck von {q2} auf {q3} und blieb dort',
  ],
  [
    'the slope is that of the parts before and after it; the change over the hold includes it',
    'die Steigung ist die der Teile davor und danach; die Änderung über die Haltezeit schließt den Sprung ein',
  ],
  ['falls by {q1} of oil temperature', 'fällt um {q1} Öltemperatur'],
  ['rises by {q1} of oil temperature', 'steigt um {q1} Öltemperatur'],
  [
    'at constant oil temperature the pressure keeps falling, by {q1} an hour: that is not the oil thinning',
    'bei gleicher Öltemperatur fällt der Druck weiter, um {q1} in der Stunde: Dünner werdendes Öl ist das nicht',
  ],
  [
    'at constant oil temperature the pressure keeps rising, by {q1} an hour: that is not the oil thinning',
    'bei gleicher Öltemperatur steigt der Druck weiter, um {q1} in der Stunde: Dünner werdendes Öl ist das nicht',
  ],
  [
    'at constant oil temperature the pressure keeps falling, by {q1} an hour; besides it {c1}: that is not the oil thinning',
    'bei gleicher Öltemperatur fällt der Druck weiter, um {q1} in der Stunde; außerdem {c1}: Dünner werdendes Öl ist das nicht',
  ],
  [
    'at constant oil temperature the pressure keeps rising, by {q1} an hour; besides it {c1}: that is not the oil thinning',
    'bei gleicher Öltemperatur steigt der Druck weiter, um {q1} in der Stunde; außerdem {c1}: Dünner werdendes Öl ist das nicht',
  ],
  [
    "the pressure {c1}; what it moved is explained by the oil's temperature, since oil thins as it warms, and at level heat it is level",
    'der Druck {c1}; was er sich bewegte, erklärt die Öltemperatur, denn Öl wird warm dünner, und bei gleicher Wärme steht er',
  ],
  [
    "the pressure {c1}; what it moved is explained by the oil's temperature, and at level heat it is level",
    'der Druck {c1}; was er sich bewegte, erklärt die Öltemperatur, und bei gleicher Wärme steht er',
  ],
  [
    'the pressure was still falling at the end: {q1} in the last {q2}',
    'der Druck fiel am Ende noch: {q1} in den letzten {q2}',
  ],
  [
    'the pressure was still rising at the end: {q1} in the last {q2}',
    'der Druck stieg am Ende noch: {q1} in den letzten {q2}',
  ],
  ['what is given as its final value is no end value', 'was als sein Endwert angegeben ist, ist keiner'],
  [
    'the oil was still warming at the end: it is on its way to {q1}, and the run would have to go on for about {q2} to come within one degree of that',
    'das Öl wurde am Ende noch wärmer: Es ist auf dem Weg zu {q1}, und der Lauf müsste noch etwa {q2} dauern, um dem auf ein Grad nahe zu kommen',
  ],
  [
    'the log has no shaft speed: the frequency of the ripple may be an alias of a faster one',
    'die Aufzeichnung hat keine Drehzahl: Die Frequenz der Welligkeit kann eine schnellere vortäuschen',
  ],
  [
    'engaging takes longer from time to time: {q1} in the median of the first {q2}, {q3} in that of the last {q4} of {q5} engagements',
    'das Einrücken dauert von Mal zu Mal länger: {q1} im Median der ersten {q2}, {q3} in dem der letzten {q4} von {q5} Einrückungen',
  ],
  [
    'the solenoid reads off while the pressure is up ({q1} into the log) and on while it is down: its channel looks inverted',
    'der Magnet zeigt aus, während der Druck oben ist ({q1} nach Beginn der Aufzeichnung), und an, während er unten ist: Sein Kanal sieht verkehrt aus',
  ],
  ['engaging and releasing were told by the pressure', 'Ein- und Ausrücken wurden am Druck erkannt'],
  [
    'the solenoid was switched on {q1} time without the pressure rising, first {q2} into the log',
    'der Magnet wurde {q1}-mal eingeschaltet, ohne dass der Druck stieg, zuerst {q2} nach Beginn der Aufzeichnung',
  ],
  [
    'the solenoid was switched on {q1} times without the pressure rising, first {q2} into the log',
    'der Magnet wurde {q1}-mal eingeschaltet, ohne dass der Druck stieg, zuerst {q2} nach Beginn der Aufzeichnung',
  ],
  [
    '{q1} into the log the solenoid was switched off, and the pressure stayed up for {q2} after that',
    '{q1} nach Beginn der Aufzeichnung wurde der Magnet ausgeschaltet, und der Druck blieb danach noch {q2} oben',
  ],
  [
    'the pressure goes with the shaft speed (exponent {q1}): the relief is not in control',
    'der Druck geht mit der Drehzahl (Exponent {q1}): Das Druckventil regelt nicht',
  ],
  [
    'the pressure is level against the shaft speed (exponent {q1}): the relief is in control',
    'der Druck hängt nicht von der Drehzahl ab (Exponent {q1}): Das Druckventil regelt',
  ],
  [
    "the gauge's calibration was due on {q1}; the run is of {q2}",
    'die Kalibrierung des Messgeräts war am {q1} fällig; der Lauf ist vom {q2}',
  ],
  [
    'what the rig file says of its accuracy may no longer hold',
    'was die Prüfstandsdatei von seiner Genauigkeit sagt, gilt vielleicht nicht mehr',
  ],
  [
    'the rig file asks to take off the reading at rest, but there is none: {c1}',
    'die Prüfstandsdatei verlangt, den Wert in Ruhe abzuziehen, aber es gibt keinen: {c1}',
  ],
  [
    'the reading at rest, {q1}, was taken off every pressure, as the rig file asks ({t1})',
    'der Wert in Ruhe, {q1}, wurde von jedem Druck abgezogen, wie es die Prüfstandsdatei verlangt ({t1})',
  ],
  [
    'what is judged was changed by hand: {q1} choice, each listed with who, when and why',
    'was beurteilt ist, wurde von Hand geändert: {q1} Festlegung, aufgeführt mit wer, wann und warum',
  ],
  [
    'what is judged was changed by hand: {q1} choices, each listed with who, when and why',
    'was beurteilt ist, wurde von Hand geändert: {q1} Festlegungen, je aufgeführt mit wer, wann und warum',
  ],
  // Against the band.
  ['below and above', 'unter und über'],
  ['above and below', 'über und unter'],
  ['below', 'unter'],
  ['above', 'über'],
  [
    'with the oil warm the pressure stood {c1} the band for {q1} before the hold, from {q2} to {q3}, at {q4}',
    'mit warmem Öl stand der Druck vor der Haltezeit {q1} lang {c1} dem Band, von {q2} bis {q3}, bei {q4}',
  ],
  [
    'with the oil warm the pressure stood {c1} the band for {q1} before the hold, from {q2} to {q3} in {q5} stretches, at {q4}',
    'mit warmem Öl stand der Druck vor der Haltezeit {q1} lang {c1} dem Band, von {q2} bis {q3} in {q5} Stücken, bei {q4}',
  ],
  [
    'with the oil likely warm (30 min after engaging) the pressure stood {c1} the band for {q1} before the hold, from {q2} to {q3}, at {q4}',
    'mit wohl warmem Öl (30 min nach dem Einrücken) stand der Druck vor der Haltezeit {q1} lang {c1} dem Band, von {q2} bis {q3}, bei {q4}',
  ],
  [
    'with the oil likely warm (30 min after engaging) the pressure stood {c1} the band for {q1} before the hold, from {q2} to {q3} in {q5} stretches, at {q4}',
    'mit wohl warmem Öl (30 min nach dem Einrücken) stand der Druck vor der Haltezeit {q1} lang {c1} dem Band, von {q2} bis {q3} in {q5} Stücken, bei {q4}',
  ],
  [
    'the hold starts where the pressure is steady, so that time is not judged: a unit that comes right only after so long deserves a second run, started warm',
    'die Haltezeit beginnt, wo der Druck ruhig steht, daher ist diese Zeit nicht beurteilt: Ein Gerät, das erst nach so langer Zeit stimmt, verdient einen zweiten Lauf, warm begonnen',
  ],
  [
    'the longest time {c1} the band within the hold: {q1}, from {q2} to {q3}, at {q4}',
    'die längste Zeit {c1} dem Band in der Haltezeit: {q1}, von {q2} bis {q3}, bei {q4}',
  ],
  [
    'the time {c1} the band within the hold: {q1}, from {q2} to {q3}, at {q4}',
    'die Zeit {c1} dem Band in der Haltezeit: {q1}, von {q2} bis {q3}, bei {q4}',
  ],
  [
    'another engagement stood outside the band and is not judged: from {q1} to {q2}, at {q3}',
    'eine weitere Einrückung stand außerhalb des Bandes und ist nicht beurteilt: von {q1} bis {q2}, bei {q3}',
  ],
  [
    '{q4} other engagements stood outside the band and are not judged: the first from {q1} to {q2}, at {q3}',
    '{q4} weitere Einrückungen standen außerhalb des Bandes und sind nicht beurteilt: die erste von {q1} bis {q2}, bei {q3}',
  ],
  [
    'the hold lasts {q1}, less than the smoothing over {q2}: its lowest and highest smoothed pressure, {q3} and {q4}, do not show how the pressure moved in it, and its mean, {q5}, lies outside of them',
    'die Haltezeit dauert {q1}, weniger als die Glättung über {q2}: Ihr kleinster und größter geglätteter Druck, {q3} und {q4}, zeigen nicht, wie sich der Druck darin bewegte, und ihr Mittel, {q5}, liegt außerhalb',
  ],
  [
    'the mean of the hold, {q1}, lies below its lowest and highest smoothed pressure, {q2} and {q3}: short dips, which the smoothing takes out of those two, are in the mean',
    'das Mittel der Haltezeit, {q1}, liegt unter ihrem kleinsten und größten geglätteten Druck, {q2} und {q3}: Kurze Einbrüche, die die Glättung aus diesen beiden nimmt, sind im Mittel enthalten',
  ],
  [
    'the mean of the hold, {q1}, lies above its lowest and highest smoothed pressure, {q2} and {q3}: short peaks, which the smoothing takes out of those two, are in the mean',
    'das Mittel der Haltezeit, {q1}, liegt über ihrem kleinsten und größten geglätteten Druck, {q2} und {q3}: Kurze Spitzen, die die Glättung aus diesen beiden nimmt, sind im Mittel enthalten',
  ],
  // What looks implausible.
  [
    "{q1} pressure reading stands at the end of the gauge's range ({q2}) and was set aside",
    '{q1} Druckwert steht am Ende des Messbereichs ({q2}) und wurde ausgesondert',
  ],
  [
    "{q1} pressure readings stand at the end of the gauge's range ({q2}) and were set aside",
    '{q1} Druckwerte stehen am Ende des Messbereichs ({q2}) und wurden ausgesondert',
  ],
  [
    "{q1} pressure reading lies outside of the gauge's range in the rig file ({q2} to {q3}) and was set aside",
    '{q1} Druckwert liegt außerhalb des Messbereichs der Prüfstandsdatei ({q2} bis {q3}) und wurde ausgesondert',
  ],
  [
    "{q1} pressure readings lie outside of the gauge's range in the rig file ({q2} to {q3}) and were set aside",
    '{q1} Druckwerte liegen außerhalb des Messbereichs der Prüfstandsdatei ({q2} bis {q3}) und wurden ausgesondert',
  ],
  ['{c1}: {q1} of what would be judged', '{c1}: {q1} dessen, was zu beurteilen wäre'],
  [
    'what the pressure really was there is not known; take a gauge with a wider range',
    'wie hoch der Druck dort wirklich war, ist nicht bekannt; man nehme ein Messgerät mit weiterem Bereich',
  ],
  [
    'what the pressure really was there is not known; check the range in the rig file, or take a gauge with a wider one',
    'wie hoch der Druck dort wirklich war, ist nicht bekannt; man prüfe den Bereich in der Prüfstandsdatei oder nehme ein Messgerät mit weiterem',
  ],
  [
    'the pressure column holds one single value from the first reading to the last: the sensor or the logger is not working',
    'die Druckspalte enthält vom ersten bis zum letzten Wert eine einzige Zahl: Der Fühler oder der Logger arbeitet nicht',
  ],
  [
    'the pressure reads the same to the digit for up to {q1}, but its steps are too coarse to tell a stuck sensor from a steady unit',
    'der Druck zeigt bis zu {q1} lang dieselbe Zahl, aber seine Schritte sind zu grob, um einen hängenden Fühler von einem ruhigen Gerät zu unterscheiden',
  ],
  ['nothing was set aside for it', 'ausgesondert wurde deshalb nichts'],
  [
    'the pressure reads the same to the digit for up to {q1}: {q2} reading was set aside as stuck',
    'der Druck zeigt bis zu {q1} lang dieselbe Zahl: {q2} Wert wurde als hängend ausgesondert',
  ],
  [
    'the pressure reads the same to the digit for up to {q1}: {q2} readings were set aside as stuck',
    'der Druck zeigt bis zu {q1} lang dieselbe Zahl: {q2} Werte wurden als hängend ausgesondert',
  ],
  ['{c1}, {q1} of what would be judged', '{c1}, {q1} dessen, was zu beurteilen wäre'],
  [
    'the oil temperature holds {q1} and the pressure no more than {q2}: the two columns look swapped',
    'die Öltemperatur hält {q1} und der Druck nicht mehr als {q2}: Die beiden Spalten sehen vertauscht aus',
  ],
  ['correct their roles', 'ihre Rollen sind zu berichtigen'],
  [
    'the oil temperature holds {q1}, which no oil on a bench does: check the column and its unit',
    'die Öltemperatur hält {q1}, was kein Öl auf einem Prüfstand tut: Spalte und Einheit prüfen',
  ],
  [
    'as {t1} the pressure is {q1}; as {t2} it would be {q2}, near the band',
    'in {t1} ist der Druck {q1}; in {t2} wäre er {q2}, nahe am Band',
  ],
  [
    'the unit looks wrong: nothing is judged until it is right',
    'die Einheit sieht falsch aus: Nichts ist beurteilt, bis sie stimmt',
  ],
  ['is the gauge really in {t1}?', 'ist das Messgerät wirklich in {t1}?'],
  [
    'in {t1} the same readings would be {q1} instead of {q2}, on the other side of a limit',
    'in {t1} wären dieselben Werte {q1} statt {q2}, auf der anderen Seite einer Grenze',
  ],
  ['state the unit in the rig file', 'die Einheit gehört in die Prüfstandsdatei'],
  [
    'the oil temperature equals that of the air for {q1} of what is judged: the probe has fallen out, or sits in the wrong place',
    'die Öltemperatur gleicht auf {q1} des Beurteilten der der Luft: Der Fühler ist herausgefallen oder sitzt am falschen Ort',
  ],
  [
    '{q1} into the log the oil temperature fell by {q2} within a minute while engaged: the probe may have come out',
    '{q1} nach Beginn der Aufzeichnung fiel die Öltemperatur in eingerücktem Zustand binnen einer Minute um {q2}: Der Fühler kann herausgekommen sein',
  ],
  [
    'each time the solenoid switches on, the oil temperature drops by about {q1} in the same reading, and back when it switches off',
    'jedes Mal, wenn der Magnet einschaltet, fällt die Öltemperatur im selben Wert um etwa {q1}, und zurück, wenn er ausschaltet',
  ],
  [
    'each time the solenoid switches on, the oil temperature jumps by about {q1} in the same reading, and back when it switches off',
    'jedes Mal, wenn der Magnet einschaltet, springt die Öltemperatur im selben Wert um etwa {q1}, und zurück, wenn er ausschaltet',
  ],
  [
    'oil cannot do that: the supply of the sensors sags, and the pressure is then wrong by its share too',
    'Öl kann das nicht: Die Versorgung der Fühler bricht ein, und der Druck ist dann um seinen Teil auch falsch',
  ],
  [
    '{q1} spike comes in more than one channel at once: electrical noise (a motor drive, a relay, ignition), not the unit',
    '{q1} Spitze kommt in mehr als einem Kanal zugleich: elektrische Störung (Antrieb, Relais, Zündung), nicht das Gerät',
  ],
  [
    '{q1} spikes come in more than one channel at once: electrical noise (a motor drive, a relay, ignition), not the unit',
    '{q1} Spitzen kommen in mehr als einem Kanal zugleich: elektrische Störung (Antrieb, Relais, Zündung), nicht das Gerät',
  ],
  [
    '{q1} reading of "{t1}" stands far from the readings about them, {q2} of that part of the log: too many for spikes, so they count',
    '{q1} Wert von „{t1}“ steht weit von den Werten um ihn, {q2} dieses Teils der Aufzeichnung: zu viel für Spitzen, daher zählt er',
  ],
  [
    '{q1} readings of "{t1}" stand far from the readings about them, {q2} of that part of the log: too many for spikes, so they count',
    '{q1} Werte von „{t1}“ stehen weit von den Werten um sie, {q2} dieses Teils der Aufzeichnung: zu viele für Spitzen, daher zählen sie',
  ],
  [
    'the pressure really swings, or the gauge or its wiring is noisy: look at the trace',
    'der Druck schwankt wirklich, oder das Messgerät oder seine Leitung ist gestört: Man sehe die Linie an',
  ],
  [
    'the reading really swings, or the gauge or its wiring is noisy: look at the trace',
    'der Wert schwankt wirklich, oder das Messgerät oder seine Leitung ist gestört: Man sehe die Linie an',
  ],
  [
    '{q1} time "{t1}" stands apart for longer than a spike (more than three readings or 2 s): {c1}, for up to {q3} together',
    '{q1}-mal steht „{t1}“ länger als eine Spitze abseits (mehr als drei Werte oder 2 s): {c1}, bis zu {q3} hintereinander',
  ],
  [
    '{q1} times "{t1}" stands apart for longer than a spike (more than three readings or 2 s): {c1}, for up to {q3} together',
    '{q1}-mal steht „{t1}“ länger als eine Spitze abseits (mehr als drei Werte oder 2 s): {c1}, bis zu {q3} hintereinander',
  ],
  ['{q1} reading counts', '{q1} Wert zählt'],
  ['{q1} readings count', '{q1} Werte zählen'],
  [
    'the unit did that, or a wire was loose: look at the trace',
    'das Gerät tat das, oder ein Draht war lose: Man sehe die Linie an',
  ],
  ['at rest the gauge reads {q1} instead of 0', 'in Ruhe zeigt das Messgerät {q1} statt 0'],
  [
    'at rest the gauge reads {q1} instead of 0, more than its stated uncertainty ({q2})',
    'in Ruhe zeigt das Messgerät {q1} statt 0, mehr als seine angegebene Unsicherheit ({q2})',
  ],
  [
    'before the first rise (at rest, if the shaft stood still) the gauge reads {q1} instead of 0',
    'vor dem ersten Anstieg (in Ruhe, wenn die Welle stand) zeigt das Messgerät {q1} statt 0',
  ],
  [
    'before the first rise (at rest, if the shaft stood still) the gauge reads {q1} instead of 0, more than its stated uncertainty ({q2})',
    'vor dem ersten Anstieg (in Ruhe, wenn die Welle stand) zeigt das Messgerät {q1} statt 0, mehr als seine angegebene Unsicherheit ({q2})',
  ],
  [
    'nothing was taken off; check the zero of the gauge',
    'abgezogen wurde nichts; den Nullpunkt des Messgeräts prüfen',
  ],
  // Uncertainty and decision.
  [
    'the rig file does not say how good the pressure gauge is: the uncertainty holds scatter and resolution alone',
    'die Prüfstandsdatei sagt nicht, wie gut das Druckmessgerät ist: Die Unsicherheit enthält nur Streuung und Auflösung',
  ],
  [
    'state the accuracy of the gauge in the rig file',
    'die Genauigkeit des Messgeräts gehört in die Prüfstandsdatei',
  ],
  [
    'the rig file does not say how good the pressure gauge is: the reading alone was judged',
    'die Prüfstandsdatei sagt nicht, wie gut das Druckmessgerät ist: Beurteilt ist allein der Wert',
  ],
  [
    'state the accuracy of the gauge in the rig file to have it counted',
    'damit sie zählt, gehört die Genauigkeit des Messgeräts in die Prüfstandsdatei',
  ],
  [
    'the rig file does not say how good the oil temperature is: its reading alone was judged',
    'die Prüfstandsdatei sagt nicht, wie gut die Öltemperatur ist: Beurteilt ist allein ihr Wert',
  ],
  [
    'the rig file does not say how good the solenoid current is: its reading alone was judged',
    'die Prüfstandsdatei sagt nicht, wie gut der Magnetstrom ist: Beurteilt ist allein sein Wert',
  ],
  [
    'with {q1} no reading can pass {c1} under the guarded rule',
    'mit {q1} kann unter der Regel mit Abstand kein Wert {c1} bestehen',
  ],
  [
    'with {q1} no reading can pass {c1} under the guarded rule ({q2} times the uncertainty on each side)',
    'mit {q1} kann unter der Regel mit Abstand (das {q2}-Fache der Unsicherheit auf jeder Seite) kein Wert {c1} bestehen',
  ],
  [
    '{q1} is more than a sixth of the band {c1}: under the simple rule whoever supplies and whoever receives share the risk of a wrong verdict (JCGM 106, 8.2)',
    '{q1} ist mehr als ein Sechstel des Bandes {c1}: Unter der einfachen Regel teilen sich Lieferer und Empfänger das Risiko eines falschen Ergebnisses (JCGM 106, 8.2)',
  ],
  [
    'the reading lies on the limit itself: no gauge would decide it',
    'der Wert liegt auf der Grenze selbst: Kein Messgerät könnte es entscheiden',
  ],
  ['set the unit nearer to the middle of the band', 'man stelle das Gerät näher an die Mitte des Bandes'],
  ['leave half of the band for a pass', 'die Hälfte des Bandes zum Bestehen lassen'],
  ['decide this reading', 'diesen Wert entscheiden'],
  ['take a gauge of a smaller range', 'man nehme ein Messgerät mit kleinerem Bereich'],
  [
    'setting the unit nearer to the middle of the band is the easier way',
    'das Gerät näher an die Mitte des Bandes zu stellen ist der leichtere Weg',
  ],
  [
    'no gauge would {c1}: the scatter of the reading alone is {q1}',
    'kein Messgerät würde {c1}: Allein die Streuung des Werts ist {q1}',
  ],
  [
    'a gauge good to {q1} or better would {c1}',
    'ein Messgerät, das auf {q1} oder besser genau ist, würde {c1}',
  ],
  [
    'a gauge good to {q1} or better would {c1}, which is finer than {q2} of a range of {c2}: {c3}',
    'ein Messgerät, das auf {q1} oder besser genau ist, würde {c1}, das ist feiner als {q2} eines Bereichs von {c2}: {c3}',
  ],
  [
    'a gauge good to {q1} or better would {c1}; for a range of {c2} the next usual class is {q2} ({q3}, U {q4})',
    'ein Messgerät, das auf {q1} oder besser genau ist, würde {c1}; für einen Bereich von {c2} ist die nächste übliche Klasse {q2} ({q3}, U {q4})',
  ],
  ['it shows no end yet that it is on its way to', 'ein Ende, auf das er zugeht, zeigt er noch nicht'],
  [
    'it is on its way to {q1}, and the run would have to go on for about {q2} to come within half of the settling tolerance of that',
    'er geht auf {q1} zu, und der Lauf müsste noch etwa {q2} weitergehen, um diesem auf die halbe Einschwingtoleranz nahe zu kommen',
  ],
  // The oil's sensor.
  [
    'the oil temperature holds one single value from the first reading to the last: the probe or the logger is not working, or the value was typed in',
    'die Öltemperatur zeigt von der ersten bis zur letzten Ablesung einen einzigen Wert: Der Fühler oder der Logger arbeitet nicht, oder der Wert wurde eingetippt',
  ],
  [
    'the oil temperature reads the same to the digit for up to {q1}: the probe or the logger may have stuck',
    'die Öltemperatur zeigt bis zu {q1} lang dasselbe auf die Ziffer genau: Der Fühler oder der Logger kann hängen geblieben sein',
  ],
  [
    'the oil temperature reads the same to the digit for up to {q1}, {q2} of the hold in all: the probe or the logger may have stuck',
    'die Öltemperatur zeigt bis zu {q1} lang dasselbe auf die Ziffer genau, insgesamt {q2} der Haltezeit: Der Fühler oder der Logger kann hängen geblieben sein',
  ],
  ['nothing was set aside for it', 'dafür wurde nichts ausgelassen'],
  [
    'for {q1} of the hold the oil was below operating temperature ({q2}), {q3} at the lowest',
    'für {q1} der Haltezeit lag das Öl unter der Betriebstemperatur ({q2}), im Tiefsten bei {q3}',
  ],
  [
    'cold is not a result: leave that time out, or run on with warm oil',
    'kalt ist kein Ergebnis: Diese Zeit auslassen oder mit warmem Öl weiterlaufen lassen',
  ],
  [
    "{q1} oil readings stand at the end of the range in the rig file ({q2} to {q3}), or beyond it, and were set aside within the hold: the oil's mean leaves them out",
    '{q1} Ölablesungen stehen am Ende des Messbereichs der Prüfstandsdatei ({q2} bis {q3}) oder darüber hinaus und wurden in der Haltezeit ausgelassen: Im Mittel des Öls fehlen sie',
  ],
  ['is the oil temperature really in {t1}?', 'ist die Öltemperatur wirklich in {t1}?'],
  [
    'at its hottest it reads {q1}, which is outside of operating temperature; as {t1} it would be {q2}, within it',
    'im Heißesten zeigt sie {q1}, das liegt außerhalb der Betriebstemperatur; als {t1} wären es {q2}, innerhalb davon',
  ],
  [
    'column {t1} is the oil temperature and has no unit in the log, so nothing is judged by it',
    'Spalte {t1} ist die Öltemperatur und hat in der Aufzeichnung keine Einheit, daher wird nichts nach ihr beurteilt',
  ],
  ['say °C or °F in the rig file', 'in der Prüfstandsdatei °C oder °F angeben'],
  // Reading of the log.
  ['back', 'zurück'],
  ['forward', 'vor'],
  [
    'the file has the newest reading first; it was read from its last row to its first',
    'die Datei hat die neueste Ablesung zuerst; sie wurde von der letzten Zeile zur ersten gelesen',
  ],
  [
    "jumps of the log's clock that are not named here: {q1}",
    'Sprünge der Uhr der Aufzeichnung, die hier nicht genannt sind: {q1}',
  ],
  [
    'a clock that does so cannot be relied on; look at the logger',
    'auf eine solche Uhr ist kein Verlass; den Logger ansehen',
  ],
  [
    "at {q1} after the first row the log's clock goes {c1} by {q2}, not by whole hours: how long the pause was cannot be told, so the log is cut there",
    '{q1} nach der ersten Zeile geht die Uhr der Aufzeichnung um {q2} {c1}, nicht um ganze Stunden: Wie lang die Pause war, lässt sich nicht sagen, daher ist die Aufzeichnung dort geschnitten',
  ],
  [
    "at {q1} after the first row the log's clock goes {c1} by {q2}; the record numbers go on, so the run was joined",
    '{q1} nach der ersten Zeile geht die Uhr der Aufzeichnung um {q2} {c1}; die Satznummern laufen weiter, daher wurde der Lauf verbunden',
  ],
  [
    "at {q1} after the first row the log's clock goes {c1} by {q2}: taken as a clock that was set, and the run was joined",
    '{q1} nach der ersten Zeile geht die Uhr der Aufzeichnung um {q2} {c1}: als gestellte Uhr genommen, und der Lauf wurde verbunden',
  ],
  [
    'it may also have been a power cut of exactly that length; the judge file can say so ("gap-not-clock-step")',
    'es kann auch ein Stromausfall von genau dieser Länge gewesen sein; die Datei der Festlegungen kann es sagen („gap-not-clock-step“)',
  ],
  [
    '{t1}, {q1} after the first row: its clock was set back by whole hours; the run was joined',
    '{t1}, {q1} nach der ersten Zeile: Seine Uhr wurde um ganze Stunden zurückgestellt; der Lauf wurde verbunden',
  ],
  [
    '{t1}, {q1} after the first row: its count begins again, so how long the pause before it was cannot be told; the run is cut there',
    '{t1}, {q1} nach der ersten Zeile: Die Zählung beginnt von vorn, daher lässt sich die Pause davor nicht sagen; der Lauf ist dort geschnitten',
  ],
  [
    '{t1}, {q1} after the first row: it begins before the part ahead of it ends; the run is cut there',
    '{t1}, {q1} nach der ersten Zeile: Der Teil beginnt, bevor der vorige endet; der Lauf ist dort geschnitten',
  ],
  [
    '{t1} is the same file as another part; it counts once',
    '{t1} ist dieselbe Datei wie ein anderer Teil; sie zählt einmal',
  ],
  [
    '{t1} has no heading; its columns were taken to be those of {t2}',
    '{t1} hat keine Kopfzeile; die Spalten wurden als die von {t2} genommen',
  ],
  [
    '"{t1}" and "{t2}" of different files were joined: they stand for the same',
    '„{t1}“ und „{t2}“ aus verschiedenen Dateien wurden verbunden: Sie stehen für dasselbe',
  ],
  [
    'the times count seconds from {q1}, as some measuring programs do: counted from {q2} they would lie beyond {q3}',
    'die Zeiten zählen Sekunden ab {q1}, wie manche Messprogramme es tun: ab {q2} gezählt lägen sie nach {q3}',
  ],
  [
    'column "{t1}": the file says {t2}, the rig file says that it is a raw signal; its numbers were taken as {t3} and scaled',
    'Spalte „{t1}“: Die Datei sagt {t2}, die Prüfstandsdatei, dass es ein rohes Signal ist; ihre Zahlen wurden als {t3} genommen und umgerechnet',
  ],
  [
    'if the logger scales them already, leave the signal out of the rig file',
    'rechnet sie schon der Logger um, so gehört das Signal nicht in die Prüfstandsdatei',
  ],
  [
    'column "{t1}" was read as the time; what is said of it as a channel was not used',
    'Spalte „{t1}“ wurde als Zeit gelesen; was über sie als Kanal gesagt ist, wurde nicht verwendet',
  ],
  [
    '{q1} row has a number in place of the time that is none, and was left out; the first: row {q2} says {q3}',
    '{q1} Zeile hat an Stelle der Zeit eine Zahl, die keine ist, und wurde ausgelassen; die erste: Zeile {q2} sagt {q3}',
  ],
  [
    '{q1} rows have a number in place of the time that is none, and were left out; the first: row {q2} says {q3}',
    '{q1} Zeilen haben an Stelle der Zeit eine Zahl, die keine ist, und wurden ausgelassen; die erste: Zeile {q2} sagt {q3}',
  ],
  [
    '{t1} repeats {q1} rows of the part ahead of it; they count once',
    '{t1} wiederholt {q1} Zeilen des Teils davor; sie zählen einmal',
  ],
  [
    'column "{t1}" has no unit in {t2}; it was taken to be in {t3} there, as in the other parts',
    'Spalte „{t1}“ hat in {t2} keine Einheit; angenommen wurde {t3} wie in den anderen Teilen',
  ],
  [
    'column "{t1}" gives no unit; it was read as seconds (one row every {q1})',
    'Spalte „{t1}“ nennt keine Einheit; sie wurde als Sekunden gelesen (eine Zeile alle {q1})',
  ],
  [
    'if that is wrong, name its form in a rig file',
    'ist das falsch, so nenne man ihre Form in einer Prüfstandsdatei',
  ],
  [
    '{q1} numbers were read with separators of thousands, as others in the file prove',
    '{q1} Zahlen wurden mit Tausenderzeichen gelesen, wie andere in der Datei beweisen',
  ],
  [
    'column "{t1}": the file says {t2}, the rig file says {t3}; {t4} was used',
    'Spalte „{t1}“: Die Datei sagt {t2}, die Prüfstandsdatei {t3}; verwendet ist {t4}',
  ],
  [
    'column "{t1}": the file says {t2}, you say {t3}; {t4} was used',
    'Spalte „{t1}“: Die Datei sagt {t2}, von Hand angegeben ist {t3}; verwendet ist {t4}',
  ],
  [
    'column "{t1}" is in {t2}, which counts from vacuum: no gauge pressure, so it has no unit here',
    'Spalte „{t1}“ ist in {t2}, was ab Vakuum zählt: kein Überdruck, daher hat sie hier keine Einheit',
  ],
  [
    'column "{t1}": {q1} stands {q2} times outside of all other readings; taken as "no reading" and set aside',
    'Spalte „{t1}“: {q1} steht {q2}-mal außerhalb aller anderen Werte; als „kein Wert“ genommen und ausgesondert',
  ],
  [
    'column "{t1}": {q1} readings at or below {q2} (wire open or sensor failed) and {q3} at or above {q4} were set aside',
    'Spalte „{t1}“: {q1} Werte bei oder unter {q2} (Leitung offen oder Fühler defekt) und {q3} bei oder über {q4} wurden ausgesondert',
  ],
  ['the sheet "{t1}" is hidden in the file', 'das Blatt „{t1}“ ist in der Datei ausgeblendet'],
  ['hidden sheets ({t1}) were not looked at', 'ausgeblendete Blätter ({t1}) wurden nicht angesehen'],
  [
    'name one as "sheet" in a rig file to read it',
    'um eines zu lesen, nenne man es in einer Prüfstandsdatei als „sheet“',
  ],
  [
    "the times are a spreadsheet's day numbers, and counted from 1900 they lie in {q1}",
    'die Zeiten sind Tageszahlen einer Tabelle, und ab 1900 gezählt liegen sie in {q1}',
  ],
  [
    'if it counts from 1904, the dates are 1462 days later; times within the run are not touched by it',
    'zählt sie ab 1904, so liegen die Tage 1462 Tage später; Zeiten im Lauf sind davon nicht betroffen',
  ],
  [
    'the file is not UTF-8; its letters were read as Windows-1252',
    'die Datei ist nicht UTF-8; ihre Buchstaben wurden als Windows-1252 gelesen',
  ],
  ['numbers are not touched by it', 'Zahlen sind davon nicht betroffen'],
  [
    '{q1} rows were left out and {q2} read: the first is line {q3} ("{t1}")',
    '{q1} Zeilen wurden ausgelassen und {q2} gelesen: Die erste ist Zeile {q3} („{t1}“)',
  ],
  [
    '{q1} NUL bytes stand in the rows, as a logger leaves them when its supply fails; readings with one inside were left out',
    '{q1} NUL-Bytes stehen in den Zeilen, wie sie ein Logger hinterlässt, wenn seine Versorgung ausfällt; Werte mit einem darin wurden ausgelassen',
  ],
  [
    'the heading comes {q1} more times in the file: the logger was started again, or exports page by page',
    'die Kopfzeile kommt noch {q1}-mal in der Datei vor: Der Logger wurde neu gestartet oder schreibt Seite für Seite',
  ],
  [
    'line {q1} is another heading; the rows behind it were not read',
    'Zeile {q1} ist eine andere Kopfzeile; die Zeilen dahinter wurden nicht gelesen',
  ],
  ['split the file there', 'die Datei ist dort zu teilen'],
  [
    'lines {q1} to {q2} stand under another heading and were not read',
    'die Zeilen {q1} bis {q2} stehen unter einer anderen Kopfzeile und wurden nicht gelesen',
  ],
  [
    'the times of column "{t1}" have two parts ("{t2}"); they were read as minutes and seconds',
    'die Zeiten der Spalte „{t1}“ haben zwei Teile („{t2}“); sie wurden als Minuten und Sekunden gelesen',
  ],
  [
    'the times of column "{t1}" have no marks between their parts ("{t2}"); they were read as hours and minutes',
    'die Zeiten der Spalte „{t1}“ haben keine Zeichen zwischen ihren Teilen („{t2}“); sie wurden als Stunden und Minuten gelesen',
  ],
  [
    'the times of column "{t1}" have no marks between their parts ("{t2}"); they were read as hours, minutes and seconds',
    'die Zeiten der Spalte „{t1}“ haben keine Zeichen zwischen ihren Teilen („{t2}“); sie wurden als Stunden, Minuten und Sekunden gelesen',
  ],
  [
    'column "{t1}" may hold dates, but its heading says nothing of the kind: they were not taken for the date of the run',
    'Spalte „{t1}“ kann Daten eines Kalenders enthalten, ihre Überschrift sagt aber nichts davon: Sie wurden nicht als Datum des Laufs genommen',
  ],
  [
    'if they are, name it as "dateColumn" in a rig file',
    'sind sie es, so ist sie in einer Prüfstandsdatei als „dateColumn“ zu nennen',
  ],
  [
    'if that is wrong, name the form in a rig file',
    'ist das falsch, so ist die Form in einer Prüfstandsdatei zu nennen',
  ],
  [
    'column "{t1}" counts days; it was read as modified Julian days, since as a spreadsheet\'s day numbers they would lie beyond 2060',
    'Spalte „{t1}“ zählt Tage; sie wurde als modifizierte julianische Tage gelesen, denn als Tageszahlen einer Tabelle lägen sie hinter 2060',
  ],
  [
    'the dates of column "{t1}" have no year ("{t2}"): the times within the run were read, but it has no date',
    'die Daten der Spalte „{t1}“ haben kein Jahr („{t2}“): Die Zeiten im Lauf wurden gelesen, aber er hat kein Datum',
  ],
  [
    'from line {q1} to {q2} column "{t1}" goes on by {q3} and the clock beside it, "{t2}", by {q4}: they disagree, and the times of "{t3}" were used',
    'von Zeile {q1} bis {q2} geht Spalte „{t1}“ um {q3} weiter und die Uhr daneben, „{t2}“, um {q4}: Sie widersprechen sich, und die Zeiten von „{t3}“ wurden genommen',
  ],
  [
    'if the clock is right, name it as "column" in a rig file',
    'stimmt die Uhr, so ist sie in einer Prüfstandsdatei als „column“ zu nennen',
  ],
  [
    'the times have two parts ("{t1}"); they were read as hours and minutes',
    'die Zeiten haben zwei Teile („{t1}“); sie wurden als Stunden und Minuten gelesen',
  ],
  [
    'if they are minutes and seconds, say "form": "elapsed-hms" in a rig file',
    'sind es Minuten und Sekunden, so ist in einer Prüfstandsdatei „form“: „elapsed-hms“ zu sagen',
  ],
  [
    'if they are hours and minutes, say "form": "time-of-day" in a rig file',
    'sind es Stunden und Minuten, so ist in einer Prüfstandsdatei „form“: „time-of-day“ zu sagen',
  ],
  [
    'column "{t1}": its heading says {t2} and the unit row {t3}; which is right cannot be told, so it has no unit here',
    'Spalte „{t1}“: Die Kopfzeile sagt {t2}, die Einheitenzeile {t3}; was stimmt, lässt sich nicht sagen, daher hat sie hier keine Einheit',
  ],
  ['say it in a rig file', 'sie ist in einer Prüfstandsdatei zu sagen'],
  [
    'column "{t1}": numbers such as "{t2}" end in a minus; whether it is their sign or a mark beside them cannot be told, so they were not read',
    'Spalte „{t1}“: Zahlen wie „{t2}“ enden mit einem Minus; ob es ihr Vorzeichen ist oder ein Zeichen daneben, lässt sich nicht sagen, daher wurden sie nicht gelesen',
  ],
  [
    'column "{t1}" holds hexadecimal numbers, such as "{t2}": none of its readings was taken',
    'Spalte „{t1}“ enthält hexadezimale Zahlen wie „{t2}“: Keiner ihrer Werte wurde genommen',
  ],
  ['export it in decimal numbers', 'sie ist in Dezimalzahlen zu exportieren'],
  ['export them with the sign in front', 'sie sind mit dem Vorzeichen davor zu exportieren'],
  [
    'column "{t1}": {q1} of {q2} readings bear a unit; the others were taken to be in {t2} too',
    'Spalte „{t1}“: {q1} von {q2} Werten tragen eine Einheit; von den anderen wurde angenommen, dass sie auch in {t2} sind',
  ],
  [
    'if they are not, say the unit in a rig file',
    'sind sie es nicht, so ist die Einheit in einer Prüfstandsdatei zu sagen',
  ],
  [
    'column "{t1}" bears other times than "{t2}", by which all readings were taken',
    'Spalte „{t1}“ trägt andere Zeiten als „{t2}“, nach der alle Werte genommen wurden',
  ],
  [
    'readings that belong to the other times stand at wrong ones: export them on their own',
    'Werte, die zu den anderen Zeiten gehören, stehen bei falschen: Sie sind für sich zu exportieren',
  ],
  [
    'line {q1} names {q2} columns and the rows have {q3}: which name belongs to which column cannot be told, so the columns go by their places',
    'Zeile {q1} nennt {q2} Spalten, und die Zeilen haben {q3}: Welcher Name zu welcher Spalte gehört, lässt sich nicht sagen, daher heißen die Spalten nach ihren Plätzen',
  ],
  [
    'name them in a rig file as "column 1", "column 2" and so on',
    'sie sind in einer Prüfstandsdatei als „column 1“, „column 2“ und so fort zu nennen',
  ],
  [
    'line {q1} names {q2} columns and the rows have {q3}: the names were given from the left',
    'Zeile {q1} nennt {q2} Spalten, und die Zeilen haben {q3}: Die Namen wurden von links vergeben',
  ],
  [
    'line {q1} names {q2} columns and the rows have {q3}: the numbers behind the times ("{t1}") were taken for the fractions of their seconds',
    'Zeile {q1} nennt {q2} Spalten, und die Zeilen haben {q3}: Die Zahlen hinter den Zeiten („{t1}“) wurden für die Bruchteile ihrer Sekunden genommen',
  ],
  ['check that each stands over its own column', 'zu prüfen ist, ob jeder über seiner Spalte steht'],
  [
    'line {q1} names {q2} columns and the rows have {q3}, the first of which counts the rows: the names were given from the second column on',
    'Zeile {q1} nennt {q2} Spalten, und die Zeilen haben {q3}, deren erste die Zeilen zählt: Die Namen wurden ab der zweiten Spalte vergeben',
  ],
  [
    'the last line has no line end; its last reading "{t1}" may be cut and was left out',
    'die letzte Zeile hat kein Zeilenende; ihr letzter Wert „{t1}“ kann abgeschnitten sein und wurde ausgelassen',
  ],
  [
    '{q1} row has a time that does not fit the rows on either side and was left out: row {q2} says {t1} after the first row, the row before it {t2}',
    '{q1} Zeile hat eine Zeit, die nicht zu den Nachbarn passt, und wurde ausgelassen: Zeile {q2} sagt {t1} nach der ersten Zeile, die Zeile davor {t2}',
  ],
  [
    '{q1} rows have times that do not fit the rows on either side and were left out; the first: row {q2} says {t1} after the first row, the row before it {t2}',
    '{q1} Zeilen haben Zeiten, die nicht zu den Nachbarn passen, und wurden ausgelassen; die erste: Zeile {q2} sagt {t1} nach der ersten Zeile, die Zeile davor {t2}',
  ],
  [
    '{q1} of {q2} rows have the same time as the row before: the times are coarser than the rows',
    '{q1} von {q2} Zeilen haben dieselbe Zeit wie die Zeile davor: Die Zeiten sind gröber als die Zeilen',
  ],
  [
    'rows that share a time share what it stands for; how fast something happened cannot be told more finely than the times',
    'Zeilen mit gleicher Zeit teilen sich, wofür sie steht; wie schnell etwas geschah, lässt sich nicht feiner sagen als die Zeiten',
  ],
  [
    'the date "{t1}" reads as {t2} and as {t3}, and nothing in the log decides; times within the run are not touched by it',
    'das Datum „{t1}“ liest sich als {t2} und als {t3}, und nichts in der Aufzeichnung entscheidet es; Zeiten im Lauf sind davon nicht betroffen',
  ],
  ['say "dateOrder" in a rig file', '„dateOrder“ gehört in eine Prüfstandsdatei'],
  [
    'the time is a 16-bit count that began again at {q1} {q2} time; it was read on',
    'die Zeit ist ein 16-Bit-Zähler, der {q2}-mal bei {q1} von vorn begann; er wurde weitergelesen',
  ],
  [
    'the time is a 16-bit count that began again at {q1} {q2} times; it was read on',
    'die Zeit ist ein 16-Bit-Zähler, der {q2}-mal bei {q1} von vorn begann; er wurde weitergelesen',
  ],
  [
    'the time is a 32-bit count that began again at {q1} {q2} time; it was read on',
    'die Zeit ist ein 32-Bit-Zähler, der {q2}-mal bei {q1} von vorn begann; er wurde weitergelesen',
  ],
  [
    'the time is a 32-bit count that began again at {q1} {q2} times; it was read on',
    'die Zeit ist ein 32-Bit-Zähler, der {q2}-mal bei {q1} von vorn begann; er wurde weitergelesen',
  ],
  ['{c1}; {c2}', '{c1}; {c2}'],
  ['{c1}, {c2}: {c3}', '{c1}, {c2}: {c3}'],
];

export const german: Phrases = {
  chart,
  sentence: saidIn(sayings, ','),
  chartTitle: (logName) => `Prüflauf${logName === null ? '' : ` ${logName}`}`,
  dateInWords,
  title: 'Lieferprotokoll',
  subtitle: 'Hydraulischer Overdrive: Prüfstandslauf nach Überholung',
  record: (number) => `Protokoll ${number}`,
  recordWord: 'Protokoll',
  issued: (date) => `ausgestellt am ${date}`,
  inPlaceOf: (number) => `anstelle von ${number}`,
  verdict: {
    pass: 'bestanden',
    fail: 'nicht bestanden',
    undecided: 'unentschieden',
    'not-assessed': 'nicht beurteilt',
  },
  criteria: {
    'operating-pressure': { plain: 'Druck in warmem Zustand', engineer: 'Betriebsdruck' },
    'time-in-band': { plain: 'Zeit innerhalb der Grenzen', engineer: 'Zeitanteil im Band' },
    drift: { plain: 'Änderung in warmem Zustand', engineer: 'Drift über die Haltezeit' },
    settling: { plain: 'Zeit, bis er ruhig steht', engineer: 'Einschwingzeit' },
    'run-length': { plain: 'Dauer des Laufs', engineer: 'Laufdauer' },
    'hold-temperature': { plain: 'Öltemperatur', engineer: 'Öltemperatur, Haltezeit' },
    'peak-pressure': { plain: 'höchster Druck', engineer: 'Spitzendruck' },
    ripple: { plain: 'Zittern des Drucks', engineer: 'Welligkeit' },
    'engagement-rise': { plain: 'Zeit zum Einrücken', engineer: 'Anstieg beim Einrücken' },
    'engagement-dip': { plain: 'Einbruch beim Einrücken', engineer: 'Einbruch beim Einrücken' },
    'engagement-recovery': { plain: 'Erholung nach dem Einrücken', engineer: 'Erholung nach dem Einrücken' },
    'fall-after-release': { plain: 'Zeit zum Ausrücken', engineer: 'Abfall nach dem Ausrücken' },
    'released-pressure': { plain: 'Druck in ausgerücktem Zustand', engineer: 'Druck, ausgerückt' },
    'leak-down': { plain: 'Druckhaltung nach dem Halt', engineer: 'Abfall auf die Hälfte' },
    'plateau-spread': { plain: 'Streuung der Einrückungen', engineer: 'Streuung der Niveaus' },
    'solenoid-current': { plain: 'Strom des Magneten', engineer: 'Magnetstrom, höchster' },
    'record-coverage': { plain: 'Anteil mit Aufzeichnung', engineer: 'Aufzeichnungsgrad' },
  },
  facts: {
    unit: 'Gerät',
    serial: 'Seriennummer',
    cameIn: 'Eingang',
    customer: 'Kunde',
    rebuiltBy: 'Überholt von',
    testedOn: 'Geprüft am',
  },
  sameReason: 'aus demselben Grund',
  between: (low, high) => `${low} bis ${high}`,
  atMost: (limit) => `höchstens ${limit}`,
  atLeast: (limit) => `mindestens ${limit}`,
  upOrDown: (allowed) => `${allowed}, auf oder ab`,
  up: (size) => `${size} aufwärts`,
  down: (size) => `${size} abwärts`,
  table: {
    tested: 'Geprüft',
    allowed: 'Erlaubt',
    found: 'Gefunden',
    foundAgainstAllowed: 'Schraffiert: nicht erlaubt',
    result: 'Ergebnis',
  },
  moreMet: (count, name, page) =>
    count === 1
      ? `Eine weitere Grenze, ${name}, ist eingehalten: Seite ${page}.`
      : `${countWord(count)} weitere Grenzen sind eingehalten: Seite ${page}.`,
  moreRows: (count, page) =>
    `${countWord(count)} weitere ${count === 1 ? 'Grenze steht' : 'Grenzen stehen'} auf Seite ${page}.`,
  headline: {
    passed: 'Das Gerät hielt jede Grenze der Prüfung ein.',
    passedAfter: (count) =>
      count === 1
        ? 'Nach einer Einstellung hielt das Gerät jede Grenze ein.'
        : `Nach ${countWord(count).toLowerCase()} Einstellungen hielt das Gerät jede Grenze ein.`,
    failed: (count, clause) =>
      `${countWord(count)} ${count === 1 ? 'Grenze ist' : 'Grenzen sind'} nicht eingehalten: ${clause}.`,
    gaugeTooCoarse: 'Unentschieden: Das Messgerät ist zu grob dafür.',
    tooNear: 'Unentschieden: zu nahe an der Grenze.',
    tooNearNamed: (name) => `Unentschieden: ${name} liegt zu nahe an der Grenze.`,
    notAssessed: (reason) => `Nicht beurteilt: ${reason}.`,
    notAssessedNamed: (count, name) =>
      count === 1
        ? `Nicht beurteilt: ${name}.`
        : `${countWord(count)} Grenzen sind nicht beurteilt: ${name} und ${count === 2 ? 'eine andere' : 'andere'}.`,
    noLimits: 'Nicht beurteilt: Es war keine Grenze gesetzt.',
  },
  failure: {
    pressure: (size, high) => `der Druck ist ${size} zu ${high ? 'hoch' : 'niedrig'}`,
    timeInBand: (share) => `der Druck lag nur ${share} der Zeit innerhalb der Grenzen`,
    drift: (size) => `der Druck änderte sich warm um ${size}`,
    settling: (duration) =>
      duration === null ? 'der Druck kam nie zur Ruhe' : `der Druck kam erst nach ${duration} zur Ruhe`,
    runLength: (duration) => `der Lauf dauerte nur ${duration}`,
    oil: (size, hot) => `das Öl war ${size} zu ${hot ? 'heiß' : 'kalt'}`,
    coverage: (share) => `nur ${share} des Laufs sind aufgezeichnet`,
    other: (name, found, allowed) => `${name} war ${found}, erlaubt ist ${allowed}`,
  },
  body: {
    firstTest: (average, place) =>
      `Im ersten Test betrug der Druck im Mittel ${average}${place === null ? '' : `, das ist ${place}`}.`,
    firstTestPlace: (size, above) => `${size} ${above ? 'über der oberen' : 'unter der unteren'} Grenze`,
    changedShims: (change, added) =>
      `Wir haben ${change} Scheiben unter der Regelfeder ${added ? 'zugelegt' : 'herausgenommen'}`,
    ran: (duration, speed, again) =>
      again
        ? ` und wieder ${duration} geprüft${speed === null ? '' : `, bei ${speed}`}.`
        : `Wir haben das überholte Gerät ${duration} auf dem Prüfstand laufen lassen${speed === null ? '' : `, bei ${speed}`}.`,
    warmAfter: (duration, oil) => `Nach ${duration} stand es ${oil ? 'warm und ' : ''}ruhig.`,
    judgedFrom: (duration) =>
      `Beurteilt wurde es ab ${duration}; der Druck stand nicht die ganze Zeit ruhig.`,
    averaged: (duration, value, uncertainty) => [
      { text: `Von da an, über ${duration}, betrug der Öldruck, der die Kupplung betätigt, im Mittel ` },
      { text: value, strong: true },
      { text: uncertainty === null ? '.' : `, ${uncertainty} mehr oder weniger.` },
    ],
    hasToLie: (low, high) => `Er muss zwischen ${low} und ${high} liegen`,
    hasToBe: (allowed) => `Er muss ${allowed} betragen`,
    withRoom: (both) => (both ? ' und tut es mit Abstand nach beiden Seiten.' : ' und tut es mit Abstand.'),
    within: () => ' und tut es.',
    upperLimitIs: (limit) => `Die obere Grenze ist ${limit}.`,
    lowerLimitIs: (limit) => `Die untere Grenze ist ${limit}.`,
    couldBeOut: (uncertainty) =>
      `, aber die Zahl kann um ${uncertainty} nach beiden Seiten falsch sein, und das reicht über eine Grenze hinaus.`,
    othersMet: (count) =>
      count === 1 ? 'Die andere Grenze ist eingehalten.' : 'Die anderen Grenzen sind eingehalten.',
    stillRunning: 'Der Lauf war noch nicht zu Ende, als dies geschrieben wurde.',
    gaugeNotStated: 'Wie gut das Messgerät ist, war nicht angegeben.',
    concession: (page) =>
      `Das Gerät geht so und mit Wissen des Kunden hinaus (Sonderfreigabe, Seite ${page}); aus dem Ergebnis wird dadurch kein Bestehen.`,
    notReleased: 'Es ist nicht freigegeben.',
    releasedWithoutConcession: 'Es wurde ohne eingetragene Sonderfreigabe herausgegeben.',
    alsoNotMet: (name, found, allowed) => `${name}: ${found}, erlaubt ist ${allowed}.`,
    because: (name, reason) => `${name}: ${reason}.`,
    noOilTemperature: 'Die Öltemperatur wurde nicht aufgezeichnet.',
    nothingEngaged: 'Das Protokoll zeigt kein Einrücken; es gab nichts zu beurteilen.',
  },
  howToRead: {
    judged:
      'So liest man es: Wo der Balken unter dem großen Feld schwarz ist, soll die schwarze Linie zwischen den beiden dicken Linien laufen, frei von der Schraffur. Der kalte Anfang ist gezeigt, aber nicht beurteilt.',
    column: 'Das Mittel, in der Säule rechts, besteht im freien Teil.',
    notJudged:
      'So liest man es: Das große Feld zeigt einen Teil des Streifens darüber, vergrößert. Von diesem Lauf wurde nichts beurteilt.',
    noLimits:
      'So liest man es: Das große Feld zeigt einen Teil des Streifens darüber, vergrößert. Es waren keine Grenzen gesetzt.',
  },
  oilNotice: {
    drained: 'KEIN ÖL IN DIESEM GERÄT.',
    fill: 'Vor dem ersten Drehen füllen, wie es das Werkstatthandbuch sagt.',
    filled: (quantity, grade) => `Gefüllt mit ${quantity === null ? '' : `${quantity} `}${grade}.`,
    keep: (page) =>
      page === null
        ? 'Dieses Protokoll beim Gerät lassen.'
        : `Dieses Protokoll beim Gerät lassen. Auf Seite ${page} ist Platz für spätere Werte; sie zeigen, ob sich etwas geändert hat.`,
  },
  footer: (number, serial) =>
    `Lieferprotokoll${number === null ? '' : ` ${number}`}. Gilt nur für das geprüfte Gerät${serial === null ? '' : `, Nummer ${serial}`}. Nur im Ganzen kopieren.`,
  page: (number, of) => `Seite ${number} von ${of}`,
  endOfRecord: 'Ende des Protokolls',
  engineer: {
    head: 'Für den Techniker.',
    tested: (serial, date) =>
      `Overdrive${serial === null ? '' : ` ${serial}`}${date === null ? '' : `, geprüft am ${date}`}`,
  },
  sections: {
    criteria: 'Kriterien',
    budget: 'Messunsicherheit des Betriebsdrucks',
    setAside: 'Ausgesonderte Werte',
    remarks: 'Abweichungen und Bemerkungen',
    instruments: 'Messgeräte',
    method: 'Wie gerechnet wurde',
    relief: 'Einstellung des Druckventils',
    work: 'Arbeiten am Gerät',
    concession: 'Sonderfreigabe. Das Ergebnis bleibt:',
    fitter: 'Für den Einbau',
    later: 'Spätere Werte (vergleichbar nur bei gleichem Öl, gleicher Drehzahl und Temperatur)',
    release: 'Aufzeichnung und Freigabe',
    howToRead: 'Wie man das Bild auf Seite 1 liest',
  },
  criteriaTable: {
    criterion: 'Kriterium',
    allowed: 'Erlaubt',
    found: 'Gefunden',
    uncertainty: 'U',
    rule: 'Regel',
    chance: 'Konform mit',
    verdict: 'Ergebnis',
  },
  notUsed: 'entfällt',
  rules: { guarded: 'mit Abstand', simple: 'einfach' },
  ruleSentence: {
    guarded:
      'Mit Abstand: bestanden nur, wenn der Wert um mindestens U innerhalb liegt; nicht bestanden nur, wenn um mehr als U außerhalb; dazwischen unentschieden.',
    guardedFactor: (factor) =>
      `Mit Abstand: bestanden nur, wenn der Wert um mindestens ${factor} U innerhalb liegt; nicht bestanden nur, wenn um mehr als ${factor} U außerhalb; dazwischen unentschieden.`,
    simple: 'Einfach: innerhalb ist bestanden.',
    uncertainty: (coverage) => `U ist die erweiterte Messunsicherheit bei etwa ${coverage}.`,
  },
  limitsFrom: (source) => `Grenzen: ${source}.`,
  shownUnits: {
    band: (allowed, shown) => `Festgelegt und beurteilt als ${allowed}; angegeben in ${shown}.`,
    pressure: (from, to) => `1 ${from} = ${to}.`,
    temperature: (from, to) => `Temperaturen sind in ${from} beurteilt und in ${to} angegeben.`,
  },
  noSource: 'Grenzen: Ihre Herkunft ist nicht angegeben.',
  chance: { almostSure: 'mehr als 0,9999', almostNone: 'weniger als 0,0001' },
  budget: {
    heading: (unit) => `Messunsicherheit des Betriebsdrucks, ${unit}`,
    columns: { source: 'Quelle', type: 'Typ', size: 'Größe', takenAs: 'Verteilung', u: 'u' },
    sources: {
      scatter: 'Streuung der Werte',
      accuracy: 'Messgerät, Genauigkeit',
      resolution: 'Anzeigeschritt',
      calibration: 'Kalibrierung',
      zero: 'Nullpunkt',
      temperature: 'Temperatur',
    },
    distributions: {
      rectangular: 'Rechteck',
      normal: 'normal',
      triangular: 'Dreieck',
      arcsine: 'Arkussinus',
      t: 'Werte',
    },
    combined: (u, k, degrees) =>
      `Zusammen u = ${u}; k = ${k}${degrees === null ? '' : ` (${degrees} Freiheitsgrade)`}; `,
    expanded: (U) => `U = ${U}`,
    none: (reason) =>
      reason === null
        ? 'Eine Unsicherheit ließ sich nicht angeben.'
        : `Eine Unsicherheit ließ sich nicht angeben: ${reason}.`,
  },
  setAside: {
    columns: { why: 'Warum', count: 'Anzahl', rule: 'Regel' },
    why: {
      missing: 'Fehlend',
      faultToken: 'Fehlerzeichen',
      outOfRange: 'Außer Bereich',
      stuck: 'Hängend',
      spike: 'Spitze (× im Bild)',
    },
    whyPlain: {
      missing: 'fehlend',
      faultToken: 'Fehlerzeichen',
      outOfRange: 'außer Bereich',
      stuck: 'hängend',
      spike: 'Spitze',
    },
    rule: {
      missing: 'leere Zelle',
      faultToken: 'keine Zahl',
      outOfRange: 'jenseits des Bereichs',
      stuck: 'über 60 s derselbe Wert',
      spike: 'über 6 × skalierter MAD',
    },
    used: (used, of) => `${used} von ${of} Druckwerten verwendet.`,
    noneOf: (names) =>
      `${names.join(', ').replace(/^./, (first) => first.toUpperCase())}: ${names.length > 1 ? 'je ' : ''}0.`,
    otherChannel: (column, used, of) => `${column}: ${used} von ${of} verwendet.`,
    gaps: (count) => (count === 1 ? 'Eine Lücke' : `${countWord(count)} Lücken`),
    gap: (duration, from, to) => (from === null || to === null ? duration : `${duration}, ${from} bis ${to}`),
    noGap: 'Keine Lücke.',
    notBridged: 'nicht überbrückt.',
    moreGaps: (count) => `und ${count} weitere`,
    coverage: (share) => `Aufzeichnungsgrad ${share}.`,
    skippedRows: (count) => `${countWord(count)} ${count === 1 ? 'Zeile war' : 'Zeilen waren'} nicht lesbar.`,
  },
  remarks: {
    notPart: 'Nicht Teil dieser Prüfung: Fahrlast, Laufgeräusch, Sitz im Fahrzeug.',
    criterion: (name, verdict, reason) => `${name}: ${verdict}. ${reason}.`,
    choice: (what, from, to, by, on, why) =>
      `Von Hand gesetzt: ${what}${from === null ? '' : `, von ${from}`}${to === null ? '' : ` bis ${to}`} (${by}${on === null ? '' : `, ${on}`}): ${why}`,
    choiceKinds: {
      'join-engagements': 'Einrückungen verbunden',
      'gap-not-clock-step': 'Uhrensprung als Lücke genommen',
      'hold-start': 'Beginn des beurteilten Teils',
      'hold-end': 'Ende des beurteilten Teils',
      'leave-out': 'ein Teil ausgelassen',
    },
    stillRunning: 'Der Lauf war noch nicht zu Ende: Das Ergebnis kann sich ändern.',
    replaces: (number, reason) => `Dieses Protokoll ersetzt Protokoll ${number}: ${reason}.`,
    leftOut: (sections) => `In diesem Protokoll weggelassen: ${sections.join('; ')}.`,
    lettersMissing: (letters) => `Zeichen, die diese Schrift nicht hat, sind als „?“ gedruckt: U+${letters}.`,
    clockStep: (size, place) => `Die Uhr des Loggers sprang um ${size} nach ${place}.`,
    stoppedBefore: (name) => `${name}: im Bild gezeigt und mitgezählt.`,
  },
  instruments: {
    columns: { instrument: 'Gerät', range: 'Bereich, Güte', calibrated: 'Kalibriert', due: 'Fällig' },
    roles: {
      pressure: 'Druck',
      'oil-temperature': 'Ölfühler',
      'ambient-temperature': 'Raumfühler',
      'shaft-speed': 'Drehzahl',
      'solenoid-current': 'Magnetstrom',
      'solenoid-command': 'Magnet, Befehl',
      flow: 'Durchfluss',
    },
    notSet: 'offen',
    none: 'Messgeräte und ihre Kalibrierung: nicht angegeben.',
    ofSpan: 'Güte in Prozent des Bereichs.',
    ofReading: (percent) => `${percent} vom Wert`,
    interval: (interval, column) =>
      `Ein Wert je ${interval}${column === null ? '' : `; Druck aus Spalte „${column}“`}.`,
  },
  method: {
    labels: {
      smoothing: 'Glättung',
      judged: 'Beurteilt',
      settled: 'Ruhig heißt',
      drift: 'Drift',
      bench: 'Prüfstand',
      oil: 'Öl',
      zero: 'Null in Ruhe',
      behaviour: 'Einrückungen',
    },
    smoothing: (method, window) =>
      method === 'none'
        ? 'keine'
        : `${{ median: 'gleitender Median', mean: 'gleitendes Mittel', 'savitzky-golay': 'Savitzky–Golay' }[method]}, ${window}`,
    judged: (from, to) => `${from} bis ${to} der Aufzeichnung`,
    settled: (tolerance) => `bleibt innerhalb ${tolerance} des Endwerts`,
    drift: 'robuste Steigung von Blockmedianen',
    zero: (value, subtracted) => `${value}, ${subtracted ? 'abgezogen' : 'nicht abgezogen'}`,
    ambient: (text) => `Raum ${text}`,
    drained: 'abgelassen',
    leftIn: 'im Gerät',
    joined: (count) => `${count} zu einem Lauf verbunden`,
  },
  relief: {
    columns: { step: 'Schritt', shims: 'Scheiben, mm', pressure: 'Druck', verdict: 'Ergebnis' },
    asFound: 'Vorgefunden',
    asLeft: 'Übergeben',
    after: (number) => `Nach Schritt ${number}`,
    notRecorded: 'nicht notiert',
  },
  work: {
    done: 'Ausgeführt: ',
    renewed: 'Erneuert: ',
    condition: 'Zustand bei Eingang: ',
    notes: 'Notizen: ',
    warranty: 'Bedingungen: ',
  },
  concession: {
    heading: 'Sonderfreigabe. Das Ergebnis bleibt:',
    delivered: (what) => `${what}: so geliefert.`,
    reason: 'Grund: ',
    agreedBy: 'einverstanden (Kunde), Name',
    signature: 'Unterschrift',
    date: 'Datum',
  },
  fitter: [
    'Das Werkstatthandbuch des Geräts und die örtlichen Vorschriften gehen vor; dieses Protokoll ersetzt keines davon.',
    'Die Ölkanäle stehen nach dem Anhalten der Welle noch unter Druck. Vor dem Öffnen eines Stopfens ablassen, wie es das Handbuch sagt.',
    'Mit dem Öl füllen, das das Handbuch nennt, vorfüllen und den Stand vor der ersten Fahrt prüfen.',
  ],
  fitterSolenoid: (current) =>
    `Der Magnet nahm auf dem Prüfstand bis ${current} auf; Leitung, Sicherung und Schalter nach dem Handbuch.`,
  later: {
    heading: 'Spätere Werte (vergleichbar nur bei gleichem Öl, gleicher Drehzahl und Temperatur)',
    columns: {
      date: 'Datum',
      distance: 'Strecke oder Stunden',
      pressure: 'Druck',
      oil: 'Öl',
      speed: 'Drehzahl',
      gauge: 'Messgerät',
      readBy: 'Abgelesen von',
    },
    atDelivery: 'bei Lieferung',
    thisRecord: 'Protokoll',
  },
  release: {
    log: (name, rows, firstTest) =>
      `${firstTest === null ? '' : firstTest ? 'Erster Test: ' : 'Zweiter Test: '}${name}, ${rows} Zeilen.`,
    part: (name) => `Teil ${name}.`,
    hash: (hash) => `SHA-256 ${hash}.`,
    assessmentHash: (hash) => `Auswertung: SHA-256 ${hash}.`,
    attached: 'Die Aufzeichnung liegt dieser Datei bei; die Prüfsumme zeigt, ob eine Kopie dieselbe ist.',
    contact: 'Fragen: ',
    workedOutBy: (version) => `Gerechnet mit overdrive-bench ${version}.`,
    notAttached:
      'Die Aufzeichnung liegt getrennt von dieser Datei; die Prüfsumme zeigt, ob eine Kopie dieselbe ist.',
    code: 'Der Quadratcode enthält Protokollnummer und Prüfsumme der Aufzeichnung.',
    by: 'geprüft und freigegeben von, Name',
    signature: 'Unterschrift',
    date: 'Datum',
  },
  alt: {
    chart: (pressureUnit, oilUnit, charged) =>
      `Liniendiagramm des Öldrucks in ${pressureUnit}${oilUnit === null ? '' : ` und der Öltemperatur in ${oilUnit}`} über der Zeit seit dem ${charged ? 'Druckaufbau' : 'Einrücken'}.`,
    firstTest: (text, step) => `Erster Test: ${text} Dann ${step}. Zweiter Test:`,
    startsHigh: 'Kalt beginnt der Druck hoch.',
    settles: (duration) => `Er kommt nach ${duration} zur Ruhe.`,
    stays: (value, duration) => `Er beträgt über ${duration} beurteilter Zeit im Mittel ${value}.`,
    limits: (low, high) =>
      low !== null && high !== null
        ? `Grenzen ${low} und ${high}.`
        : low === null
          ? `Obere Grenze ${high ?? ''}.`
          : `Untere Grenze ${low}.`,
    noReadings: (duration, after) => `Keine Werte für ${duration} nach ${after}.`,
    beyond: (text) => `Werte außerhalb des Feldes: ${text}.`,
    oil: (mean) => `Öl ${mean} in der beurteilten Zeit.`,
    notJudged: 'Nichts davon wurde beurteilt.',
    figures: 'Alle Zahlen stehen in den Tabellen.',
    strip: (name, found, allowed, verdict) => `${name}: ${found}, erlaubt ${allowed}: ${verdict}`,
    code: 'Quadratcode mit Protokollnummer und Prüfsumme der Aufzeichnung',
    logo: (shop) => (shop === null ? 'Zeichen der Werkstatt' : `Zeichen von ${shop}`),
  },
};
