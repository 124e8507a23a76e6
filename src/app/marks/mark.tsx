import type { Criterion, Verdict } from '#formats/assessment.ts';

/** Uprights of the mark: the limits. The reading stands left of, between or right of them. */
const LOW_X = 14,
  HIGH_X = 30,
  MIDDLE_Y = 12;

/** Where the reading lies against its limits. */
function placeOf(criterion: Criterion | null): 'below' | 'inside' | 'above' {
  if (criterion === null || criterion.value === null) return 'inside';
  const { value, limits } = criterion;
  if (limits.high !== null && value > limits.high) return 'above';
  return limits.low !== null && value < limits.low ? 'below' : 'inside';
}

/** The limit that an undecided reading is too near to. */
function nearLimit(criterion: Criterion | null): 'low' | 'high' {
  if (criterion === null || criterion.value === null) return 'high';
  const { value, limits } = criterion;
  if (limits.low === null || limits.high === null) return limits.high === null ? 'low' : 'high';
  return value - limits.low < limits.high - value ? 'low' : 'high';
}

/**
 * Two limits and a reading: what the verdict means, in 44 × 24. Told apart without colour, and always beside its word, so it is
 * hidden from screen readers.
 */
export function Mark({
  verdict,
  criterion,
}: {
  verdict: Verdict;
  criterion: Criterion | null;
}): React.ReactElement {
  const low = criterion === null || criterion.limits.low !== null;
  const high = criterion === null || criterion.limits.high !== null;
  const place = placeOf(criterion);
  const dashes = verdict === 'not-assessed' ? '4 3.5' : undefined;
  const ringX = nearLimit(criterion) === 'low' ? LOW_X : HIGH_X;
  const crossX = place === 'below' ? 6 : place === 'above' ? 38 : 22;
  return (
    <svg
      className={`mark ${verdict}`}
      viewBox="0 0 44 24"
      width="44"
      height="24"
      aria-hidden="true"
      focusable="false"
    >
      <g fill="none" stroke="currentColor">
        {low && <path d={`M${LOW_X} 2V22`} strokeWidth="2.4" strokeDasharray={dashes} />}
        {high && <path d={`M${HIGH_X} 2V22`} strokeWidth="2.4" strokeDasharray={dashes} />}
        {verdict === 'fail' && (
          <path d={`M${crossX - 5} ${MIDDLE_Y - 5}l10 10m0 -10l-10 10`} strokeWidth="3.4" />
        )}
        {verdict === 'undecided' && (
          <circle cx={ringX} cy={MIDDLE_Y} r="5.5" strokeWidth="2.4" className="mark-ring" />
        )}
      </g>
      {verdict === 'pass' && (
        <circle cx={low && high ? 22 : low ? 36 : 8} cy={MIDDLE_Y} r="4.5" fill="currentColor" />
      )}
    </svg>
  );
}
