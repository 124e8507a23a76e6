const WIDTH = 1168,
  HEIGHT = 270,
  HOURS = 6.2;

/** A strip of chart paper on which nothing is drawn yet; it fills from the left while a log is read. */
export function BlankStrip(props: {
  /** 0 to 1 while reading, null otherwise. */
  share: number | null;
  children: React.ReactNode;
  hovering: boolean;
}): React.ReactElement {
  const { share } = props;
  const upright = Array.from({ length: 26 }, (_, k) => k * (WIDTH / 26));
  const level = Array.from({ length: 15 }, (_, k) => (k * HEIGHT) / 15);
  return (
    <div className={`across blank${props.hovering ? ' hovering' : ''}`}>
      <svg viewBox={`0 0 ${WIDTH} 300`} preserveAspectRatio="none" aria-hidden="true">
        {share !== null && <rect className="blank-fill" width={WIDTH * share} height={HEIGHT} />}
        <path
          className="blank-grid"
          vectorEffect="non-scaling-stroke"
          d={[
            ...upright.map((x) => `M${x} 0V${HEIGHT}`),
            ...level.map((y) => `M0 ${y}H${WIDTH}`),
            `M${WIDTH} 0V${HEIGHT}`,
          ].join('')}
        />
        <path className="blank-limit" vectorEffect="non-scaling-stroke" d={`M0 90H${WIDTH}M0 180H${WIDTH}`} />
        {share !== null && (
          <path
            className="blank-front"
            vectorEffect="non-scaling-stroke"
            d={`M${WIDTH * share} 0V${HEIGHT}`}
          />
        )}
        <path
          className="blank-axis"
          vectorEffect="non-scaling-stroke"
          d={`M0 ${HEIGHT}H${WIDTH}${Array.from({ length: 7 }, (_, hour) => `M${(hour * WIDTH) / HOURS} ${HEIGHT}v9`).join('')}`}
        />
      </svg>
      <ol className="blank-hours" aria-hidden="true">
        {Array.from({ length: 7 }, (_, hour) => (
          <li key={hour}>{hour === 0 ? '0' : `${hour} h`}</li>
        ))}
      </ol>
      <div className="card">{props.children}</div>
    </div>
  );
}
