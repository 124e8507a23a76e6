import { writeJson } from '#formats/number.ts';
import { unitRecordSchema, type UnitRecord } from '#formats/unit-record.ts';

type Fields = Readonly<Record<string, unknown>>;
const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const same = (a: unknown, b: unknown): boolean =>
  a === b || (a !== undefined && b !== undefined && writeJson(a) === writeJson(b));

/**
 * What two hands made of one unit's record, field by field, so that neither loses what the other wrote.
 * @param before what both began from
 * @param mine what is to be kept now
 * @param kept what the book holds by now
 * @returns null where both changed the same field to something else: only a person can say which holds
 */
export function mergedRecords(before: UnitRecord, mine: UnitRecord, kept: UnitRecord): UnitRecord | null {
  const merged = mergedFields({ ...before }, { ...mine }, { ...kept });
  const checked = merged === null ? null : unitRecordSchema.safeParse(merged);
  return checked?.success === true ? checked.data : null;
}

function mergedFields(before: Fields, mine: Fields, kept: Fields): Fields | null {
  const result: Record<string, unknown> = {};
  for (const key of new Set([...Object.keys(kept), ...Object.keys(mine)])) {
    const was = before[key],
      is = mine[key],
      now = kept[key];
    let value: unknown;
    if (same(is, was) || same(is, now)) value = now;
    else if (same(now, was)) value = is;
    else if (isFields(is) && isFields(now)) {
      value = mergedFields(isFields(was) ? was : {}, is, now);
      if (value === null) return null;
    } else return null;
    if (value !== undefined) result[key] = value;
  }
  return result;
}
