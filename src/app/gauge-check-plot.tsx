import type { GaugeReadingsCheck } from '#formats/gauge-check.ts';
import { decimalsForStep, fixedText, unitLabel } from './shown-numbers.ts';
import { multiples, roundStepAtLeast } from './chart/round-steps.ts';

const WIDTH = 560,
  HEIGHT = 300,
  LEFT = 84,
  RIGHT = 20,
  TOP = 16,
  FOOT = 58;

/** What is left of each point once it is corrected by the line, against the reading; the band is the uncertainty for the rig file. */
export function GaugePlot({ check }: { check: GaugeReadingsCheck }): React.ReactElement | null {
  const { residuals = [], unit, rigChannel } = check;
  if (residuals.length === 0) return null;
  const U = rigChannel?.uncertainty.expanded ?? 0;
  const readings = residuals.map(({ reading }) => reading);
  const low = Math.min(...readings),
    high = Math.max(...readings);
  const reach = Math.max(U, ...residuals.map(({ residual }) => Math.abs(residual))) * 1.2 || 1;
  const x = (reading: number): number =>
    LEFT + 12 + ((reading - low) / (high - low || 1)) * (WIDTH - LEFT - RIGHT - 24);
  const y = (residual: number): number => TOP + ((reach - residual) / (2 * reach)) * (HEIGHT - TOP - FOOT);
  const step = roundStepAtLeast(reach / 2),
    across = roundStepAtLeast((high - low || 1) / 6);
  const ticks = multiples(step, -reach, reach),
    columns = multiples(across, low, high);
  const bottom = HEIGHT - FOOT;
  return (
    <svg
      className="gauge-plot"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={`What is left of ${residuals.length} points after the correction: at most ${fixedText(Math.max(...residuals.map(({ residual }) => Math.abs(residual))), decimalsForStep(step / 10))} ${unitLabel(unit)} from the line.`}
    >
      {U > 0 && (
        <rect className="strip-band" x={LEFT} width={WIDTH - LEFT - RIGHT} y={y(U)} height={y(-U) - y(U)} />
      )}
      {[U, -U].map(
        (limit) =>
          U > 0 && <path key={limit} className="strip-limit" d={`M${LEFT} ${y(limit)}H${WIDTH - RIGHT}`} />,
      )}
      <path className="gauge-zero" d={`M${LEFT} ${y(0)}H${WIDTH - RIGHT}`} />
      {ticks.map((tick) => (
        <text key={`y ${tick}`} x={LEFT - 8} y={y(tick) + 6} textAnchor="end">
          {fixedText(tick, decimalsForStep(step))}
        </text>
      ))}
      <path
        className="strip-axis"
        d={`M${LEFT} ${TOP}V${bottom}H${WIDTH - RIGHT}${columns.map((tick) => `M${x(tick).toFixed(1)} ${bottom}v7`).join('')}`}
      />
      {columns.map((tick) => (
        <text key={`x ${tick}`} x={x(tick)} y={bottom + 25} textAnchor="middle">
          {fixedText(tick, decimalsForStep(across))}
        </text>
      ))}
      <text x={(LEFT + WIDTH - RIGHT) / 2} y={HEIGHT - 6} textAnchor="middle">
        reading, {unitLabel(unit)}
      </text>
      {residuals.map(({ reading, residual }, index) => (
        <circle
          key={`${reading} ${index}`}
          className="gauge-point"
          cx={x(reading)}
          cy={y(residual)}
          r={5.5}
        />
      ))}
    </svg>
  );
}
