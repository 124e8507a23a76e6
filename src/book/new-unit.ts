import type { BookUnit } from '#formats/book.ts';
import type { UnitRecord } from '#formats/unit-record.ts';

/** A unit that comes into the book. */
export const newUnit = (id: string, record: UnitRecord, at: string): BookUnit => ({
  format: 'overdrive-bench/book-unit',
  version: 1,
  id,
  revision: 1,
  changedAt: at,
  removedAt: null,
  record,
  goneOutOn: null,
});

/** Serials are the same whatever the case and the blanks around. */
const bare = (serial: string): string => serial.trim().toLowerCase();

/** The unit of this serial that is in the book, not in the bin; null for none. */
export function unitOfSerial(units: readonly BookUnit[], serial: string): BookUnit | null {
  const wanted = bare(serial);
  return wanted === ''
    ? null
    : (units.find((unit) => unit.removedAt === null && bare(unit.record.unit?.serial ?? '') === wanted) ??
        null);
}
