/** Headings that name a time; a lone T with another word beside it is a temperature. */
export const timeName =
  /^\W*(?:(?:time|zeit|timestamp|time ?stamp|temps|tiempo|tempo|tid|czas|čas|idő|tijd|время|дата|zaman|时间|時刻|clock|date|datetime|datum)(?![a-z])|[tx](?=\W*$|[\s_]*[[(</]|[\s_.]+(?:s|secs?|seconds?|ms|msecs?|min|h|[µμu]s|rel|abs|run|elapsed)(?![a-z])))/iu;
/** Headings that name a count of the rows. */
export const recordName =
  /^\W*(?:#|n|no|nr|num|number|sample|index|idx|record|rec|rn|count|counter|scan|row|i|id|point|lfd\.? ?nr|messung|reading)(?:[\s._#]*(?:no|nr|number|num|index|id))?\W*$/iu;
const timeWords =
  /^(?!.*(?:dat|day|tag|jour|d[ií]a)).*(?:time|zeit|uhr|clock|hour|heure|hora|(?:^|[^a-z])(?:ora|tid|aika)(?![a-z]))/iu;
/** Whether a heading means a time of day. */
export const saysTime = (heading: string): boolean => timeWords.test(heading);
