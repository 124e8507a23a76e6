import type { UnitRecord } from '#formats/unit-record.ts';

/** The unit record with what the shop says of itself; what the unit record says of the shop goes before. null where neither says anything. */
export function withShop(record: UnitRecord | null, shop: UnitRecord['shop']): UnitRecord | null {
  if (shop === undefined || Object.keys(shop).length === 0) return record;
  return {
    ...(record ?? { format: 'overdrive-bench/unit-record', version: 1 }),
    shop: { ...shop, ...record?.shop },
  };
}
