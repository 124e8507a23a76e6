import {
  leavableSections,
  recordPressureUnits,
  recordTemperatureUnits,
  type LeavableSection,
  type RecordUnits,
} from '#formats/record-data.ts';
import type { Logo } from '#worker/record-messages.ts';

/** How the shop's records look, kept on this computer with the shop. */
export interface RecordLook {
  language: 'en' | 'de';
  leaveOut: LeavableSection[];
  logo: Logo | null;
  /** Units that they show; left out: those of the limits and the log. */
  units: RecordUnits;
}

export const plainLook: RecordLook = { language: 'en', leaveOut: [], logo: null, units: {} };

/** What stands for the look in the storage: bytes as text. */
export type KeptLook = Omit<RecordLook, 'logo'> & { logo: (Omit<Logo, 'bytes'> & { base64: string }) | null };

export const keptLook = ({ logo, ...look }: RecordLook): KeptLook => ({
  ...look,
  logo:
    logo === null
      ? null
      : {
          kind: logo.kind,
          width: logo.width,
          height: logo.height,
          base64: btoa(Array.from(logo.bytes, (byte) => String.fromCharCode(byte)).join('')),
        },
});

/** The look as it was kept; what cannot be read of it is as on the first day. */
export function lookIn(data: unknown): RecordLook {
  if (typeof data !== 'object' || data === null) return plainLook;
  const value: Readonly<Record<string, unknown>> = { ...data };
  const left = value['leaveOut'];
  return {
    language: value['language'] === 'de' ? 'de' : 'en',
    leaveOut: Array.isArray(left) ? leavableSections.filter((key) => left.includes(key)) : [],
    logo: logoIn(value['logo']),
    units: unitsIn(value['units']),
  };
}

/** The units among those that there are; what else stands there is left out. */
export function unitsIn(data: unknown): RecordUnits {
  const named: unknown[] = typeof data === 'object' && data !== null ? Object.values(data) : [];
  const pressure = recordPressureUnits.find((unit) => named.includes(unit)),
    temperature = recordTemperatureUnits.find((unit) => named.includes(unit));
  return { ...(pressure ? { pressure } : {}), ...(temperature ? { temperature } : {}) };
}

function logoIn(data: unknown): Logo | null {
  if (typeof data !== 'object' || data === null) return null;
  const value: Readonly<Record<string, unknown>> = { ...data };
  const { kind, width, height, base64 } = value;
  if (kind !== 'png' && kind !== 'jpeg' && kind !== 'svg') return null;
  if (typeof width !== 'number' || typeof height !== 'number' || typeof base64 !== 'string') return null;
  try {
    return { kind, width, height, bytes: Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)) };
  } catch {
    return null;
  }
}
