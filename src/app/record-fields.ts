import { unitRecordSchema, type Adjustment, type UnitRecord } from '#formats/unit-record.ts';

/** What is typed for the record; the empty text where nothing was. */
export interface RecordFields {
  recordNumber: string;
  date: string;
  serial: string;
  type: string;
  customer: string;
  receivedOn: string;
  complaint: string;
  builtBy: string;
  testedBy: string;
  testedOn: string;
  oilGrade: string;
  /** "yes", "no" or not said. */
  oilLeftIn: string;
  releasedBy: string;
  /** A corrected record names the one that it takes the place of. */
  replaces: string;
  replacesWhy: string;
  concessionReason: string;
  concessionBy: string;
  concessionOn: string;
  shopName: string;
  shopAddress: string;
  shopContact: string;
}

/**
 * @param shop as it was last time, where the record names none
 * @param date day of issue
 */
export function fieldsOf(
  record: UnitRecord | null,
  shop: { name: string; address: string; contact: string },
  date: string,
): RecordFields {
  const leftIn = record?.oil?.leftIn;
  return {
    recordNumber: record?.recordNumber ?? '',
    date: record?.issuedOn ?? date,
    serial: record?.unit?.serial ?? '',
    type: record?.unit?.type ?? '',
    customer: record?.customer ?? '',
    receivedOn: record?.unit?.receivedOn ?? '',
    complaint: record?.unit?.complaint ?? '',
    builtBy: record?.builtBy ?? '',
    testedBy: record?.testedBy ?? '',
    testedOn: record?.testedOn ?? '',
    oilGrade: record?.oil?.grade ?? '',
    oilLeftIn: leftIn === undefined ? '' : leftIn ? 'yes' : 'no',
    releasedBy: record?.releasedBy ?? '',
    replaces: record?.replaces?.recordNumber ?? '',
    replacesWhy: record?.replaces?.reason ?? '',
    concessionReason: record?.concession?.reason ?? '',
    concessionBy: record?.concession?.agreedBy ?? '',
    concessionOn: record?.concession?.on ?? '',
    shopName: record?.shop?.name ?? shop.name,
    shopAddress: record?.shop?.address ?? shop.address,
    shopContact: record?.shop?.contact ?? shop.contact,
  };
}

/** An object without its empty texts; undefined when nothing is left. */
function filled<T extends Record<string, unknown>>(values: T): T | undefined {
  const entries = Object.entries(values).filter(([, value]) => value !== undefined && value !== '');
  return entries.length === 0 ? undefined : (Object.fromEntries(entries) as T);
}

/**
 * The unit record that the fields make, laid over what a unit file said of the rest (work done, parts, instruments).
 * @returns `wrong`: sentences for what cannot stand so
 */
export function recordFrom(
  fields: RecordFields,
  base: UnitRecord | null,
): { record: UnitRecord | null; wrong: string[] } {
  const text = (value: string): string => value.trim();
  const wrong: string[] = [];
  // Half of it is not written into a record: it says what is missing until it is whole.
  const whole = <T extends Record<string, string>>(values: T, needs: string): T | undefined => {
    const given = Object.values(values).filter((value) => value !== '').length;
    if (given > 0 && given < Object.keys(values).length) wrong.push(needs);
    return given === Object.keys(values).length ? values : undefined;
  };
  const { unit, oil, shop, ...rest } = base ?? { unit: undefined, oil: undefined, shop: undefined };
  const made = filled({
    ...rest,
    recordNumber: text(fields.recordNumber),
    customer: text(fields.customer),
    builtBy: text(fields.builtBy),
    testedBy: text(fields.testedBy),
    testedOn: fields.testedOn,
    issuedOn: base?.issuedOn === undefined ? undefined : fields.date,
    releasedBy: text(fields.releasedBy),
    replaces: whole(
      { recordNumber: text(fields.replaces), reason: text(fields.replacesWhy) },
      'A record in place of another needs that one’s number and why it is replaced.',
    ),
    concession: whole(
      { reason: text(fields.concessionReason), agreedBy: text(fields.concessionBy), on: fields.concessionOn },
      'A concession needs its reason, who agreed and the day.',
    ),
    unit: filled({
      ...unit,
      serial: text(fields.serial),
      type: text(fields.type),
      receivedOn: fields.receivedOn,
      complaint: text(fields.complaint),
    }),
    oil: filled({
      ...oil,
      grade: text(fields.oilGrade),
      leftIn: fields.oilLeftIn === '' ? undefined : fields.oilLeftIn === 'yes',
    }),
    shop: filled({
      ...shop,
      name: text(fields.shopName),
      address: text(fields.shopAddress),
      contact: text(fields.shopContact),
    }),
  });
  if (made === undefined) return { record: null, wrong };
  const checked = unitRecordSchema.safeParse({ ...made, format: 'overdrive-bench/unit-record', version: 1 });
  if (checked.success) return { record: checked.data, wrong };
  return {
    record: null,
    wrong: [...wrong, ...checked.error.issues.map((issue) => `${issue.path.join(' ')}: ${issue.message}.`)],
  };
}

/** A record with other changes of the setting; none of them: without the key. */
export function withAdjustments(record: UnitRecord | null, adjustments: Adjustment[]): UnitRecord | null {
  if (record === null && adjustments.length === 0) return null;
  const { adjustments: _before, ...rest } = record ?? {
    format: 'overdrive-bench/unit-record' as const,
    version: 1 as const,
  };
  return adjustments.length === 0 ? rest : { ...rest, adjustments };
}
