/**
 * What stops a piece of work, as data: facts only. `problemSentence` makes the words (what, where, what would mend it);
 * the app and the command line add where to click or what to type.
 */
export type Problem =
  | { code: 'empty-file'; file: string | null }
  | { code: 'no-table'; file: string | null; reason: string }
  | { code: 'no-readings'; file: string | null }
  /** Of a row: its line, and the cell's text. Of the whole file: the column that should be the time, what it holds, and its first cell. */
  | {
      code: 'no-usable-time';
      file: string | null;
      line: number | null;
      text: string | null;
      column?: string;
      reason?: string;
    }
  | { code: 'time-runs-down'; file: string | null; column: string | null }
  | { code: 'file-not-readable'; file: string; reason: string }
  | { code: 'output-not-writable'; file: string; reason: string }
  | { code: 'no-pressure-column'; file: string | null; columns: string[] }
  | { code: 'several-pressure-columns'; file: string | null; columns: string[] }
  | { code: 'role-used-twice'; file: string | null; role: string; columns: string[] }
  | { code: 'pressure-without-unit'; file: string | null; column: string; median: number | null }
  | { code: 'unit-of-wrong-kind'; file: string | null; column: string; unit: string; role: string }
  | { code: 'signal-of-wrong-kind'; file: string | null; column: string; unit: string; signal: string }
  | { code: 'parts-do-not-join'; file: string | null; reason: string }
  | { code: 'column-not-in-log'; file: string | null; column: string; columns: string[] }
  | { code: 'not-json'; file: string | null; line: number | null; reason: string }
  | { code: 'wrong-format'; file: string | null; expected: string; found: string | null }
  | { code: 'bad-field'; file: string | null; path: string; reason: string }
  | { code: 'bad-band'; text: string; reason: string }
  | { code: 'judge-refused'; choice: number; reason: string }
  | { code: 'no-book'; place: string; reason: string }
  | { code: 'no-record'; file: string | null; reason: string }
  | { code: 'no-first-test'; reason: string }
  | { code: 'bad-logo'; file: string | null; reason: string }
  | { code: 'cancelled' };

/** A result that may be refused for reasons a person can mend. */
export type Result<T> = { ok: true; value: T } | { ok: false; problems: Problem[] };

const where = (file: string | null): string => (file === null ? 'The input' : file);
const list = (names: readonly string[]): string => names.map((name) => `"${name}"`).join(', ');

/** One sentence: what is wrong, where, and what would mend it. */
export function problemSentence(problem: Problem): string {
  switch (problem.code) {
    case 'empty-file':
      return `${where(problem.file)} is empty. Export the run again and bring that file in.`;
    case 'no-table':
      return `${where(problem.file)} has no table of readings: ${problem.reason}. Export the run as text, one row a reading, and bring it in again.`;
    case 'no-readings':
      return `${where(problem.file)} has a heading but no row with a reading. Check that the logger was recording and export again.`;
    case 'no-usable-time':
      if (problem.line === null && problem.reason !== undefined)
        return `${where(problem.file)} has no column that can be read as time: "${problem.column ?? ''}" holds ${problem.reason} ("${problem.text ?? ''}"). Name the column of the time and its form in a rig file ("time": { "column": …, "form": … }), or give "interval_s" there if each row is one sample.`;
      return problem.line === null
        ? `${where(problem.file)} has no column that can be read as time. Name it in a rig file ("time": { "column": … }), or give "interval_s" there if each row is one sample.`
        : `${where(problem.file)}, line ${problem.line}: the time "${problem.text ?? ''}" cannot be read. Name the time column, its form and the order of day and month in a rig file, or correct them there.`;
    case 'time-runs-down':
      return `${where(problem.file)}: ${problem.column === null ? 'the time' : `the time "${problem.column}"`} falls from row to row: a count that runs down, or the newest reading stands first. Name the column of the true time in a rig file, or turn the rows round so that the oldest comes first.`;
    case 'file-not-readable':
      return `${problem.file} cannot be read: ${problem.reason}. Check the name and the folder.`;
    case 'output-not-writable':
      return `${problem.file} cannot be written: ${problem.reason}. Nothing was written; choose another place.`;
    case 'no-pressure-column':
      return `${where(problem.file)} has no column that can be told to be the pressure; it has ${list(problem.columns)}. Say which in a rig file ("channels": [{ "column": …, "role": "pressure", "unit": … }]).`;
    case 'several-pressure-columns':
      return `${where(problem.file)} has more than one pressure column: ${list(problem.columns)}. Say in a rig file which one to judge and give the others the role "ignored".`;
    case 'role-used-twice':
      return `${where(problem.file)}: the role "${problem.role}" is given to ${list(problem.columns)}. Leave it with one and give the others the role "ignored".`;
    case 'pressure-without-unit':
      return `${where(problem.file)}: the pressure column "${problem.column}" has no unit in its heading, unit row or rig file${problem.median === null ? '' : ` (its usual reading is ${problem.median})`}. Say the unit in a rig file ("unit": "psi", "bar", "kPa" …).`;
    case 'unit-of-wrong-kind':
      return `${where(problem.file)}: "${problem.unit}" is not a unit for ${problem.role} (column "${problem.column}"). Give a unit of the right kind.`;
    case 'signal-of-wrong-kind':
      return `${where(problem.file)}: column "${problem.column}" is in ${problem.unit}, and the rig file reads it as a signal of ${problem.signal}. Correct the signal's "kind" in the rig file, or name the column that carries it.`;
    case 'parts-do-not-join':
      return `${where(problem.file)} cannot be a part of the same run: ${problem.reason}. Bring in only the files of one run, from one logger.`;
    case 'column-not-in-log':
      return `${where(problem.file)} has no column "${problem.column}"; it has ${list(problem.columns)}. Correct the name in the rig file.`;
    case 'not-json':
      return `${where(problem.file)}${problem.line === null ? '' : `, line ${problem.line}`} is not JSON: ${problem.reason}. Correct it and try again.`;
    case 'wrong-format':
      return `${where(problem.file)} is not the file it should be: "format" is ${problem.found === null ? 'missing' : `"${problem.found}"`}, expected "${problem.expected}". Name the right file.`;
    case 'bad-field':
      return `${where(problem.file)}: ${problem.path}: ${problem.reason}.`;
    case 'bad-band':
      return `The band "${problem.text}" cannot be read: ${problem.reason}. Write it like "400..420 psi", "400.. psi" or "..420 psi".`;
    case 'judge-refused':
      return `Choice ${problem.choice + 1} of the judge file is refused: ${problem.reason}.`;
    case 'no-book':
      return `${problem.place} holds no book: ${problem.reason}. Name the folder of a book, or an archive of one.`;
    case 'no-record':
      return `${where(problem.file)} is no record that can be checked: ${problem.reason}. Name a delivery record (PDF) as this program wrote it.`;
    case 'no-first-test':
      return `The test before the change cannot be drawn: ${problem.reason}. Leave it out of the record, or bring its log in again.`;
    case 'bad-logo':
      return `${where(problem.file)} cannot be the logo: ${problem.reason}.`;
    case 'cancelled':
      return 'Stopped before the end; nothing was written.';
  }
}
