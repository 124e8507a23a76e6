import { useRef, useState } from 'react';
import { durationText } from '#app/shown-numbers.ts';
import { PHASE_LINE_PX } from './draw-marks.ts';
import type { ShownFrame } from './frame.ts';
import { timeWords } from './read-out.ts';
import type { RunView } from './run-view.ts';
import type { Border, StripProps } from './strip-props.ts';

/** A border of the hold, where it is and how far it may go. */
export interface MovableBorder {
  border: Border;
  at_s: number;
  low_s: number;
  high_s: number;
}

/** Shortest hold that is left: ten minutes, or a tenth of a run that is shorter. */
const LEAST_HOLD_s = 600;

/** The hold's borders with their room: none crosses its neighbour or leaves too little hold. */
export function movableBorders(view: RunView): MovableBorder[] {
  const holds = view.parts.filter(({ kind }) => kind === 'hold');
  const first = holds[0],
    last = holds.at(-1);
  if (first === undefined || last === undefined) return [];
  const run = view.parts.filter(({ kind }) => kind === 'hold' || kind === 'warm-up');
  const runStart = run[0]?.start_s ?? 0,
    lastHold = view.parts.indexOf(last),
    after = view.parts[lastHold + 1];
  // What a hand cut off the hold's end is not judged; the border may go back into it.
  const runEnd = after !== undefined && after.kind === 'not-judged' ? after.end_s : last.end_s;
  const least = Math.min(LEAST_HOLD_s, (runEnd - runStart) / 10);
  return [
    {
      border: 'hold-start',
      at_s: first.start_s,
      low_s: runStart,
      high_s: Math.max(runStart, last.end_s - least),
    },
    { border: 'hold-end', at_s: last.end_s, low_s: Math.min(runEnd, first.start_s + least), high_s: runEnd },
  ];
}

const STEP_s = 10,
  LONG_STEP_s = 60;

const words: Readonly<Record<Border, string>> = {
  'hold-start': 'Hold starts at',
  'hold-end': 'Hold ends at',
};

/** Handles on the phase line: sliders for hand and keys. */
export function BorderHandles(props: {
  view: RunView;
  frame: ShownFrame;
  borders: readonly MovableBorder[];
  onMove: NonNullable<StripProps['onBorderMove']>;
  onBack: StripProps['onBorderBack'];
  /** null when the hand has gone; `stopped`: the border can go no further. */
  onHand: (hand: { border: MovableBorder; to_s: number; stopped: boolean } | null) => void;
}): React.ReactElement {
  const { view, frame, borders, onMove, onBack, onHand } = props;
  const held = useRef<{ border: Border; from_s: number; to_s: number } | null>(null);
  // Until the run is judged anew the handle stands where the hand put it, and the next key goes on from there.
  const [wanted, setWanted] = useState<{ border: Border; to_s: number; of: RunView } | null>(null);
  const placeOf = ({ border, at_s }: MovableBorder): number =>
    wanted !== null && wanted.border === border && wanted.of === view ? wanted.to_s : at_s;

  const move = (border: MovableBorder, to_s: number, settled: boolean, letGo = false): void => {
    const reached = Math.min(border.high_s, Math.max(border.low_s, to_s));
    // Against its stop a key moves nothing: nothing to be judged, nothing to be asked. A hand that lets go is settled where it is.
    if (settled && !letGo && Math.abs(reached - placeOf(border)) < 0.5e-3) {
      onHand(null);
      return;
    }
    setWanted({ border: border.border, to_s: reached, of: view });
    onHand(settled ? null : { border, to_s: reached, stopped: reached !== to_s });
    onMove(border.border, Math.round(reached * 1000) / 1000, settled);
  };
  const instantOf = (event: React.PointerEvent<HTMLElement>): number => {
    const box = event.currentTarget.parentElement?.getBoundingClientRect();
    if (box === undefined) return 0;
    return frame.at(
      frame.turned ? event.clientY - box.top - frame.plot.top : event.clientX - box.left - frame.plot.left,
    );
  };

  return (
    <>
      {borders.map((border) => {
        const at_s = placeOf(border);
        const along = frame.x(at_s);
        if (along < -1 || along > frame.along + 1) return null;
        const at = frame.turned
          ? `translate(${frame.plot.left - 22}px, ${Math.round(frame.plot.top + along - 22)}px)`
          : `translate(${Math.round(frame.plot.left + along - 22)}px, ${frame.plot.top - PHASE_LINE_PX - 18}px)`;
        return (
          <button
            key={border.border}
            type="button"
            role="slider"
            className="strip-handle"
            data-border={border.border}
            aria-label={words[border.border].replace(' at', '')}
            aria-valuemin={Math.round(border.low_s)}
            aria-valuemax={Math.round(border.high_s)}
            aria-valuenow={Math.round(at_s)}
            aria-valuetext={`${words[border.border]} ${timeWords(view, at_s)}, hold ${durationText(lengthOf(borders, placeOf))}`}
            aria-orientation={frame.turned ? 'vertical' : 'horizontal'}
            style={{ transform: at }}
            onPointerDown={(event) => {
              if (event.button !== 0) return;
              event.currentTarget.setPointerCapture(event.pointerId);
              held.current = { border: border.border, from_s: at_s, to_s: at_s };
            }}
            onPointerMove={(event) => {
              if (held.current?.border !== border.border) return;
              held.current.to_s = instantOf(event);
              move(border, held.current.to_s, false);
            }}
            onPointerUp={() => {
              const last = held.current;
              held.current = null;
              // A press without a drag only takes the keyboard.
              if (last !== null && last.to_s !== last.from_s) move(border, last.to_s, true, true);
            }}
            onPointerCancel={() => {
              held.current = null;
              onHand(null);
            }}
            onDoubleClick={() => onBack?.(border.border)}
            onKeyDown={(event) => {
              const step = keyStep(event);
              if (step === null) return;
              event.preventDefault();
              event.stopPropagation();
              move(
                border,
                step === 'first' ? border.low_s : step === 'last' ? border.high_s : at_s + step,
                true,
              );
            }}
          />
        );
      })}
    </>
  );
}

function lengthOf(borders: readonly MovableBorder[], placeOf: (border: MovableBorder) => number): number {
  const [start, end] = borders;
  return start === undefined || end === undefined ? 0 : placeOf(end) - placeOf(start);
}

function keyStep(event: React.KeyboardEvent): number | 'first' | 'last' | null {
  const size = event.shiftKey ? LONG_STEP_s : STEP_s;
  switch (event.key) {
    case 'ArrowLeft':
    case 'ArrowDown':
      return -size;
    case 'ArrowRight':
    case 'ArrowUp':
      return size;
    case 'PageDown':
      return -LONG_STEP_s;
    case 'PageUp':
      return LONG_STEP_s;
    case 'Home':
      return 'first';
    case 'End':
      return 'last';
    default:
      return null;
  }
}
