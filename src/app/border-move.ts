import { verdictWords } from './shown-numbers.ts';
import type { Choice, Judge } from '#formats/judge.ts';
import type { Spec } from '#formats/spec.ts';
import type { Asked, WorkerClient } from '#worker/client.ts';
import type { Judging } from '#worker/messages.ts';
import { recordAfter, type RunStep } from './run-steps.ts';
import type { Run, State, Trial } from './state.ts';
import { troubleOf } from './trouble-of.ts';

type Border = Extract<Trial['what'], 'hold-start' | 'hold-end'>;
type Moved = Trial['what'];

/** A thing in the hand, as far as it cannot be worked out again. */
export type HeldMove = Pick<Trial, 'what' | 'from_s' | 'to_s' | 'why'>;

/** What is put for who and why while a border is still in the hand; it is never kept. */
const NOT_YET = '…';

/** What moving needs of the desk. */
export interface DeskSide {
  client: WorkerClient;
  state: () => State;
  setRun: (patch: Partial<Run>) => void;
  say: (said: string) => void;
  keep: (run: Run) => Promise<void>;
  /** Today, "2026-03-06". */
  today: () => string;
}

/** Where the hold begins or ends now, as a log position. */
export function borderPlace(run: Run, what: Border): number | null {
  const holds = run.judged.assessment.phases.filter(({ kind }) => kind === 'hold');
  return (what === 'hold-start' ? holds[0]?.start_s : holds.at(-1)?.end_s) ?? null;
}
const chosen = (judging: Judging, what: Border): Choice | undefined =>
  judging.judge?.choices.find((choice) => choice.what === what);

const isJoined = ({ judge }: Judging): boolean =>
  judge?.choices.some(({ what }) => what === 'join-engagements') === true;

/** The same judgement with a border somewhere else, or without the choice. */
function withChoice(judging: Judging, what: Moved, choice: Choice | null): Judging {
  const choices = [
    // A border stands in one place; spans can be left out one after another.
    ...(judging.judge?.choices ?? []).filter((other) => what === 'leave-out' || other.what !== what),
    ...(choice === null ? [] : [choice]),
  ];
  return judgedBy(judging, choices);
}
function judgedBy(judging: Judging, choices: Choice[]): Judging {
  const judge: Judge | null =
    choices.length === 0 ? null : { format: 'overdrive-bench/judge', version: 1, choices };
  return { ...judging, judge };
}

/** What is done by hand to a run, its hold's borders above all: tried at once, kept only with who and why, undone in one step. */
export function createBorderMove(desk: DeskSide): {
  move: (what: Border, to_s: number) => void;
  /** What is typed as the reason while it is still in the hand. */
  sayWhy: (why: string) => void;
  /** What was in the hand when the page was left, taken up again. */
  takeUp: (held: HeldMove) => void;
  keepMove: (by: string, why: string) => Promise<void>;
  /** Tries what would come of leaving a span out. */
  leaveOut: (from_s: number, to_s: number) => void;
  /** Tries what would come of judging every engagement of the log as one run. */
  judgeTogether: () => void;
  /** Judges without one of the choices by hand. */
  putBackChoice: (choice: Choice) => Promise<void>;
  putBackMove: () => void;
  putBackBorder: (what: Border) => Promise<void>;
  /** Judges the run by other limits, or by none (null: it is only looked at); what was moved by hand stays moved. */
  judgeByLimits: (spec: Spec | null) => Promise<void>;
  undo: () => Promise<void>;
  redo: () => Promise<void>;
} {
  let asking: Asked<'assess'> | null = null;

  const setTrial = (patch: Partial<Trial>): void => {
    const trial = desk.state().run?.trial;
    if (trial) desk.setRun({ trial: { ...trial, ...patch } });
  };

  function move(what: Border, to_s: number): void {
    const { run } = desk.state();
    if (run === null) return;
    const from_s = chosen(run.judging, what)?.from_s ?? borderPlace(run, what);
    if (from_s === null) return;
    const before = run.trial?.what === what ? run.trial : null;
    desk.setRun({
      trial: {
        what,
        from_s,
        to_s,
        why: before?.why ?? '',
        judging: true,
        judged: before?.judged ?? null,
        trouble: null,
      },
    });
    // One at a time: while a hand still moves, the next asks for where it is then.
    if (asking === null) void tryIt();
  }

  function trySpan(what: Exclude<Moved, Border>, from_s: number, to_s: number): void {
    if (desk.state().run === null) return;
    desk.setRun({ trial: { what, from_s, to_s, why: '', judging: true, judged: null, trouble: null } });
    if (asking === null) void tryIt();
  }

  async function tryIt(): Promise<void> {
    const { run } = desk.state();
    if (run === null || run.trial === null) return;
    const { what, from_s, to_s } = run.trial;
    const judging = withChoice(run.judging, what, { what, from_s, to_s, by: NOT_YET, why: NOT_YET });
    const asked = desk.client.ask({ kind: 'assess', file: run.file, reading: run.reading, judging });
    asking = asked;
    const outcome = await asked.outcome;
    asking = null;
    const { run: now } = desk.state();
    if (now === null || now.file.key !== run.file.key || now.trial === null) return;
    if (
      now.trial.to_s !== to_s ||
      now.trial.what !== what ||
      (what === 'leave-out' && now.trial.from_s !== from_s)
    ) {
      void tryIt();
      return;
    }
    if (outcome.kind === 'answer') setTrial({ judging: false, judged: outcome.answer });
    else setTrial({ judging: false, trouble: troubleOf(outcome) });
  }

  /** As before the hand came. A new object: what draws the run lets go of where the hand had put the border. */
  function letGo(): void {
    const { run } = desk.state();
    if (run === null) return;
    const { assessment, series } = run.judged;
    desk.setRun({ trial: null, judged: { assessment: { ...assessment }, series } });
  }

  /** Judges by something else, as one step that can be put back. */
  async function judgeBy(judging: Judging, steps: Pick<Run, 'undo' | 'redo'>, said: string): Promise<void> {
    const { run } = desk.state();
    if (run === null) return;
    const outcome = await desk.client.ask({
      kind: 'assess',
      file: run.file,
      reading: run.reading,
      judging,
    }).outcome;
    const { run: now } = desk.state();
    if (now === null || now.file.key !== run.file.key) return;
    if (outcome.kind !== 'answer') {
      setTrial({ judging: false, trouble: troubleOf(outcome) });
      if (now.trial === null) desk.say('It could not be judged so: the verdict stays as it was.');
      return;
    }
    desk.setRun({ judging, judged: outcome.answer, trial: null, ...steps });
    desk.say(`${said} ${verdictWords[outcome.answer.assessment.verdict]}.`);
    const { run: kept } = desk.state();
    if (kept !== null) await desk.keep(kept);
  }

  async function keepMove(by: string, why: string): Promise<void> {
    const { run } = desk.state();
    const trial = run?.trial ?? null;
    if (run === null || trial === null) return;
    const { what, from_s, to_s } = trial;
    const choice: Choice = { what, from_s, to_s, by, on: desk.today(), why };
    await judgeBy(
      withChoice(run.judging, what, choice),
      { undo: [...run.undo, { judging: run.judging }], redo: [] },
      'Kept.',
    );
  }

  /** Takes a step back or makes it again; `steps` says what is left to do, with what would undo this one. */
  async function take(
    run: Run,
    step: RunStep,
    steps: (inverse: RunStep) => Pick<Run, 'undo' | 'redo'>,
    said: string,
  ): Promise<void> {
    if ('judging' in step) return judgeBy(step.judging, steps({ judging: run.judging }), said);
    const { from, to } = step.said;
    desk.setRun({
      unitRecord: recordAfter(run.unitRecord, step.said),
      ...steps({ said: { from: to, to: from } }),
    });
    desk.say(said);
    const { run: kept } = desk.state();
    if (kept !== null) await desk.keep(kept);
  }

  return {
    move,
    sayWhy: (why) => setTrial({ why }),
    takeUp({ what, from_s, to_s, why }) {
      const { run } = desk.state();
      if (run === null || run.trial !== null) return;
      if (what === 'hold-start' || what === 'hold-end') move(what, to_s);
      else if (what === 'leave-out' || !isJoined(run.judging)) trySpan(what, from_s, to_s);
      setTrial({ why });
    },
    leaveOut: (from_s, to_s) => trySpan('leave-out', from_s, to_s),
    judgeTogether() {
      const { run } = desk.state();
      if (run !== null) trySpan('join-engagements', 0, run.judged.assessment.log.duration_s);
    },
    keepMove,
    async putBackChoice(choice) {
      const { run } = desk.state();
      if (run === null) return;
      const choices = (run.judging.judge?.choices ?? []).filter((other) => other !== choice);
      await judgeBy(
        judgedBy(run.judging, choices),
        { undo: [...run.undo, { judging: run.judging }], redo: [] },
        'Put back.',
      );
    },
    putBackMove() {
      letGo();
      desk.say('Put back.');
    },
    async putBackBorder(what) {
      const { run } = desk.state();
      if (run === null) return;
      letGo();
      if (chosen(run.judging, what) === undefined) return;
      await judgeBy(
        withChoice(run.judging, what, null),
        { undo: [...run.undo, { judging: run.judging }], redo: [] },
        'Put back to where it was worked out.',
      );
    },
    async judgeByLimits(spec) {
      const { run } = desk.state();
      if (run === null) return;
      letGo();
      await judgeBy(
        { ...run.judging, spec },
        { undo: [...run.undo, { judging: run.judging }], redo: [] },
        spec === null ? 'Only looked at, by no limits.' : `Judged by ${spec.name}.`,
      );
    },
    async undo() {
      const { run } = desk.state();
      if (run === null) return;
      if (run.trial !== null) {
        letGo();
        return;
      }
      const step = run.undo.at(-1);
      if (step === undefined) return;
      const undo = run.undo.slice(0, -1);
      await take(run, step, (inverse) => ({ undo, redo: [...run.redo, inverse] }), 'Put back.');
    },
    async redo() {
      const { run } = desk.state();
      const step = run?.redo.at(-1);
      if (run === null || step === undefined) return;
      const redo = run.redo.slice(0, -1);
      await take(run, step, (inverse) => ({ undo: [...run.undo, inverse], redo }), 'Done again.');
    },
  };
}
