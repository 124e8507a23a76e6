import { readSpec } from '#formats/check.ts';
import type { Spec } from '#formats/spec.ts';
import { pressureUnits, type PressureUnit } from '#units/pressure.ts';
import { viewingTemperatures, type ViewingTemperature } from './viewing-unit.ts';
import { dateForms, decimalMarks, type ReadingForm } from './shown-numbers.ts';
import { keptLook, lookIn, plainLook, type RecordLook } from './record-look.ts';

/** Small habits of this computer: they change how things are shown and offered, never what is judged. */
export interface Remembered extends ReadingForm {
  /** null: as the system has it. */
  paper: 'day' | 'night' | null;
  /** null: the unit of the limits. */
  unit: PressureUnit | null;
  /** Of temperatures on the strip and beside it; null: as in the log. */
  temperature: ViewingTemperature | null;
  /** Single letters as keys (WCAG 2.1.4: they can be turned off). */
  keys: boolean;
  /** Limits of the last judged run, offered again. */
  lastSpec: Spec | null;
  recordPaper: 'a4' | 'letter';
  /** Who makes choices by hand here. */
  who: string;
  shop: { name: string; address: string; contact: string };
  /** How the shop's records look. */
  recordLook: RecordLook;
}

const KEY = 'overdrive-bench';
const nothing: Remembered = {
  paper: null,
  unit: null,
  temperature: null,
  decimalMark: null,
  dateForm: null,
  keys: true,
  lastSpec: null,
  recordPaper: 'a4',
  who: '',
  shop: { name: '', address: '', contact: '' },
  recordLook: plainLook,
};

const textIn = (data: object, key: string): string => {
  const value: unknown = Object.entries(data).find(([name]) => name === key)?.[1];
  return typeof value === 'string' ? value : '';
};

/** What is remembered; where the browser keeps nothing, or something else lies there, as on the first day. */
export function recall(storage: Pick<Storage, 'getItem'> | null): Remembered {
  let data: unknown = null;
  try {
    data = JSON.parse(storage?.getItem(KEY) ?? 'null');
  } catch {
    return nothing;
  }
  if (typeof data !== 'object' || data === null) return nothing;
  const value: Readonly<Record<string, unknown>> = { ...data };
  const paper = value['paper'],
    unit = value['unit'],
    shop = value['shop'];
  const spec = value['lastSpec'] ? readSpec(JSON.stringify(value['lastSpec']), null) : null;
  return {
    paper: paper === 'day' || paper === 'night' ? paper : null,
    unit: pressureUnits.find((name) => name === unit) ?? null,
    temperature: viewingTemperatures.find((name) => name === value['temperature']) ?? null,
    decimalMark: decimalMarks.find((name) => name === value['decimalMark']) ?? null,
    dateForm: dateForms.find((name) => name === value['dateForm']) ?? null,
    keys: value['keys'] !== false,
    lastSpec: spec?.ok ? spec.value : null,
    who: textIn(data, 'who'),
    recordPaper: value['recordPaper'] === 'letter' ? 'letter' : 'a4',
    shop:
      typeof shop === 'object' && shop !== null
        ? { name: textIn(shop, 'name'), address: textIn(shop, 'address'), contact: textIn(shop, 'contact') }
        : nothing.shop,
    recordLook: lookIn(value['recordLook']),
  };
}

/** Writes it down; a refusal loses a habit, nothing else, so it is not told. */
export function remember(storage: Pick<Storage, 'setItem'> | null, value: Remembered): void {
  try {
    storage?.setItem(KEY, JSON.stringify({ ...value, recordLook: keptLook(value.recordLook) }));
  } catch {
    // A full or forbidden storage.
  }
}
