/**
 * Breaks a text into lines at blanks; a no-break space holds its number and unit together. A word that is longer than the width stands
 * alone and sticks out.
 * @example wrapped('held the band all day', 10) // ['held the', 'band all', 'day']
 */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/[ \n]+/)) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}
