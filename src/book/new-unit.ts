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

/**
 * Serials that several units of a book have, as they are written; two books that were put together may each have made a unit of one.
 * @param of only serials that one of these units has, by id
 */
export function serialsTwice(units: readonly BookUnit[], of: ReadonlySet<string>): string[] {
  const bySerial = new Map<string, BookUnit[]>();
  for (const unit of units) {
    const serial = bare(unit.record.unit?.serial ?? '');
    if (unit.removedAt !== null || serial === '') continue;
    bySerial.set(serial, [...(bySerial.get(serial) ?? []), unit]);
  }
  return [...bySerial.values()]
    .filter((same) => same.length > 1 && same.some(({ id }) => of.has(id)))
    .map(([first]) => first?.record.unit?.serial?.trim() ?? '')
    .sort();
}

/** Other units of a unit's serial. */
export const sameSerial = (units: readonly BookUnit[], { id, record }: BookUnit): BookUnit[] => {
  const serial = bare(record.unit?.serial ?? '');
  return units.filter(
    (unit) =>
      serial !== '' &&
      unit.id !== id &&
      unit.removedAt === null &&
      bare(unit.record.unit?.serial ?? '') === serial,
  );
};
