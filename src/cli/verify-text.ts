import {
  recordDifferenceSentence,
  recordSubjects,
  type RecordCheck,
  type Verification,
} from '#formats/verification.ts';
import type { Terminal } from './terminal.ts';
import { wrapped } from './wrapped.ts';

const results: Readonly<Record<RecordCheck['result'], string>> = {
  agrees: 'agrees',
  differs: 'DIFFERS',
  'not-checked': 'not checked',
};

/** What came of checking a record, for people: the answer first, then each check with what does not agree. */
export function verificationText(verification: Verification, { width }: Pick<Terminal, 'width'>): string {
  const { record, program, agrees, checks } = verification;
  const name = [
    record.recordNumber === null ? null : `record ${record.recordNumber}`,
    record.serial === null ? null : `unit ${record.serial}`,
    record.issuedOn === null ? null : `issued ${record.issuedOn}`,
  ].filter((each) => each !== null);
  const wrong = checks.filter(({ result }) => result === 'differs').length;
  const answer =
    agrees === true
      ? 'Record, log and numbers agree.'
      : agrees === null
        ? 'Nothing disagrees, but not all could be checked.'
        : `${wrong === 1 ? 'One thing does' : `${wrong} things do`} not agree.`;
  const version =
    record.madeBy === program.version
      ? null
      : `Version ${record.madeBy} made the record; this is ${program.version}.${agrees === false ? ' A difference in the numbers may come from that.' : ''}`;
  return [
    ...wrapped(answer, width),
    ...(name.length > 0 ? wrapped(`${record.fileName ?? ''}: ${name.join(', ')}`, width) : []),
    ...(version === null ? [] : wrapped(version, width)),
    '',
    ...checks.flatMap((check) => [
      ...indented(recordSubjects[check.id], width).map((line, index) =>
        index === 0 ? `${results[check.result].padEnd(INDENT)}${line.trimStart()}` : line,
      ),
      ...(check.reason === undefined ? [] : indented(check.reason, width)),
      ...check.differences.flatMap((difference) => indented(recordDifferenceSentence(difference), width)),
      ...(check.more > 0 ? indented(`and ${check.more} more`, width) : []),
    ]),
    '',
  ].join('\n');
}

const INDENT = 12;
const indented = (text: string, width: number): string[] =>
  wrapped(text, width - INDENT).map((line) => `${' '.repeat(INDENT)}${line}`);
