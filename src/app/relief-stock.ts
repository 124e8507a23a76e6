import type { BookAdjustment } from '#formats/book.ts';
import type { Relief, TrailedAdjustment } from '#formats/relief.ts';
import type { Adjustment } from '#formats/unit-record.ts';
import type { Trail } from '#worker/messages.ts';

/** Shims in the drawer; `count` null: enough of them. */
export type Drawer = NonNullable<Relief['stock']>;

/** Thicknesses are stated to a ten-thousandth of a millimetre at most. */
const same = (a: number, b: number): boolean => Math.abs(a - b) < 5e-5;

function put(drawer: Drawer, shim: number, count: 1 | -1): Drawer {
  const there = drawer.find(({ thickness_mm }) => same(thickness_mm, shim));
  if (there === undefined)
    return count === 1
      ? [...drawer, { thickness_mm: shim, count: 1 }].sort((a, b) => a.thickness_mm - b.thickness_mm)
      : drawer;
  // Enough of them stays enough; one that was not in the drawer came from elsewhere.
  return drawer.map((each) =>
    each === there && each.count !== null ? { ...each, count: Math.max(0, each.count + count) } : each,
  );
}

/** The drawer after a stack was changed: what was taken out goes in, what was fitted comes out of it. */
export function drawerAfter(drawer: Drawer, before: readonly number[], after: readonly number[]): Drawer {
  const filled = before.reduce((kept, shim) => put(kept, shim, 1), drawer);
  return after.reduce((kept, shim) => put(kept, shim, -1), filled);
}

/** A turn of a screw as spring travel: out counts as taken out, in as put in. */
export function turnsTravel(turns: number, pitch_mm: number): { before_mm: number[]; after_mm: number[] } {
  const travel = Math.round(Math.abs(turns) * pitch_mm * 1e4) / 1e4;
  if (travel === 0) return { before_mm: [], after_mm: [] };
  return turns < 0 ? { before_mm: [travel], after_mm: [] } : { before_mm: [], after_mm: [travel] };
}

/** The first change of the shims since the run of a trail was made; null: what is fitted now was fitted then. */
const firstSince = ({ run, steps }: Trail): Trail['steps'][number] | null =>
  steps.find(
    ({ adjustment }) =>
      adjustment.turns === undefined &&
      (adjustment.runBefore === run.id || (adjustment.notedAt ?? '') > run.broughtInAt),
  ) ?? null;

/** Whether the shims were changed since this run: then what is fitted now is no matter of its card. */
export const changedSince = (trail: Trail | null): boolean => trail !== null && firstSince(trail) !== null;

/**
 * The relief as it was when the run of a trail was made: what is fitted now, with every change since taken back, so that the card of an
 * older run still says what it said then. Null: nothing was said of this unit yet.
 */
export function reliefOfRun(trail: Trail): Relief | null {
  const { unit, shop } = trail;
  const kept = unit?.relief;
  if (kept === undefined) return null;
  const stock = shop?.stock ?? kept.stock ?? [];
  if (kept.screw !== undefined) return kept;
  const later = firstSince(trail);
  if (later === null) return { ...kept, stock };
  const { before_mm } = later.adjustment;
  return { ...kept, fitted_mm: before_mm, stock: drawerAfter(stock, kept.fitted_mm ?? [], before_mm) };
}

/**
 * The changes of shims that led to the run of a trail, each with the reading before and after, as a record holds them: those whose
 * re-test is this run or an earlier one. A change that waits for its re-test shows nothing yet, and a turned screw is no change of shims.
 */
export const changesUpTo = (trail: Trail): Adjustment[] =>
  reached(trail).map(({ change }) => {
    const { date, before_mm, after_mm, pressureBefore, pressureAfter, by, why, verdictBefore } = change;
    return {
      ...(date === undefined ? {} : { date }),
      before_mm,
      after_mm,
      pressureBefore,
      pressureAfter,
      ...(by === undefined ? {} : { by }),
      ...(why === undefined ? {} : { why }),
      ...(verdictBefore === undefined ? {} : { verdictBefore }),
    };
  });

/** The run before the last change that led to the run of a trail: the record can draw it beside that one. */
export const firstTestOf = (trail: Trail): string | null =>
  reached(trail).at(-1)?.adjustment.runBefore ?? null;

function reached({ run, runs, steps }: Trail): { adjustment: BookAdjustment; change: TrailedAdjustment }[] {
  const here = new Set(runs.slice(0, runs.findIndex(({ id }) => id === run.id) + 1).map(({ id }) => id));
  return steps.flatMap(({ adjustment, change }) =>
    change === null ||
    adjustment.turns !== undefined ||
    adjustment.runAfter === null ||
    !here.has(adjustment.runAfter)
      ? []
      : [{ adjustment, change }],
  );
}
