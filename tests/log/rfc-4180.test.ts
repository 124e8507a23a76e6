import { describe, expect, test } from 'vitest';
import { readLog } from '#log/read-log.ts';
import { splitRow } from '#log/split-row.ts';

const heading = 't_s,p_psi,note';
/** Values of p_psi and the notes that came with them. */
function read(text: string): { values: number[]; notes: string[] } {
  const result = readLog(new TextEncoder().encode(text), { fileName: null, rig: null, sha256: null });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  const [pressure, note] = result.value.channels;
  return {
    values: [...(pressure?.values ?? [])],
    notes: (note?.faultTokens ?? []).map(({ token }) => token),
  };
}

// RFC 4180, section 2, "Definition of the CSV Format", rule by rule.
describe('RFC 4180, section 2', () => {
  test('1: each record on a line of its own, delimited by a line break (CRLF)', () => {
    expect(read(`${heading}\r\n0,1.5,a\r\n1,2.5,b\r\n`)).toEqual({ values: [1.5, 2.5], notes: ['a', 'b'] });
  });
  test('2: the last record may or may not have an ending line break', () => {
    expect(read(`${heading}\r\n0,1.5,a\r\n1,2.5,b`)).toEqual({ values: [1.5, 2.5], notes: ['a', 'b'] });
  });
  test('3: there may be a header line', () => {
    const result = readLog(
      new TextEncoder().encode('2026-03-04 08:15:00,1.5\r\n2026-03-04 08:15:01,2.5\r\n'),
      { fileName: null, rig: null, sha256: null },
    );
    expect(result.ok && result.value.dialect.headerLine).toBe(null);
    expect(result.ok && result.value.channels.map((channel) => channel.column)).toEqual(['column 2']);
  });
  test('4: spaces are part of a field', () => {
    expect(splitRow('aaa, bbb ,ccc', ',')).toEqual(['aaa', ' bbb ', 'ccc']);
  });
  test('5: each field may or may not be enclosed in double quotes', () => {
    expect(read(`${heading}\r\n"0","1.5",a\r\n1,2.5,"b"\r\n`)).toEqual({
      values: [1.5, 2.5],
      notes: ['a', 'b'],
    });
  });
  test('6: fields with line breaks, double quotes and commas are enclosed in double quotes', () => {
    expect(splitRow('"aaa","b\r\nbb","ccc"', ',')).toEqual(['aaa', 'b\nbb', 'ccc']);
    expect(read(`${heading}\r\n0,1.5,"a\r\nb, c"\r\n1,2.5,d\r\n`)).toEqual({
      values: [1.5, 2.5],
      notes: ['a\nb, c', 'd'],
    });
  });
  test('7: a double quote inside is escaped by another', () => {
    expect(splitRow('"aaa","b""bb","ccc"', ',')).toEqual(['aaa', 'b"bb', 'ccc']);
    expect(read(`${heading}\r\n0,1.5,"say ""go"""\r\n1,2.5,d\r\n`)).toEqual({
      values: [1.5, 2.5],
      notes: ['say "go"', 'd'],
    });
  });
});
