import path from 'node:path';
import { readShop } from '#formats/check.ts';
import type { Result } from '#formats/problem.ts';
import {
  recordPressureUnits,
  recordTemperatureUnits,
  type LeavableSection,
  type Paper,
  type RecordUnits,
} from '#formats/record-data.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import { languageFor, type Language } from '#record/phrases.ts';
import type { Logo } from '#record/record-input.ts';
import type { Given, Option } from './command.ts';
import { readBytes, readSettings, STANDARD } from './input-file.ts';

/** Options that every command which writes records takes. */
export const recordOptions = {
  shop: {
    value: 'FILE',
    help: 'how the shop’s records look: name, logo, paper, language, units, sections left out (JSON; schema shop)',
  },
  date: {
    value: 'YYYY-MM-DD',
    help: 'day of issue of the record; without it the one in the unit record, or none',
  },
  paper: { value: 'a4|letter', help: 'paper of the record; the shop’s, or a4' },
  language: {
    value: 'TAG',
    help: 'language of the record, such as en or de-AT; the shop’s, or English',
  },
  'shown-in': {
    value: 'UNIT[,UNIT]',
    help: 'units that the record shows: psi, bar, kPa or kgf/cm2, and degC or degF; the shop’s, or those of limits and log',
  },
  picture: {
    value: 'screen|print',
    help: 'size of a .png: twice the screen’s (192 dpi), or 300 dpi; screen unless said',
  },
} as const satisfies Record<string, Option>;

/** What was asked for, before any file is read. */
export interface AskedLook {
  paper: Paper | null;
  language: string | null;
  date: string | null;
  picture: 'screen' | 'print';
  units: RecordUnits | null;
}

/** How records are to look. */
export interface Look {
  paper: Paper;
  language: Language;
  leaveOut: readonly LeavableSection[];
  logo: Logo | null;
  shop: UnitRecord['shop'];
  units: RecordUnits;
}

export function askedLook(given: Given): AskedLook | { usage: string } {
  const paper = given.option('paper');
  if (paper !== null && paper !== 'a4' && paper !== 'letter')
    return { usage: `--paper ${paper}: there are a4 and letter` };
  const date = given.option('date');
  if (date !== null && !isDay(date))
    return { usage: `--date ${date}: a day of the calendar is written like 2026-03-05` };
  const picture = given.option('picture') ?? 'screen';
  if (picture !== 'screen' && picture !== 'print')
    return { usage: `--picture ${picture}: there are screen and print` };
  const named = given.option('shown-in');
  const units = named === null ? null : unitsNamed(named);
  if (typeof units === 'string') return { usage: `--shown-in ${named}: ${units}` };
  return { paper, date, picture, units, language: given.option('language') };
}

/** The shop's look, and what was asked for instead of it. */
export async function readLook(shopFile: string | null, asked: AskedLook): Promise<Result<Look>> {
  const read = await readSettings(shopFile, readShop);
  if (!read.ok) return read;
  const shop = read.value;
  let logo: Logo | null = null;
  if (shop?.logo !== undefined) {
    const folder = shopFile === null || shopFile === STANDARD ? '.' : path.dirname(shopFile);
    const bytes = await readBytes(path.resolve(folder, shop.logo));
    if (!bytes.ok) return bytes;
    const { wholeLogo } = await import('#record/whole-picture.ts');
    const cleaned = wholeLogo(new Uint8Array(bytes.value), shop.logo);
    if (!cleaned.ok) return cleaned;
    logo = cleaned.value;
  }
  const { name, address, contact } = shop ?? {};
  return {
    ok: true,
    value: {
      paper: asked.paper ?? shop?.paper ?? 'a4',
      language: languageFor(asked.language ?? shop?.language ?? 'en'),
      leaveOut: shop?.leaveOut ?? [],
      logo,
      units: { ...shop?.units, ...asked.units },
      shop: {
        ...(name === undefined ? {} : { name }),
        ...(address === undefined ? {} : { address }),
        ...(contact === undefined ? {} : { contact }),
      },
    },
  };
}

/** The units of "bar,degF", in either order; or what is wrong with it. */
function unitsNamed(text: string): RecordUnits | string {
  const units: RecordUnits = {};
  for (const name of text.split(',').map((part) => part.trim())) {
    const pressure = recordPressureUnits.find((unit) => unit === name),
      temperature = recordTemperatureUnits.find((unit) => unit === name);
    if (pressure === undefined && temperature === undefined)
      return `there are ${[...recordPressureUnits, ...recordTemperatureUnits].join(', ')}`;
    if ((pressure ? units.pressure : units.temperature) !== undefined)
      return 'one unit of pressure and one of temperature at most';
    if (pressure) units.pressure = pressure;
    if (temperature) units.temperature = temperature;
  }
  return units;
}

/** Whether a text is a day that the calendar has. */
function isDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const day = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}
