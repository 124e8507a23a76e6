import { useEffect, useEffectEvent, useRef, useState, type RefObject } from 'react';
import type { ShownFrame } from './frame.ts';
import type { Shown } from './strip-props.ts';
import type { RunView } from './run-view.ts';
import { heldPart, zoomedAround } from './zoom.ts';

/** A part that is being marked with the pointer, along the plot. */
export interface Marked {
  from: number;
  to: number;
}

/** A shorter drag is a press. */
const DRAG_PX = 5;
/** One notch of a wheel. */
const WHEEL_STEP = 0.0022;

/**
 * The pointer on the strip: moving it moves the cursor, dragging marks a part to look at closer; with a finger, dragging moves the
 * cursor and two fingers look closer; the wheel with Ctrl looks closer, sideways it moves along.
 */
export function usePointer(
  over: RefObject<HTMLElement | null>,
  view: RunView,
  frame: ShownFrame | null,
  does: { onCursor: (at_s: number) => void; onShow: (shown: Shown | null) => void },
): Marked | null {
  const [marked, setMarked] = useState<Marked | null>(null);
  const start = useRef<number | null>(null);
  /** Fingers on the strip, by pointer, with where they are. */
  const fingers = useRef(new Map<number, number>());
  const pinch = useRef<{ shown: Shown; first: number; second: number } | null>(null);

  const alongOf = (event: MouseEvent): number => {
    if (over.current === null || frame === null) return 0;
    const box = over.current.getBoundingClientRect();
    const along = frame.turned ? event.clientY - box.top : event.clientX - box.left;
    return Math.min(frame.along, Math.max(0, along));
  };

  const down = useEffectEvent((event: PointerEvent): void => {
    if (frame === null || over.current === null || event.button !== 0) return;
    const along = alongOf(event);
    if (event.pointerType === 'touch') {
      fingers.current.set(event.pointerId, along);
      const [first, second] = [...fingers.current.values()];
      if (first !== undefined && second !== undefined) pinch.current = { shown: frame.shown, first, second };
      else does.onCursor(frame.at(along));
      return;
    }
    over.current.setPointerCapture(event.pointerId);
    start.current = along;
  });

  const move = useEffectEvent((event: PointerEvent): void => {
    if (frame === null) return;
    const along = alongOf(event);
    if (event.pointerType === 'touch') {
      if (!fingers.current.has(event.pointerId)) return;
      fingers.current.set(event.pointerId, along);
      const [first, second] = [...fingers.current.values()];
      if (pinch.current !== null && first !== undefined && second !== undefined)
        does.onShow(pinched(view, pinch.current, first, second, frame.along));
      else if (!frame.turned) does.onCursor(frame.at(along));
      return;
    }
    if (start.current !== null) {
      if (Math.abs(along - start.current) >= DRAG_PX) setMarked({ from: start.current, to: along });
      else setMarked(null);
    }
    does.onCursor(frame.at(along));
  });

  const up = useEffectEvent((event: PointerEvent): void => {
    fingers.current.delete(event.pointerId);
    if (fingers.current.size < 2) pinch.current = null;
    const from = start.current;
    start.current = null;
    setMarked(null);
    if (frame === null || from === null || event.type !== 'pointerup') return;
    const along = alongOf(event);
    if (Math.abs(along - from) >= DRAG_PX) does.onShow(heldPart(view, frame.at(from), frame.at(along)));
  });

  const wheel = useEffectEvent((event: WheelEvent): void => {
    if (frame === null) return;
    if (event.ctrlKey) {
      event.preventDefault();
      const lines = event.deltaMode === 1 ? 16 : 1;
      const factor = Math.exp(Math.max(-400, Math.min(400, event.deltaY * lines)) * WHEEL_STEP);
      does.onShow(zoomedAround(view, frame.shown, frame.at(alongOf(event)), factor));
      return;
    }
    const sideways = event.shiftKey ? event.deltaY || event.deltaX : event.deltaX;
    if (!frame.zoomed || frame.turned || sideways === 0 || Math.abs(event.deltaY) > Math.abs(sideways))
      return;
    event.preventDefault();
    const by_s = frame.at(sideways) - frame.at(0);
    does.onShow(heldPart(view, frame.shown.from_s + by_s, frame.shown.to_s + by_s));
  });

  const leave = useEffectEvent((event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || start.current === null) return;
    event.stopPropagation();
    start.current = null;
    setMarked(null);
  });

  const present = frame !== null;
  useEffect(() => {
    const element = over.current;
    // The paper comes when its size is known.
    if (!present || element === null) return;
    const calls: [string, (event: never) => void][] = [
      ['pointerdown', (event: PointerEvent) => down(event)],
      ['pointermove', (event: PointerEvent) => move(event)],
      ['pointerup', (event: PointerEvent) => up(event)],
      ['pointercancel', (event: PointerEvent) => up(event)],
    ];
    for (const [name, call] of calls) element.addEventListener(name, call as EventListener);
    // Not passive: the wheel with Ctrl would enlarge the whole page.
    const turn = (event: WheelEvent): void => wheel(event);
    element.addEventListener('wheel', turn, { passive: false });
    const key = (event: KeyboardEvent): void => leave(event);
    window.addEventListener('keydown', key, true);
    return () => {
      for (const [name, call] of calls) element.removeEventListener(name, call as EventListener);
      element.removeEventListener('wheel', turn);
      window.removeEventListener('keydown', key, true);
    };
  }, [over, present]);

  return marked;
}

/** The instants under two fingers stay under them. */
function pinched(
  view: RunView,
  from: { shown: Shown; first: number; second: number },
  first: number,
  second: number,
  along: number,
): Shown | null {
  const { shown } = from;
  const perPx = (shown.to_s - shown.from_s) / along;
  const at = (px: number): number => shown.from_s + px * perPx;
  const spread = Math.max(10, Math.abs(second - first)),
    before = Math.max(10, Math.abs(from.second - from.first));
  const now = (perPx * before) / spread;
  const middle_s = at((from.first + from.second) / 2);
  const start = middle_s - ((first + second) / 2) * now;
  return heldPart(view, start, start + along * now);
}
