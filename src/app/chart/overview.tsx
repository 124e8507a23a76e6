import { useEffect, useRef, useState } from 'react';
import { extentOf, type Extent } from '#drawing/blocks.ts';
import type { ShownFrame } from './frame.ts';
import { coloursOn, usePaperTurn, type PaperColours } from './paper-colours.ts';
import { firstRowFrom } from './rows.ts';
import type { RunView } from './run-view.ts';
import type { Shown } from './strip-props.ts';
import { heldPart } from './zoom.ts';

const HEIGHT = 28;

/** The whole run as a thin strip, the part that is shown framed; the frame is dragged. Keys have the arrows for that. */
export function Overview(props: {
  view: RunView;
  frame: ShownFrame;
  ratio: number;
  onShow: (shown: Shown | null) => void;
}): React.ReactElement {
  const { view, frame, ratio, onShow } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const [turned, setTurned] = useState<PaperColours | null>(null);
  usePaperTurn(() => {
    if (canvas.current !== null) setTurned(coloursOn(canvas.current));
  });
  const { width } = frame.plot;
  const { from_s, to_s } = frame.shown;
  const { pressure, pressurePane } = frame;
  useEffect(() => {
    const element = canvas.current;
    const ctx = element?.getContext('2d') ?? null;
    if (element === null || ctx === null) return;
    element.width = Math.round(width * ratio);
    element.height = Math.round(HEIGHT * ratio);
    const colours = turned ?? coloursOn(element);
    drawWhole(
      ctx,
      view,
      { pressure, pressurePane },
      element.width,
      element.height,
      colours.pressure,
      colours.limit,
    );
  }, [view, pressure, pressurePane, width, ratio, turned]);
  // On whole device pixels. The frame lies over the canvas: moved along, nothing is drawn anew.
  const at = (of_s: number): number => Math.round((of_s / view.end_s) * width * ratio) / ratio;
  const framed = at(from_s);

  const drag = (event: React.PointerEvent<HTMLElement>): void => {
    if (event.type === 'pointermove' && !event.currentTarget.hasPointerCapture(event.pointerId)) return;
    if (event.type === 'pointerdown') event.currentTarget.setPointerCapture(event.pointerId);
    const at_s = ((event.clientX - event.currentTarget.getBoundingClientRect().left) / width) * view.end_s;
    const half = (to_s - from_s) / 2;
    onShow(heldPart(view, at_s - half, at_s + half));
  };
  return (
    <div className="strip-whole" aria-hidden="true" onPointerDown={drag} onPointerMove={drag}>
      <canvas ref={canvas} style={{ width, height: HEIGHT }} />
      <div
        className="strip-whole-part"
        style={{ width: at(to_s) - framed, transform: `translateX(${framed}px)` }}
      />
    </div>
  );
}

function drawWhole(
  ctx: CanvasRenderingContext2D,
  view: RunView,
  frame: Pick<ShownFrame, 'pressure' | 'pressurePane'>,
  width: number,
  height: number,
  pressureColour: string,
  limitColour: string,
): void {
  ctx.clearRect(0, 0, width, height);
  if (view.pressure === null || !(view.end_s > 0)) return;
  const extent: Extent = { lowest: 0, highest: 0 };
  const { size } = frame.pressurePane;
  const y = (value: number): number =>
    height - 3 - (Math.min(size, Math.max(0, frame.pressure.px(value))) / size) * (height - 6);
  ctx.fillStyle = limitColour;
  for (const limit of [view.band.low, view.band.high])
    if (limit !== null) ctx.fillRect(0, Math.round(y(limit)), width, 1);
  ctx.fillStyle = pressureColour;
  let from = 0;
  for (let column = 0; column < width; column++) {
    const to = firstRowFrom(view.time_s, ((column + 1) / width) * view.end_s);
    if (to > from && extentOf(view.pressure.line, from, to, extent)) {
      const top = y(extent.highest),
        foot = y(extent.lowest);
      ctx.fillRect(column, top - 0.5, 1, Math.max(1.5, foot - top + 1));
    }
    from = to;
  }
}
