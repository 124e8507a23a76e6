/**
 * Names by which columns are known outside: the heading as written, `P#2` for the second one of the same name, `column 3` for one
 * without (contract, "Rig"). Length and order as `headings`.
 */
export function columnNames(headings: readonly string[]): string[] {
  const seen = new Map<string, number>();
  return headings.map((heading, index) => {
    if (heading === '') return `column ${index + 1}`;
    const count = (seen.get(heading) ?? 0) + 1;
    seen.set(heading, count);
    return count === 1 ? heading : `${heading}#${count}`;
  });
}

/** Place of the column that a rig file or a user names, -1 where there is none. Blanks at the ends and in rows do not matter; `column 3` always counts places. */
export function findColumn(names: readonly string[], wanted: string): number {
  const tidy = (text: string): string => text.trim().replace(/\s+/gu, ' ');
  const exact = names.indexOf(wanted);
  if (exact >= 0) return exact;
  const name = tidy(wanted);
  const found = names.findIndex((other) => tidy(other) === name);
  if (found >= 0) return found;
  const first = name.endsWith('#1') ? names.findIndex((other) => tidy(other) === name.slice(0, -2)) : -1;
  if (first >= 0) return first;
  const place = /^column (\d+)$/u.exec(name)?.[1];
  const index = place === undefined ? -1 : Number(place) - 1;
  return index < names.length ? index : -1;
}
