import type { ChannelUncertainty, RigChannel } from '#formats/rig.ts';

/** One contribution to a channel's Type B uncertainty, in the unit of the quantity. */
export interface TypeBPart {
  source: string;
  distribution: string;
  /** Half-width or expanded value as stated. */
  size: number;
  standardUncertainty: number;
  /** null: infinite. */
  degreesOfFreedom: number | null;
}

/** What a channel's Type B uncertainty is worked out from. */
export interface TypeBInput {
  rigChannel: RigChannel | null;
  range: { low: number; high: number } | null;
  /** Step of the indication, in the column's unit; null where none is known. */
  resolution: number | null;
  /** Level that is judged, in the column's unit: for accuracies in per cent of the reading. */
  reading: number;
  /** Takes a size in the column's unit to the quantity's unit. */
  factor: number;
}

/**
 * Standard uncertainty of a half-width by its distribution: a/√3, a/√6, a/√2 (JCGM 100:2008, 4.3.7, 4.3.9; arcsine: JCGM 101:2008,
 * 6.4.6), a/k for a normal one.
 */
function standardOf(size: number, distribution: string, coverageFactor: number): number {
  switch (distribution) {
    case 'normal':
      return size / coverageFactor;
    case 'triangular':
      return size / Math.sqrt(6);
    case 'arcsine':
      return size / Math.sqrt(2);
    default:
      return size / Math.sqrt(3);
  }
}

function sizeOf(statement: ChannelUncertainty, input: TypeBInput): number {
  if (statement.percentOfSpan !== undefined)
    return input.range === null
      ? NaN
      : (statement.percentOfSpan / 100) * (input.range.high - input.range.low);
  if (statement.percentOfReading !== undefined)
    return (statement.percentOfReading / 100) * Math.abs(input.reading);
  return statement.absolute ?? statement.expanded ?? NaN;
}

/**
 * Contributions that the rig file states, and the resolution (d/√12: JCGM 100:2008, F.2.2.1). An accuracy is a rectangular
 * half-width unless stated otherwise; an expanded value is a calibration, normal with its coverage factor.
 */
export function typeBParts(input: TypeBInput): TypeBPart[] {
  const stated = input.rigChannel?.uncertainty,
    factor = Math.abs(input.factor);
  const statements = stated === undefined ? [] : Array.isArray(stated) ? stated : [stated];
  const parts = statements.map((statement): TypeBPart => {
    const distribution =
      statement.distribution ?? (statement.expanded === undefined ? 'rectangular' : 'normal');
    const size = sizeOf(statement, input) * factor;
    return {
      source: statement.name ?? (statement.expanded === undefined ? 'accuracy' : 'calibration'),
      distribution,
      size,
      standardUncertainty: standardOf(size, distribution, statement.coverageFactor ?? 1),
      degreesOfFreedom: statement.degreesOfFreedom ?? null,
    };
  });
  if (input.resolution !== null && input.resolution > 0) {
    const size = 0.5 * input.resolution * factor;
    parts.push({
      source: 'resolution',
      distribution: 'rectangular',
      size,
      standardUncertainty: size / Math.sqrt(3),
      degreesOfFreedom: null,
    });
  }
  return parts.filter((part) => Number.isFinite(part.standardUncertainty));
}

/** Combined standard uncertainty of the parts, 0 without one. */
export function combinedTypeB(parts: readonly TypeBPart[]): number {
  let variance = 0;
  for (const { standardUncertainty: u } of parts) variance += u * u;
  return Math.sqrt(variance);
}

/** Whether the rig file states an uncertainty for a channel; a resolution alone does not count. */
export function isStated(rigChannel: RigChannel | null): boolean {
  const stated = rigChannel?.uncertainty;
  return stated !== undefined && (!Array.isArray(stated) || stated.length > 0);
}
