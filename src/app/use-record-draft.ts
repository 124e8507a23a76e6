import { readUnitRecord } from '#formats/check.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import { fieldsOf, type RecordFields } from './record-fields.ts';
import { useDraft } from './use-draft.ts';

/** What is typed for the record of a run, and the record that it is laid over; both outlast a reload until they are saved. */
export function useRecordDraft(
  log: string,
  kept: UnitRecord | null,
  shop: { name: string; address: string; contact: string },
  today: string,
): {
  fields: RecordFields;
  type: (field: keyof RecordFields, value: string) => void;
  base: UnitRecord | null;
  /** Other work, parts, instruments or changes of the setting under the same fields. */
  setBase: (base: UnitRecord | null) => void;
  /** Whether the test before the last change is drawn beside this run. */
  firstTestDrawn: boolean;
  drawFirstTest: (drawn: boolean) => void;
  /** A record from elsewhere, in place of everything that is typed. */
  take: (record: UnitRecord) => void;
  /** What is typed is kept with the run now; the day of issue stays as typed. */
  saved: () => void;
} {
  const under = useDraft(`record-base ${log}`, {
    base: textOf(kept),
    firstTest: 'drawn',
  });
  const base = recordOf(under.value('base'));
  const start = fieldsOf(base, shop, today);
  const typed = useDraft<keyof RecordFields>(`record ${log}`, { ...start });
  const names = Object.keys(start) as (keyof RecordFields)[];
  return {
    fields: Object.fromEntries(names.map((name) => [name, typed.value(name)])) as Record<
      keyof RecordFields,
      string
    >,
    type: typed.type,
    base,
    setBase: (next) => under.type('base', textOf(next)),
    firstTestDrawn: under.value('firstTest') === 'drawn',
    drawFirstTest: (drawn) => under.type('firstTest', drawn ? 'drawn' : 'left out'),
    take(record) {
      under.type('base', textOf(record));
      typed.clear('date');
    },
    saved() {
      under.clear('firstTest');
      typed.clear('date');
    },
  };
}

const textOf = (record: UnitRecord | null): string => (record === null ? '' : JSON.stringify(record));
function recordOf(text: string): UnitRecord | null {
  const read = text === '' ? null : readUnitRecord(text, null);
  return read !== null && read.ok ? read.value : null;
}
