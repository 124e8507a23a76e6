/* oxlint-disable max-lines -- a language is one file */
import type { ChartWords } from '#drawing/chart-words.ts';
import type { Phrases } from './phrases.ts';

/** German, as proof that a language is one file. Texts that come from the assessment (reasons, remarks) stay in its language. */

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

export const german: Phrases = {
  chart,
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
    foundAgainstAllowed: 'Gefunden und erlaubt (schraffiert: nicht)',
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
