import Papa from 'papaparse';

/** Delimiter that stands for runs of blanks and tabs between aligned columns. */
export const BLANKS = ' ';

/**
 * The fields of one record, quotes taken off. Records with a quote go to papaparse (RFC 4180, section 2, rules 5 to 7); a quote
 * that is never closed is an inch mark or a damaged row, and the text is split as it stands.
 * @param text one record without its line end; line ends inside quotes stay in their field
 * @param delimiter one character, or {@link BLANKS} for runs of blanks
 */
export function splitRow(text: string, delimiter: string): string[] {
  if (delimiter === BLANKS) return splitBlanks(text);
  if (!text.includes('"') || delimiter === '\n') return text.split(delimiter);
  // Blanks between a delimiter and a quote are no part of the field.
  const tidy = text.includes(`${delimiter} `)
    ? text.replaceAll(/ +(?=")/gu, (blanks, at: number) =>
        text.startsWith(delimiter, at - delimiter.length) ? '' : blanks,
      )
    : text;
  const { data, errors } = Papa.parse(tidy.replace(/\r\n?/gu, '\n'), {
    delimiter,
    newline: '\n',
    quoteChar: '"',
  });
  const [fields] = data;
  const whole = data.length === 1 && errors.every((error) => error.type !== 'Quotes');
  return whole && Array.isArray(fields) ? fields.map(String) : text.split(delimiter);
}

/** Aligned columns: fields in quotes may hold blanks. */
function splitBlanks(text: string): string[] {
  const fields = text.match(/"[^"]*"|[^\s"]+/gu) ?? [];
  return fields.map((field) => (field.startsWith('"') ? field.slice(1, -1) : field));
}
