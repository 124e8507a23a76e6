import { describe, expect, test } from 'vitest';
import { fieldsOf, recordFrom } from '#app/record-fields.ts';
import { concession, fullUnitRecord } from '../record/unit-records.ts';

const shop = { name: '', address: '', contact: '' };
const fields = fieldsOf({ ...fullUnitRecord, concession }, shop, '2026-03-06');

describe('the fields of the record', () => {
  test('give back the unit record that they were filled from', () => {
    const whole = { ...fullUnitRecord, concession, replaces: { recordNumber: 'R-1', reason: 'misread' } };
    expect(recordFrom(fieldsOf(whole, shop, '2026-03-06'), whole)).toEqual({ record: whole, wrong: [] });
  });
  test('half a concession goes into no record, and says what it needs', () => {
    const { record, wrong } = recordFrom({ ...fields, concessionBy: '' }, fullUnitRecord);
    expect(record?.concession).toBeUndefined();
    expect(record?.unit?.serial).toBe(fullUnitRecord.unit?.serial);
    expect(wrong).toEqual(['A concession needs its reason, who agreed and the day.']);
  });
  test('a record in place of another needs the number and the reason', () => {
    expect(recordFrom({ ...fields, replaces: 'R-1' }, fullUnitRecord).wrong).toHaveLength(1);
    const { record, wrong } = recordFrom(
      { ...fields, replaces: 'R-1', replacesWhy: 'misread' },
      fullUnitRecord,
    );
    expect(wrong).toEqual([]);
    expect(record?.replaces).toEqual({ recordNumber: 'R-1', reason: 'misread' });
  });
  test('what is cleared is gone', () => {
    const { record } = recordFrom(
      { ...fields, concessionReason: '', concessionBy: '', concessionOn: '' },
      { ...fullUnitRecord, concession },
    );
    expect(record?.concession).toBeUndefined();
  });
});
