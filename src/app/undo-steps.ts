/**
 * What taking a step back, or making it again, came to: the words for it; 'stays' where it could not be done now (why was told); 'gone'
 * where it can never be done any more.
 */
export type StepOutcome = { said: string; wrong?: boolean } | 'stays' | 'gone';

/** What was just done or went wrong. */
export interface Told {
  text: string;
  wrong: boolean;
  /** It is a step that can be taken back. */
  canPutBack: boolean;
}

/** One thing that was done and can be taken back. */
export interface UndoStep {
  said: string;
  back: () => Promise<StepOutcome>;
  again: () => Promise<StepOutcome>;
}

export type UndoSteps = ReturnType<typeof createUndoSteps>;

/** Everything that was done here, in order; taken back and made again one by one, whatever kind of step it is. */
export function createUndoSteps(side: {
  /** @param canPutBack what is told can be taken back */
  tell: (text: string, wrong: boolean, canPutBack: boolean) => void;
  canUndo: (can: boolean) => void;
}) {
  let done: UndoStep[] = [];
  let undone: UndoStep[] = [];
  let going = false;

  async function go(
    from: UndoStep[],
    way: 'back' | 'again',
    moved: (step: UndoStep, outcome: StepOutcome) => void,
  ): Promise<void> {
    const step = from.at(-1);
    // Keys may come faster than the disk: one after the other.
    if (step === undefined || going) return;
    going = true;
    try {
      const outcome = await step[way]();
      if (outcome === 'stays') return;
      moved(step, outcome);
      side.canUndo(done.length > 0);
      if (outcome !== 'gone') side.tell(outcome.said, outcome.wrong ?? false, way === 'again');
    } finally {
      going = false;
    }
  }

  return {
    /** Notes and tells a step; what was taken back before it can no longer be made again. */
    did(step: UndoStep, wrong = false): void {
      done = [...done, step];
      undone = [];
      side.canUndo(true);
      side.tell(step.said, wrong, true);
    },
    /** What is gone for good takes the steps with it that would change it. */
    forget(): void {
      done = undone = [];
      side.canUndo(false);
    },
    undo: (): Promise<void> =>
      go(done, 'back', (step, outcome) => {
        done = done.filter((each) => each !== step);
        if (outcome !== 'gone') undone = [...undone, step];
      }),
    redo: (): Promise<void> =>
      go(undone, 'again', (step, outcome) => {
        undone = undone.filter((each) => each !== step);
        if (outcome !== 'gone') done = [...done, step];
      }),
  };
}
