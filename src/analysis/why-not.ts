import type { Situation } from './situation.ts';

/** What it is told from: of the oil, whether there is any. */
export type JudgedOrNot = Pick<Situation, 'unjudged' | 'run'> & { oil: object | null };

/** Why there is no run or no hold, as a clause; null where there is a hold. */
export function whyNoHold({ unjudged, oil, run }: JudgedOrNot): string | null {
  if (run && unjudged === null) return null;
  switch (unjudged) {
    case 'no-readings':
      return 'the pressure column has no usable reading';
    case 'no-engagement':
      return 'the pressure never rose: there is no engagement in this log';
    case 'never-warm':
      return `the oil never reached operating temperature${oil ? '' : ' (no oil temperature)'}: cold is not a result`;
    case 'empty':
      return 'nothing of the run is left as a hold';
    case 'no-run':
    case null:
      return 'there is no run to judge in this log';
  }
}

/** The same for what needs only the run. */
export function whyNoRun(situation: JudgedOrNot): string | null {
  return situation.run ? null : whyNoHold(situation);
}
