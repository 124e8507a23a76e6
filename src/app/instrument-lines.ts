import { isoDate } from '#formats/shared-shapes.ts';
import type { UnitRecord } from '#formats/unit-record.ts';

export type Instrument = NonNullable<UnitRecord['instruments']>[number];

/** Instruments as they are typed, one a line, its parts behind semicolons; what is not known is left empty. */
export const instrumentLines = (instruments: readonly Instrument[]): string =>
  instruments
    .map(({ name, identification, calibratedOn, dueOn, certificate }) =>
      [name, identification, calibratedOn, dueOn, certificate]
        .map((part) => part ?? '')
        .join('; ')
        .replace(/(?:;\s*)+$/u, ''),
    )
    .join('\n');

/** The instruments that the lines name, or what is wrong with which line. */
export function readInstruments(
  text: string,
): { ok: true; value: Instrument[] } | { ok: false; wrong: string } {
  const value: Instrument[] = [];
  for (const [index, line] of text.split('\n').entries()) {
    if (line.trim() === '') continue;
    const parts = line.split(';').map((part) => part.trim());
    const [name = '', identification = '', calibratedOn = '', dueOn = '', certificate = ''] = parts;
    const wrong = (reason: string) => ({
      ok: false as const,
      wrong: `Instruments, line ${index + 1}: ${reason}.`,
    });
    if (name === '') return wrong('say what the instrument is, before the first semicolon');
    if (parts.length > 5) return wrong('there are more than five parts; the certificate is the last');
    for (const date of [calibratedOn, dueOn])
      if (date !== '' && !isoDate.safeParse(date).success)
        return wrong(`“${date}” is no date; write it like 2026-03-04`);
    value.push({
      name,
      ...(identification === '' ? {} : { identification }),
      ...(calibratedOn === '' ? {} : { calibratedOn }),
      ...(dueOn === '' ? {} : { dueOn }),
      ...(certificate === '' ? {} : { certificate }),
    });
  }
  return { ok: true, value };
}
