import type { RunView } from './run-view.ts';
import type { Shown } from './strip-props.ts';

/** So many readings stay in view at the closest. */
const FEWEST_READINGS = 8;
const CLOSER = 0.5;

/** Shortest part that can be shown. */
export const shortest_s = (view: RunView): number =>
  Math.min(
    view.end_s,
    Math.max(0.01, FEWEST_READINGS * (view.medianInterval_s > 0 ? view.medianInterval_s : 1)),
  );

/** A part held within the run and not too short; null where it is the whole run. Nothing is judged by it. */
export function heldPart(view: RunView, from_s: number, to_s: number): Shown | null {
  const least = shortest_s(view);
  let start = Math.min(from_s, to_s),
    end = Math.max(from_s, to_s);
  if (end - start < least) {
    const middle = (start + end) / 2;
    start = middle - least / 2;
    end = middle + least / 2;
  }
  const length = Math.min(end - start, view.end_s);
  start = Math.min(Math.max(0, start), view.end_s - length);
  return length >= view.end_s * 0.9999 ? null : { from_s: start, to_s: start + length };
}

/** Closer (factor under 1) or wider around an instant, which stays in its place. */
export function zoomedAround(view: RunView, shown: Shown, at_s: number, factor: number): Shown | null {
  const length = Math.max(shortest_s(view), (shown.to_s - shown.from_s) * factor);
  const share = (at_s - shown.from_s) / (shown.to_s - shown.from_s);
  const from_s = at_s - share * length;
  return heldPart(view, from_s, from_s + length);
}

export const closer = (view: RunView, shown: Shown, at_s: number): Shown | null =>
  zoomedAround(view, shown, at_s, CLOSER);
export const wider = (view: RunView, shown: Shown, at_s: number): Shown | null =>
  zoomedAround(view, shown, at_s, 1 / CLOSER);

/** The same length, moved so that an instant is in view with a little room. */
export function withInView(view: RunView, shown: Shown | null, at_s: number): Shown | null {
  if (shown === null) return null;
  const length = shown.to_s - shown.from_s,
    room = length * 0.05;
  if (at_s >= shown.from_s && at_s <= shown.to_s) return shown;
  return at_s < shown.from_s
    ? heldPart(view, at_s - room, at_s - room + length)
    : heldPart(view, at_s + room - length, at_s + room);
}
