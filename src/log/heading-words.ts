/** Headings that name a time; a lone T with another word beside it is a temperature. */
export const timeName =
  /^\W*(?:(?:time|zeit|timestamp|time ?stamp|temps|tiempo|tempo|tid|czas|čas|idő|tijd|время|дата|zaman|时间|時刻|clock|date|datetime|datum)(?![a-z])|[tx](?=\W*$|[\s_]*[[(</]|[\s_.]+(?:s|secs?|seconds?|ms|msecs?|min|h|[µμu]s|rel|abs|run|elapsed)(?![a-z])))/iu;
/** Headings that name a time from the start. */
export const elapsedName =
  /elapsed|(?:run|up)[ _]?time|laufzeit|duration|since|test ?time|messzeit|verstrichen|écoulé|transcurrido|trascorso/iu;
/** Headings that name a count from a fixed day. */
export const epochName = /epoch|posix|unix|timestamp|utc/iu;
/** Headings that name a count of the rows. */
export const recordName =
  /^\W*(?:#|n|no|nr|num|number|sample|index|idx|record|rec|rn|count|counter|scan|row|i|id|point|lfd\.? ?nr|messung|reading)(?:[\s._#]*(?:no|nr|number|num|index|id))?\W*$/iu;
const timeWords =
  /^(?!.*(?:dat|day|tag|jour|d[ií]a)).*(?:time|zeit|uhr|clock|hour|heure|hora|(?:^|[^a-z])(?:ora|tid|aika)(?![a-z]))/iu;
/** Whether a heading means a time of day. */
export const saysTime = (heading: string): boolean => timeWords.test(heading);

/** Dates of something else than the row: of a batch, a calibration, what is due (common practice, no source). */
const otherDate =
  /(?<![a-z])(?:batch|lot|charge|serial|part|ref|reference|code|cal|calibrat\w*|kalibr\w*|due|fällig|built?|baujahr|manufact\w*|program\w*|firmware|version|expir\w*|next|last|letzte\w*|nächste\w*|order\w*|deliver\w*)(?![a-z])/iu;
/** Whether a heading speaks of a date that is not the row's. */
export const isOtherDate = (heading: string): boolean => otherDate.test(heading);
/** Times of something else than the row: wanted, left to go, of a beginning or an end. */
const otherTime =
  /(?<![a-z])(?:set|setpoint|shift|schicht\w*|start\w*|begin\w*|beginn|stop|end|ende|left|remain\w*|to go|rest\w*|eta|last|next|letzte\w*|nächste\w*|due|soll\w*|sollwert|limit|timeout)(?![a-z])/iu;
/** Whether a heading speaks of a time that is not the row's. */
export const isOtherTime = (heading: string): boolean => otherTime.test(heading);

/** Headings of numbers that rise like a count of time and are none. */
const otherCount =
  /serial|seri[eè]|count|zähl|puls|impuls|rev|total|sum|(?:^|[^a-z])(?:ids?|uid|guid|no|nr|num|number|code|key|seq\w*|adr\w*|addr\w*)(?![a-z])/iu;
/** Whether a heading speaks of what rises like a count of time and is none. */
export const isOtherCount = (heading: string): boolean => otherCount.test(heading);

/** What may stand in the heading of a clock; "Lead time" and "Cycle time" are lengths of time. */
const clockWord =
  /^(?:time|times|timestamp|stamp|clock|hours?|local|utc|gmt|rtc|gps|pc|sys|system|log|logg(?:ed|er|ing)|real|of|at|sample|scan|record(?:ed|ing)?|reading|meas\w*|(?:orts|system|lokal|log|mess)?(?:uhr)?zeit(?:punkt|stempel)?|uhr|heure|horaire|hora|ora|orario|tid|tidpunkt|aika|kellonaika|h{1,2}m{1,2}(?:s{1,2})?|h{1,2}|m{1,2}|s{1,2})$/iu;
/** Whether a heading names the time of day and nothing beside it. */
export const namesClock = (heading: string): boolean =>
  saysTime(heading) &&
  heading
    .split(/[^\p{L}]+/u)
    .filter((word) => word !== '')
    .every((word) => clockWord.test(word));

const dateWord =
  /dat|day|tag|jour|d[ií]a(?![a-z])|fecha|giorno|dag(?![a-z])|päivä|pvm|dátum|nap(?![a-z])|дата|день|日|날짜|dzie[nń]|(?:^|[^a-z])den(?![a-z])|tarih|(?:^|[^a-z])d(?![a-z])|time|zeit|stamp|when|clock|[dty]{1,2}[-./ ]?m{1,3}/iu;
/** Whether a heading says date or time, or nothing at all. */
export const maySayDate = (heading: string): boolean => !/\p{L}/u.test(heading) || dateWord.test(heading);
/** Whether a heading names date or time, and nothing that only has one in it. */
export const namesDateTime = (heading: string): boolean =>
  (timeName.test(heading) || epochName.test(heading) || namesClock(heading) || /stamp/iu.test(heading)) &&
  !isOtherDate(heading) &&
  !isOtherTime(heading) &&
  !isOtherCount(heading);
