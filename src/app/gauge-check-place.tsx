import { useEffect, useState } from 'react';
import { readRig } from '#formats/check.ts';
import type { GaugeBandCheck, GaugeReadingsCheck } from '#formats/gauge-check.ts';
import { writeJson } from '#formats/number.ts';
import {
  asSentence,
  decimalsForUncertainty,
  fixedText,
  shareText,
  statedText,
  unitLabel,
  withUnit,
} from './shown-numbers.ts';
import type { Question } from '#worker/client.ts';
import { rigWith } from './gauge-rig.ts';
import { GaugePlot } from './gauge-check-plot.tsx';
import {
  emptyPoint,
  gaugeUnits,
  oddNumbers,
  pastedPoints,
  pointsOfText,
  pointsTable,
  textOfPoints,
  type GaugePoint,
} from './gauge-check-points.ts';
import { useAround } from './habits.ts';
import { useRelief } from './relief-around.ts';
import { ambiguousText, typedNumber } from './typed-number.ts';
import type { Trouble } from './state.ts';
import { TroubleLine } from './trouble.tsx';
import { troubleOf } from './trouble-of.ts';
import { useDraft } from './use-draft.ts';
import { useJsonChooser } from './use-json-chooser.tsx';

const blank = {
  points: '',
  unit: 'psi',
  low: '0',
  high: '',
  percent: '',
  identification: '',
  calibratedOn: '',
  dueOn: '',
};

type Checked = {
  check: GaugeReadingsCheck;
  corrected: GaugeBandCheck | null;
  asStated: GaugeBandCheck | null;
};
const DIGITS = 5;
const short = (value: number): string => statedText(Number(value.toPrecision(DIGITS)));

/** A gauge held against a reference: points in, correction and uncertainty out, and what the gauge may be used for. */
export function GaugeCheckPlace(): React.ReactElement {
  const { habits, state, desk } = useAround();
  const { relief } = useRelief();
  const draft = useDraft('gauge-check', blank);
  const [checked, setChecked] = useState<Checked | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [told, setTold] = useState('');
  const points = pointsOfText(draft.value('points'));
  const put = (next: readonly GaugePoint[]): void => draft.type('points', textOfPoints(next));
  const odd = oddNumbers(points);
  const unclear = ambiguousText(draft.value('low'), draft.value('high'), draft.value('percent'));
  const spec = state.run?.judged.assessment.spec ?? habits.lastSpec;
  const question = questionOf(points, draft.value, spec?.pressureBand ?? null);
  const asked = odd.length > 0 || question === null ? null : JSON.stringify(question);
  const ready =
    points.filter(({ reference, reading }) => reference.trim() !== '' && reading.trim() !== '').length >= 2;

  // Worked out as it is typed; an answer to an older question is dropped.
  useEffect(() => {
    let gone = false;
    if (asked === null || !ready) return;
    const current = JSON.parse(asked) as NonNullable<typeof question>;
    void relief.checkGauge(current).then((outcome) => {
      if (gone) return;
      if (outcome.kind === 'answer') {
        setChecked(outcome.answer);
        setTrouble(null);
      } else {
        setChecked(null);
        setTrouble(troubleOf(outcome));
      }
    });
    return () => {
      gone = true;
    };
  }, [asked, ready, relief]);
  const shown = asked !== null && ready ? checked : null;

  const rigFile = useJsonChooser('Rig file of this gauge', (file) => void takeOver(file));
  async function takeOver(file: File): Promise<void> {
    const read = readRig(await file.text(), file.name);
    if (!read.ok) return setTrouble({ kind: 'problems', problems: read.problems });
    if (shown === null) return;
    const made = rigWith(read.value, shown.check, draft.value('identification'));
    if ('refused' in made)
      return setTrouble({
        kind: 'problems',
        problems: [{ code: 'bad-field', file: file.name, path: 'channels', reason: made.refused }],
      });
    relief.putDown(file.name, new TextEncoder().encode(writeJson(made.rig)), 'application/json');
    setTrouble(null);
    setTold(`Saved ${file.name} with the correction, its uncertainty and the dates.`);
  }

  const field = (
    key: 'low' | 'high' | 'percent' | 'identification' | 'calibratedOn' | 'dueOn',
    label: string,
    kind = 'text',
  ): React.ReactElement => (
    <label>
      <span className="field-name">{label}</span>
      <input
        type={kind}
        inputMode={key === 'low' || key === 'high' || key === 'percent' ? 'decimal' : undefined}
        autoComplete="off"
        value={draft.value(key)}
        onChange={(event) => draft.type(key, event.currentTarget.value)}
      />
    </label>
  );
  return (
    <>
      <article className="sheet" aria-labelledby="gauge-title">
        <div className="part">
          <h1 id="gauge-title" tabIndex={-1}>
            {shown === null ? 'Check a gauge' : titleOf(shown.check)}
          </h1>
          <p className="sentence" role="status">
            {shown === null
              ? 'Hold it against a reference, rising and falling, at five points or more of its range.'
              : sentenceOf(shown.check)}
          </p>
        </div>
        {trouble !== null && ready && <TroubleLine trouble={trouble} />}
        <div className="gauge-check opens">
          <section aria-labelledby="gauge-points">
            <h2 id="gauge-points">Points</h2>
            <p className="second">
              Type them, or paste a table into a field: reference, reading, up or down.
            </p>
            <label className="gauge-unit">
              <span className="field-name">Unit</span>
              <select
                value={draft.value('unit')}
                onChange={(event) => draft.type('unit', event.currentTarget.value)}
              >
                {gaugeUnits.map((unit) => (
                  <option key={unit} value={unit}>
                    {unitLabel(unit)}
                  </option>
                ))}
              </select>
            </label>
            <PointFields points={points} put={put} />
            {odd.length > 0 && (
              <p className="field-wrong" role="alert">
                {odd
                  .map((cell) =>
                    cell.trim() === ''
                      ? 'A point lacks one of its two numbers.'
                      : (ambiguousText(cell) ?? `“${cell}” is no number.`),
                  )
                  .join(' ')}
              </p>
            )}
          </section>
          <section aria-labelledby="gauge-itself" className="gauge-itself">
            <h2 id="gauge-itself">The gauge</h2>
            <div className="band-fields">
              {field('low', 'Range from')}
              {field('high', 'to')}
              {field('percent', 'Class, ± % of the span')}
              {field('identification', 'Its number')}
              {field('calibratedOn', 'Checked on', 'date')}
              {field('dueOn', 'Next check due', 'date')}
            </div>
            {unclear !== null && (
              <p className="field-wrong" role="alert">
                {unclear}
              </p>
            )}
            {shown !== null && (
              <>
                <h2>What is left of each point</h2>
                <div
                  className="over-scroll"
                  tabIndex={0}
                  role="group"
                  aria-label="Chart of what is left of each point"
                >
                  <GaugePlot check={shown.check} />
                </div>
                <Facts checked={shown} />
              </>
            )}
          </section>
        </div>
        {shown?.check.rigChannel != null && (
          <section className="part opens" aria-labelledby="gauge-rig">
            <h2 id="gauge-rig">For the rig file</h2>
            <pre className="gauge-channel">{writeJson(shown.check.rigChannel)}</pre>
          </section>
        )}
        {rigFile.field}
        <div className="below" />
      </article>
      <div className="foot" role="group" aria-label="What to do with the check">
        <button
          type="button"
          className={`button ${shown?.check.rigChannel == null ? 'waits' : 'first'}`}
          disabled={shown?.check.rigChannel == null}
          onClick={() => rigFile.open()}
        >
          Take it over into a rig file…
        </button>
        {shown !== null && (
          <button
            type="button"
            className="button"
            onClick={() => {
              relief.putDown(
                'gauge check.json',
                new TextEncoder().encode(writeJson(shown.check)),
                'application/json',
              );
              setTold('Saved gauge check.json.');
            }}
          >
            Save the check as JSON
          </button>
        )}
        {draft.changed.length > 0 && (
          <button
            type="button"
            className="link"
            onClick={() => {
              draft.clear();
              setChecked(null);
            }}
          >
            Begin anew
          </button>
        )}
        <span className="second" role="status">
          {told}
        </span>
        <button type="button" className="link" onClick={() => desk.goTo('book')}>
          Bench book
        </button>
      </div>
    </>
  );
}

type GaugeQuestion = Omit<Extract<Question, { kind: 'check-gauge' }>, 'kind'>;

function questionOf(
  points: readonly GaugePoint[],
  value: (field: keyof typeof blank) => string,
  band: {
    low?: number | null | undefined;
    high?: number | null | undefined;
    unit: NonNullable<GaugeQuestion['band']>['unit'];
  } | null,
): GaugeQuestion | null {
  const low = typedNumber(value('low').replace(/^[-−]/u, '')),
    high = typedNumber(value('high')),
    percent = typedNumber(value('percent'));
  const signed = low === null ? null : /^[-−]/u.test(value('low')) ? -low : low;
  const stated =
    signed === null || high === null || percent === null || !(high > signed) || !(percent > 0)
      ? null
      : { range: { low: signed, high }, percentOfSpan: percent };
  const day = (text: string): string | null => (text === '' ? null : text);
  return {
    text: pointsTable(points, value('unit')),
    stated,
    calibratedOn: day(value('calibratedOn')),
    dueOn: day(value('dueOn')),
    band: band === null ? null : { low: band.low ?? null, high: band.high ?? null, unit: band.unit },
  };
}

function PointFields({
  points,
  put,
}: {
  points: readonly GaugePoint[];
  put: (next: readonly GaugePoint[]) => void;
}): React.ReactElement {
  const change = (index: number, patch: Partial<GaugePoint>): void =>
    put(points.map((point, at) => (at === index ? { ...point, ...patch } : point)));
  const paste = (index: number, event: React.ClipboardEvent): void => {
    const pasted = pastedPoints(event.clipboardData.getData('text'));
    if (pasted.length === 0) return;
    event.preventDefault();
    put([...points.slice(0, index), ...pasted, ...points.slice(index + pasted.length)]);
  };
  return (
    <>
      <table className="gauge-points">
        <thead>
          <tr>
            <th scope="col">
              <span className="unseen">Point</span>
            </th>
            <th scope="col">Reference</th>
            <th scope="col">Reading</th>
            <th scope="col">Direction</th>
          </tr>
        </thead>
        <tbody>
          {points.map((point, index) => (
            // Rows have no name but their place.
            // oxlint-disable-next-line react/no-array-index-key
            <tr key={index}>
              <th scope="row">{index + 1}</th>
              {(['reference', 'reading'] as const).map((key) => (
                <td key={key}>
                  <input
                    aria-label={`${key === 'reference' ? 'Reference' : 'Reading'} ${index + 1}`}
                    inputMode="decimal"
                    autoComplete="off"
                    value={point[key]}
                    onPaste={(event) => paste(index, event)}
                    onChange={(event) => change(index, { [key]: event.currentTarget.value })}
                  />
                </td>
              ))}
              <td>
                <select
                  aria-label={`Direction ${index + 1}`}
                  value={point.direction}
                  onChange={(event) => {
                    const { value } = event.currentTarget;
                    change(index, { direction: value === 'up' || value === 'down' ? value : '' });
                  }}
                >
                  <option value="">not noted</option>
                  <option value="up">up</option>
                  <option value="down">down</option>
                </select>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <button type="button" className="button" onClick={() => put([...points, emptyPoint])}>
        Add a point
      </button>
    </>
  );
}

function titleOf({ stated }: GaugeReadingsCheck): string {
  if (stated === undefined) return 'The gauge, as it reads';
  return stated.holds ? 'The gauge holds its class' : 'The gauge does not hold its class';
}

function sentenceOf({
  rigChannel,
  stated,
  unit,
  largestErrorShareOfSpan,
  accuracyClass,
}: GaugeReadingsCheck): string {
  const against =
    stated === undefined
      ? `Largest error ${shareText(largestErrorShareOfSpan, 2)} of the span of the points${accuracyClass === null || accuracyClass === undefined ? '' : `, inside class ${statedText(accuracyClass)}`}.`
      : `Largest error ${withUnit(short(stated.largestError), unit)}; its class of ± ${statedText(stated.percentOfSpan)} % allows ${withUnit(short(stated.allowed), unit)}.`;
  if (rigChannel === null) return `${against} No correction can be given from two points.`;
  const { offset, slope } = rigChannel.correction;
  return `${against} True value = ${short(slope)} · reading ${offset < 0 ? '−' : '+'} ${withUnit(short(Math.abs(offset)), unit)}, then sure to ± ${withUnit(fixedText(rigChannel.uncertainty.expanded, decimalsForUncertainty(rigChannel.uncertainty.expanded)), unit)}.`;
}

function Facts({ checked }: { checked: Checked }): React.ReactElement {
  const { check, corrected, asStated } = checked;
  const { unit } = check;
  const sized = (value: number | null): string => (value === null ? '' : withUnit(short(value), unit));
  const zone = (band: GaugeBandCheck): string => {
    if (!band.canPass) return 'nothing can pass under the guarded rule';
    const decimals = decimalsForUncertainty(band.expandedUncertainty);
    const ends = [band.passFrom, band.passTo].map((end) => (end === null ? '' : fixedText(end, decimals)));
    return withUnit(
      ends[0] === ''
        ? `up to ${ends[1]}`
        : ends[1] === ''
          ? `from ${ends[0]} up`
          : `${ends[0]} to ${ends[1]}`,
      band.unit,
    );
  };
  const rows: [string, string][] = [
    ['Hysteresis', sized(check.hysteresis)],
    ['Scatter about the line', sized(check.residualStandardDeviation)],
    [
      `Correction at ${sized(check.t0)}`,
      `${sized(check.intercept)}${check.interceptStandardUncertainty === null ? '' : `, standard uncertainty ${sized(check.interceptStandardUncertainty)}`}`,
    ],
    [
      'Its change with the reading',
      `${short(check.slope)}${check.slopeStandardUncertainty === null ? '' : `, standard uncertainty ${short(check.slopeStandardUncertainty)}`}`,
    ],
    ['May pass a reading, corrected so', corrected === null ? '' : zone(corrected)],
    ['May pass a reading, by its class alone', asStated === null ? '' : zone(asStated)],
  ];
  return (
    <>
      <dl className="facts">
        {rows
          .filter(([, text]) => text !== '')
          .map(([name, text]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{text}</dd>
            </div>
          ))}
      </dl>
      <ul className="remarks">
        {check.reason !== undefined && <li>{asSentence(check.reason)}</li>}
        {[
          ...(check.remarks ?? []),
          ...(corrected?.canPass === false ? (corrected.remarks ?? []) : []),
          ...(asStated?.remarks ?? []),
        ].map(({ code, text }) => (
          <li key={code + text}>{text}</li>
        ))}
      </ul>
    </>
  );
}
