import { startTransition, useEffect, useMemo, useRef, useState } from 'react';
import { dateText } from './shown-numbers.ts';
import { Cautions, cautionsApply } from './cautions.tsx';
import type { StripHandle } from './chart/strip-props.ts';
import { FormLine } from './form-line.tsx';
import type { Judged } from '#worker/messages.ts';
import { useAround } from './habits.ts';
import type { LaidLine } from './chart/draw-laid-over.ts';
import { LAY_OVER_FIELD, LayOver } from './lay-over.tsx';
import { LimitsAndWhy } from './limits-and-why.tsx';
import { MoveSlip } from './move-slip.tsx';
import { Mark } from './marks/mark.tsx';
import { Rule } from './marks/rule.tsx';
import { OtherLimits } from './other-limits.tsx';
import { Remarks } from './remarks.tsx';
import { RunFoot, takeConcessionBack, toConcession } from './run-foot.tsx';
import { countSentence, headOf } from './run-words.ts';
import { RunStrip } from './run-strip.tsx';
import { RunVerdicts } from './run-verdicts.tsx';
import { Settings } from './settings.tsx';
import type { Run } from './state.ts';
import { RunKeeping } from './run-keeping.tsx';
import { useFootHeight } from './use-foot-height.ts';
import { useUndoKeys } from './use-undo-keys.ts';
import { useUntilDrawn } from './until-drawn.ts';
import { useKeys } from './use-keys.ts';
import { viewedAssessment } from './viewed-assessment.ts';
import { ViewedIn } from './viewed-in.tsx';
import { shownUnit } from './viewing-unit.ts';
import { WhatIf } from './what-if.tsx';
import { WhatWasJudged } from './what-was-judged.tsx';

/** One run on its sheet: the verdict as a sentence, the strip, the reasons, what to do next. */
export function RunSheet({ run, hovering }: { run: Run; hovering: boolean }): React.ReactElement {
  const { desk, habits } = useAround();
  const { trial } = run;
  const { assessment, series } = trial?.judged ?? run.judged;
  const strip = useRef<StripHandle>(null);
  const [folded, setFolded] = useState(true);
  const [laid, setLaid] = useState<{ of: string; lines: readonly LaidLine[] } | null>(null);
  // What lay over another run does not lie over this one.
  const over = laid?.of === run.file.key && laid.lines.length > 0 ? laid.lines : undefined;
  const [tried, setTried] = useState<Judged | null>(null);
  const unit = shownUnit(habits.unit, assessment.quantities.operatingPressure.unit);
  // What was judged stays as it was; what is read of it, sentences too, is in the units for viewing.
  const viewed = useMemo(
    () => viewedAssessment(assessment, unit, habits.temperature),
    [assessment, unit, habits.temperature],
  );
  const head = headOf(viewed, unit);
  const concession = run.unitRecord?.concession;
  // The verdict stands first; what comes under it is built bit by bit, so that the page answers meanwhile.
  const [whole, setWhole] = useState(false);
  useEffect(() => startTransition(() => setWhole(true)), []);

  useFootHeight(trial === null ? 'foot' : 'slip');
  const { ask, stands } = useUntilDrawn();
  useKeys(habits.keys, {
    f: () => setFolded(!folded),
    '+': () => ask(() => strip.current?.closer()),
    '-': () => ask(() => strip.current?.wider()),
    '0': () => ask(() => strip.current?.wholeRun()),
    '[': () => ask(() => strip.current?.previousBorder()),
    ']': () => ask(() => strip.current?.nextBorder()),
    l: () => ask(() => document.getElementById(LAY_OVER_FIELD)?.focus()),
    ...(assessment.verdict === 'fail' && trial === null ? { c: () => toConcession(desk) } : {}),
  });

  useUndoKeys(desk);

  return (
    <>
      <article className="sheet" aria-labelledby="verdict">
        <FormLine run={run} />
        <ViewedIn assessment={assessment} unit={unit} temperature={habits.temperature} />
        <RunKeeping run={run} />
        {hovering && <p className="aside-line let-go">Let go to bring it in.</p>}
        <div className={`verdict ${trial?.judging === true ? 'working' : assessment.verdict}`}>
          <div>
            <h1 id="verdict" tabIndex={-1}>
              <Mark verdict={assessment.verdict} criterion={head.criterion} /> {head.word}
            </h1>
            <p className="sentence">
              <Found sentence={head.sentence} found={head.found} />
            </p>
            {head.distance !== '' && <p className="sentence distance">{head.distance}</p>}
            {concession !== undefined && assessment.verdict === 'fail' && (
              <p className="concession">
                Delivered with a concession: {concession.reason}, {concession.agreedBy},{' '}
                {dateText(concession.on)}.{' '}
                <button type="button" className="link" onClick={() => takeConcessionBack(desk, run)}>
                  Take it back
                </button>
              </p>
            )}
          </div>
          <div>
            {head.criterion !== null && (
              <Rule criterion={head.criterion} unit={unit} guardFactor={assessment.settings.guardFactor} />
            )}
            {assessment.criteria.length > 0 && (
              <p className="second">
                {countSentence(assessment.criteria)}{' '}
                <button
                  type="button"
                  className="link"
                  onClick={() => {
                    const limits = document.getElementById('limits');
                    limits?.scrollIntoView();
                    limits?.focus({ preventScroll: true });
                  }}
                >
                  See why
                </button>
              </p>
            )}
          </div>
        </div>
      </article>
      {whole && (
        <RunStrip
          strip={strip}
          judged={assessment}
          assessment={(tried ?? { assessment }).assessment}
          series={(tried ?? { series }).series}
          unit={unit}
          {...(habits.temperature === null ? {} : { temperatureUnit: habits.temperature })}
          {...(over === undefined ? {} : { laid: over })}
          folded={folded}
          onFold={setFolded}
          onDrawn={stands}
          onBorderMove={(border, to_s) => desk.move(border, to_s)}
          onBorderBack={(border) => void desk.putBackBorder(border)}
        >
          <LayOver
            key={run.file.key}
            run={run}
            laid={over ?? []}
            onLaid={(lines) => setLaid({ of: run.file.key, lines })}
          />
          <RunVerdicts run={run} />
          <div className="reasons">
            <LimitsAndWhy
              assessment={viewed}
              onLook={(part) => {
                strip.current?.lookAt(part);
                document.querySelector('.strip')?.scrollIntoView({ block: 'center' });
              }}
            />
            <div className="beside">
              <Remarks assessment={viewed} />
              <WhatWasJudged run={run} viewed={viewed} />
              <Settings assessment={assessment} />
              <OtherLimits key={`other ${run.file.key}`} run={run} />
              <WhatIf key={run.file.key} run={run} unit={unit} onTrial={setTried} />
            </div>
          </div>
          {cautionsApply(assessment) && <Cautions />}
          <div className="below" />
        </RunStrip>
      )}
      {trial === null ? (
        <RunFoot assessment={assessment} />
      ) : (
        <MoveSlip run={run} trial={trial} unit={unit} />
      )}
    </>
  );
}

/** The sentence with what was found in heavier letters. */
function Found({ sentence, found }: { sentence: string; found: string }): React.ReactElement {
  const at = found === '' ? -1 : sentence.indexOf(found);
  if (at === -1) return <>{sentence}</>;
  return (
    <>
      {sentence.slice(0, at)}
      <b>{found}</b>
      {sentence.slice(at + found.length)}
    </>
  );
}
