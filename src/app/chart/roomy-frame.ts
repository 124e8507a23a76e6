import { scaleRoom } from './axis-labels.ts';
import { frameOf, type Frame, type FrameInput } from './frame.ts';
import type { Measure } from './label.ts';
import type { RunView } from './run-view.ts';

/** Left edge of the window to the widest number. */
const EDGE_PX = 2;

/** A frame whose scale fits left of its plot, in whatever face this computer sets it. */
export function roomyFrame(view: RunView, input: FrameInput, measure: Measure): Frame {
  const frame = frameOf(view, input);
  if (frame.turned) return frame;
  const room = EDGE_PX + scaleRoom(frame, view, measure);
  return room <= frame.plot.left ? frame : frameOf(view, { ...input, leftAtLeast: room });
}
