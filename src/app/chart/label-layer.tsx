import { memo, type CSSProperties } from 'react';
import type { Label } from './label.ts';

const place = ({ left, top }: Label): CSSProperties => ({
  transform: `translate(${Math.round(left)}px, ${Math.round(top)}px)`,
});

/** Texts of the strip. Those that do something are buttons and stand in the other layer. */
export const LabelLayer = memo(function LabelLayer({
  labels,
}: {
  labels: readonly Label[];
}): React.ReactElement {
  return (
    <div className="strip-labels" aria-hidden="true">
      {labels.map((label) => (label.action === undefined ? <Placed key={label.key} label={label} /> : null))}
    </div>
  );
});

/** Moved along, most texts only change their place. */
const Placed = memo(
  function Placed({ label }: { label: Label }): React.ReactElement {
    return (
      <div className={classOf(label)} style={place(label)}>
        <Flag label={label} />
        <Lines lines={label.lines} />
      </div>
    );
  },
  ({ label: before }, { label: after }) =>
    Math.round(before.left) === Math.round(after.left) &&
    Math.round(before.top) === Math.round(after.top) &&
    classOf(before) === classOf(after) &&
    before.flag === after.flag &&
    before.flagAfter === after.flagAfter &&
    sameLines(before.lines, after.lines),
);

function sameLines(before: Label['lines'], after: Label['lines']): boolean {
  return (
    before.length === after.length &&
    before.every((line, at) => {
      const other = after[at] ?? [];
      return (
        line.length === other.length &&
        line.every((run, index) => {
          const { text, tone, bold, size } = other[index] ?? {};
          return run.text === text && run.tone === tone && run.bold === bold && run.size === size;
        })
      );
    })
  );
}

function classOf({ align, ground }: Label): string {
  return `strip-label ${align}${ground === true ? ' ground' : ''}`;
}

/** A flag of our own: as a character it would be a picture in colour on some machines. */
function Flag({ label }: { label: Label }): React.ReactElement | null {
  if (label.flag === undefined) return null;
  return (
    <svg
      className={label.flagAfter === true ? 'strip-flag after' : 'strip-flag'}
      viewBox="0 0 12 12"
      width="12"
      height="12"
      aria-hidden="true"
    >
      <path d={label.flag === 'right' ? 'M0 0L12 6L0 12Z' : 'M0 0H12L6 12Z'} />
    </svg>
  );
}

const Lines = memo(
  function Lines({ lines }: Pick<Label, 'lines'>): React.ReactElement {
    return (
      <>
        {lines.map((line) => (
          <div key={line.map((run) => run.text).join('')} className="strip-line">
            {line.map((run) => (
              <span
                key={run.text}
                className={`tone-${run.tone}${run.bold === true ? ' bold' : ''}${run.size === undefined ? '' : ' large'}`}
              >
                {run.text}
              </span>
            ))}
          </div>
        ))}
      </>
    );
  },
  (before, after) => sameLines(before.lines, after.lines),
);

/** A label that is pressed. Its last run is what pressing does; its own words are its name, so that what is seen can be spoken. */
export function LabelButton(props: {
  label: Label;
  expanded?: boolean;
  onPress: () => void;
}): React.ReactElement {
  const { label, expanded, onPress } = props;
  return (
    <button
      type="button"
      className={`strip-button ${classOf(label)}`}
      style={place(label)}
      aria-expanded={expanded}
      onClick={onPress}
    >
      <Lines lines={label.lines} />
    </button>
  );
}
