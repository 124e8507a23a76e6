import { useEffect, useEffectEvent, useId, useImperativeHandle, useMemo, useRef, useState } from 'react';
import { usePrinting } from '#app/printing.ts';
import { durationText } from '#app/shown-numbers.ts';
import { headLabels, scaleLabels, timeLabels } from './axis-labels.ts';
import { BorderHandles, movableBorders, type MovableBorder } from './border-handles.tsx';
import { borderInstants } from './draw-marks.ts';
import { shownFrame, TURNED_UP_TO, type ShownFrame } from './frame.ts';
import type { Label, Measure } from './label.ts';
import { LabelButton, LabelLayer } from './label-layer.tsx';
import { MinuteTable } from './minute-table.tsx';
import { Overview } from './overview.tsx';
import { nameLabels, paneLabels } from './pane-labels.ts';
import { usePixelRatio } from './paper-colours.ts';
import { phaseLabels } from './phase-labels.ts';
import { cursorAt, readOut, readOutText, timeWords, type Cursor } from './read-out.ts';
import { ReadOutTab, SpokenReadOut } from './read-out-tab.tsx';
import { runView, type RunView } from './run-view.ts';
import { SetAsideList } from './set-aside-list.tsx';
import { countOf } from './set-aside-runs.ts';
import { landmarks, stepped, toLandmark } from './steps-along.ts';
import type { Shown, StripProps } from './strip-props.ts';
import { summarySentences } from './summary.ts';
import { roomyFrame } from './roomy-frame.ts';
import { useMeasure } from './use-measure.ts';
import { usePlot } from './use-plot.ts';
import { usePointer, type Marked } from './use-pointer.ts';
import { useStripSize, type StripSize } from './use-strip-size.ts';
import { closer, heldPart, wider, withInView } from './zoom.ts';
import './strip.css';

const LONG_STEP_PX = 10;
/** On paper it is drawn anew, not shrunk: 182 mm, as wide as A4 is within margins of 14 mm, so that it fits Letter, too. */
const PRINTED: StripSize = { width: 688, windowHeight: 700 };
/** Device pixels to a CSS px on paper: 288 an inch. */
const PRINTED_RATIO = 3;

/** The run on its strip of chart paper. Looking closer, folding and units change what is seen, never what was judged. */
export function Strip(props: StripProps): React.ReactElement {
  const { ref, assessment, series, unit, temperatureUnit, folded, onFold, onCursor, onShown, onDrawn } =
    props;
  const { onBorderMove, onBorderBack, laid } = props;
  const host = useRef<HTMLElement>(null),
    over = useRef<HTMLDivElement>(null),
    paper = useRef<HTMLDivElement>(null),
    plotHost = useRef<HTMLDivElement>(null);
  const ids = useId();
  const bare = useMemo(() => runView(series, assessment), [series, assessment]);
  const view = useMemo(() => (laid === undefined ? bare : { ...bare, laid }), [bare, laid]);
  const printing = usePrinting();
  const onScreen = useStripSize(host);
  const size = printing ? PRINTED : onScreen;
  const onScreenRatio = usePixelRatio();
  const ratio = printing ? Math.max(PRINTED_RATIO, onScreenRatio) : onScreenRatio;
  const measure = useMeasure(host);
  const [part, setPart] = useState<{ shown: Shown; of_s: number } | null>(null);
  // A part of another run is no part of this one.
  const shown = part !== null && part.of_s === view.end_s ? part.shown : null;
  const [wished, setCursor] = useState<{ at_s: number; of_s: number; by: 'pointer' | 'keys' } | null>(null);
  const [listed, setListed] = useState(false),
    [tabled, setTabled] = useState(false),
    [others, setOthers] = useState(false);
  const [hand, setHand] = useState<{ border: MovableBorder; to_s: number; stopped: boolean } | null>(null);

  const zoomed = shown !== null;
  const frame = useMemo(
    () =>
      size === null || size.width <= 0
        ? null
        : roomyFrame(
            view,
            {
              ...size,
              turned: size.width <= TURNED_UP_TO,
              folded,
              others,
              overview: zoomed,
              unit,
              temperatureUnit: temperatureUnit ?? null,
            },
            measure,
          ),
    [view, size, folded, others, zoomed, unit, temperatureUnit, measure],
  );
  const drawn = useMemo(() => (frame === null ? null : shownFrame(frame, view, shown)), [frame, view, shown]);
  const cursor = useMemo(
    () => cursorAt(view, wished !== null && wished.of_s === view.end_s ? wished.at_s : restingPlace(view)),
    [view, wished],
  );
  const stands = drawn !== null;
  const tellDrawn = useEffectEvent(() => onDrawn?.());
  useEffect(() => {
    if (stands) tellDrawn();
  }, [stands]);
  const marks = useMemo(() => landmarks(view), [view]);
  const borders = useMemo(
    () => (onBorderMove === undefined ? [] : movableBorders(view)),
    [view, onBorderMove],
  );

  const show = (next: Shown | null): void => {
    setPart(next === null ? null : { shown: next, of_s: view.end_s });
    onShown?.(next);
  };
  const moveTo = (next: Cursor, by: 'pointer' | 'keys'): void => {
    setCursor({ at_s: next.at_s, of_s: view.end_s, by });
    if (by === 'keys') {
      const seen = withInView(view, shown, next.at_s);
      if (seen !== shown) show(seen);
    }
    onCursor?.(next.row, next.at_s);
  };
  const now = drawn?.shown ?? { from_s: 0, to_s: view.end_s };
  const look = {
    closer: () => show(closer(view, now, cursor.at_s)),
    wider: () => show(wider(view, now, cursor.at_s)),
    wholeRun: () => show(null),
  };
  const goTo = (at_s: number): void => {
    moveTo(cursorAt(view, at_s), 'keys');
  };
  const toBorder = (forward: boolean): void => {
    const handles = [...(paper.current?.querySelectorAll<HTMLElement>('.strip-handle') ?? [])];
    if (handles.length > 0) {
      const at = handles.findIndex((handle) => handle === document.activeElement);
      const next = at < 0 ? (forward ? 0 : handles.length - 1) : at + (forward ? 1 : -1);
      handles[(next + handles.length) % handles.length]?.focus();
      return;
    }
    over.current?.focus();
    moveTo(toLandmark(view, borderInstants(view), cursor, forward), 'keys');
  };
  /** The strip, or on a strip that runs down the page the instant on it. */
  const bringIntoView = (at_s: number): void => {
    if (drawn === null || !drawn.turned) {
      host.current?.scrollIntoView({ block: 'nearest' });
      return;
    }
    // In the frame that shows it: looked at closer it may just have moved along.
    const inView = withInView(view, shown, at_s);
    const at = inView === shown ? drawn : shownFrame(drawn, view, inView);
    const top = (over.current?.getBoundingClientRect().top ?? 0) + at.x(at_s);
    const high = window.innerHeight * 0.15,
      low = window.innerHeight * 0.6;
    if (top < high || top > low)
      window.scrollBy({ top: top - window.innerHeight * 0.35, behavior: 'instant' });
  };
  useImperativeHandle(ref, () => ({
    ...look,
    previousBorder: () => toBorder(false),
    nextBorder: () => toBorder(true),
    lookAt: ({ from_s, to_s }) => {
      const room = (to_s - from_s) * 0.05;
      show(heldPart(view, from_s - room, to_s + room));
      setCursor({ at_s: cursorAt(view, from_s).at_s, of_s: view.end_s, by: 'keys' });
    },
    goTo: (at_s) => {
      goTo(at_s);
      bringIntoView(at_s);
    },
  }));

  const marked = usePointer(over, view, drawn, {
    onCursor: (at_s) => moveTo(cursorAt(view, at_s), 'pointer'),
    onShow: show,
  });

  const key = (event: React.KeyboardEvent): void => {
    if (drawn === null || event.altKey || event.metaKey) return;
    const action = keyAction(event, {
      step: (px) => moveTo(stepped(view, drawn, cursor, px), 'keys'),
      landmark: (forward) => moveTo(toLandmark(view, marks, cursor, forward), 'keys'),
      to: (at_s) => moveTo(cursorAt(view, at_s), 'keys'),
      page: (pages) => {
        const by_s = pages * (now.to_s - now.from_s);
        if (shown !== null) show(heldPart(view, now.from_s + by_s, now.to_s + by_s));
        setCursor({ at_s: cursorAt(view, cursor.at_s + by_s).at_s, of_s: view.end_s, by: 'keys' });
      },
      shown: now,
      ...look,
      leave: shown === null ? null : look.wholeRun,
      fold: drawn.pressure.foldable ? () => onFold(!folded) : null,
      border: toBorder,
    });
    if (action === null) return;
    event.preventDefault();
    event.stopPropagation();
    action();
  };

  // The scale stays where it is while the paper moves under it.
  const scale = useMemo(
    () => (frame === null || frame.turned ? [] : scaleLabels(frame, view, measure)),
    [frame, view, measure],
  );
  const labels = useMemo(
    () => (drawn === null ? [] : stripLabels(drawn, view, measure)),
    [drawn, view, measure],
  );
  const quiet = useMemo(() => labels.filter(({ ground }) => ground === true), [labels]);
  usePlot(plotHost, view, frame, drawn, quiet, ratio, cursor, printing);
  const head = useMemo(
    () => (frame === null || !frame.turned ? [] : headLabels(frame, view, measure)),
    [frame, view, measure],
  );
  const out = drawn === null ? null : readOut(view, drawn, cursor);
  const text = out === null ? '' : readOutText(out);
  const count = countOf(view.setAside);
  const foldName = drawn?.pressure.fold === null ? 'Fold the pressure scale' : 'Unfold the pressure scale';

  const summary = useMemo(
    () => (frame === null ? '' : summarySentences(view, frame, assessment)),
    [view, frame, assessment],
  );

  const list = listed && drawn !== null && (
    <SetAsideList
      view={view}
      frame={drawn}
      onChoose={(at_s) => {
        goTo(at_s);
        over.current?.focus({ preventScroll: true });
        bringIntoView(at_s);
      }}
    />
  );

  return (
    <section className="strip" ref={host} aria-label="Strip">
      {frame !== null && (
        <p className="unseen" id={`${ids}summary`}>
          {summary}
        </p>
      )}
      {drawn !== null && drawn.turned && (
        <div className="strip-bar">
          {drawn.pressure.foldable && (
            <button type="button" className="link" onClick={() => onFold(!folded)} aria-label={foldName}>
              {drawn.pressure.fold === null ? 'Fold' : 'Unfold'}
            </button>
          )}
          {count > 0 && (
            <button type="button" className="link" aria-expanded={listed} onClick={() => setListed(!listed)}>
              {count} set aside
            </button>
          )}
          {shown !== null && (
            <button type="button" className="link" onClick={() => show(null)}>
              Whole run
            </button>
          )}
        </div>
      )}
      {drawn?.turned === true && list}
      {drawn !== null && drawn.turned && (
        <div className="strip-head">
          <LabelLayer labels={head} />
        </div>
      )}
      <div className="strip-group" role="group" aria-label="Chart" aria-describedby={`${ids}summary`}>
        <div className="strip-paper" ref={paper} style={drawn === null ? {} : { height: drawn.height }}>
          <div className="strip-plot" ref={plotHost} aria-hidden="true" />
          <LabelLayer labels={scale} />
          <LabelLayer labels={labels} />
          {drawn !== null && (
            <>
              <div
                ref={over}
                className={`strip-over${drawn.turned ? ' turned' : ''}`}
                role="slider"
                tabIndex={0}
                aria-label="Time along the run"
                aria-valuemin={0}
                aria-valuemax={Math.round(view.end_s)}
                aria-valuenow={Math.round(cursor.at_s)}
                aria-valuetext={text}
                aria-orientation={drawn.turned ? 'vertical' : 'horizontal'}
                style={{
                  left: drawn.plot.left,
                  top: drawn.plot.top,
                  width: drawn.plot.width,
                  height: drawn.plot.height,
                }}
                onKeyDown={key}
              />
              {marked !== null && <MarkedPart frame={drawn} marked={marked} />}
              {onBorderMove !== undefined && (
                <BorderHandles
                  view={view}
                  frame={drawn}
                  borders={borders}
                  onMove={onBorderMove}
                  onBack={onBorderBack}
                  onHand={setHand}
                />
              )}
              {labels.map((label) =>
                label.action === undefined ? null : (
                  <LabelButton
                    key={label.key}
                    label={label}
                    {...(label.action === 'fold' ? {} : { expanded: listed })}
                    onPress={() => (label.action === 'fold' ? onFold(!folded) : setListed(!listed))}
                  />
                ),
              )}
            </>
          )}
        </div>
        {drawn !== null && out !== null && (
          <ReadOutTab
            out={hand === null ? out : handWords(view, hand)}
            frame={drawn}
            at_s={hand === null ? cursor.at_s : hand.to_s}
          />
        )}
        {wished?.by === 'pointer' && <SpokenReadOut text={text} />}
      </div>
      {drawn !== null && (
        <div className="strip-below">
          {shown !== null && !drawn.turned && (
            <>
              <Overview view={view} frame={drawn} ratio={ratio} onShow={show} />
              <button type="button" className="link" onClick={() => show(null)}>
                Whole run
              </button>
            </>
          )}
          {view.others.length > 0 && !drawn.turned && (
            <button type="button" className="link" aria-pressed={others} onClick={() => setOthers(!others)}>
              Other channels
            </button>
          )}
          <button
            type="button"
            className="link strip-as-table"
            aria-expanded={tabled}
            onClick={() => setTabled(!tabled)}
          >
            {tabled ? 'Put the table away' : 'Show as table'}
          </button>
          {tabled && <MinuteTable view={view} frame={drawn} />}
        </div>
      )}
      {drawn?.turned === false && list}
    </section>
  );
}

/** Without a pointer the cursor stands at the middle of the hold. */
function restingPlace(view: RunView): number {
  const hold = view.parts
    .filter(({ kind }) => kind === 'hold')
    .sort((a, b) => b.end_s - b.start_s - (a.end_s - a.start_s))[0];
  const at_s = hold === undefined ? view.end_s / 2 : (hold.start_s + hold.end_s) / 2;
  const gap = view.gaps.find(({ start_s, end_s }) => at_s > start_s && at_s < end_s);
  return gap?.end_s ?? at_s;
}

function stripLabels(frame: ShownFrame, view: RunView, measure: Measure): Label[] {
  const time = timeLabels(frame, view, measure);
  const names = nameLabels(frame, view, measure);
  const inside = paneLabels(frame, view, measure, time);
  const parts = phaseLabels(frame, view, measure, [...time, ...inside, ...names]);
  return [...time, ...parts, ...inside, ...names];
}

/** What the tab says while a border is moved. */
function handWords(
  view: RunView,
  { border, to_s, stopped }: { border: MovableBorder; to_s: number; stopped: boolean },
): ReturnType<typeof readOut> {
  const name = border.border === 'hold-start' ? 'Hold starts at' : 'Hold ends at';
  return {
    pressure: null,
    place: name,
    raw: stopped ? 'it can go no further' : null,
    oil: null,
    others: [],
    time: timeWords(view, to_s),
  };
}

/** The bracket that follows a drag, with its duration. */
function MarkedPart({ frame, marked }: { frame: ShownFrame; marked: Marked }): React.ReactElement {
  const from = Math.min(marked.from, marked.to),
    length = Math.abs(marked.to - marked.from);
  const { plot, turned } = frame;
  return (
    <div
      className={`strip-marked${turned ? ' turned' : ''}`}
      aria-hidden="true"
      style={
        turned
          ? { left: plot.left, top: plot.top + from, width: plot.width, height: length }
          : { left: plot.left + from, top: plot.top, width: length, height: plot.height }
      }
    >
      <span>{durationText(Math.abs(frame.at(marked.to) - frame.at(marked.from)), true)}</span>
    </div>
  );
}

interface KeyActions {
  step: (px: number) => void;
  landmark: (forward: boolean) => void;
  to: (at_s: number) => void;
  page: (pages: number) => void;
  shown: Shown;
  closer: () => void;
  wider: () => void;
  wholeRun: () => void;
  leave: (() => void) | null;
  fold: (() => void) | null;
  border: (forward: boolean) => void;
}

/** What a key does while the strip has the keyboard; null: not ours. */
function keyAction(event: React.KeyboardEvent, does: KeyActions): (() => void) | null {
  const along = (forward: boolean): (() => void) => {
    if (event.ctrlKey) return () => does.landmark(forward);
    return () => does.step((forward ? 1 : -1) * (event.shiftKey ? LONG_STEP_PX : 1));
  };
  switch (event.key) {
    case 'ArrowRight':
      return along(true);
    case 'ArrowLeft':
      return along(false);
    // Turned, time runs down; the other way a slider's up is onwards.
    case 'ArrowDown':
      return along(event.currentTarget.getAttribute('aria-orientation') === 'vertical');
    case 'ArrowUp':
      return along(event.currentTarget.getAttribute('aria-orientation') !== 'vertical');
    case 'PageDown':
      return () => does.page(0.5);
    case 'PageUp':
      return () => does.page(-0.5);
    case 'Home':
      return () => does.to(does.shown.from_s);
    case 'End':
      return () => does.to(does.shown.to_s);
    case 'Escape':
      return does.leave;
    default:
      return event.ctrlKey ? null : letterAction(event.key, does);
  }
}

function letterAction(key: string, does: KeyActions): (() => void) | null {
  switch (key) {
    case '+':
    case '=':
      return does.closer;
    case '-':
    case '\u2212':
      return does.wider;
    case '0':
      return does.wholeRun;
    case 'f':
    case 'F':
      return does.fold;
    case '[':
      return () => does.border(false);
    case ']':
      return () => does.border(true);
    default:
      return null;
  }
}
