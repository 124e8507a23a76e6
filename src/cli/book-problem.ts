import type { BookProblem } from '#book/store.ts';
import type { Problem } from '#formats/problem.ts';

/** Why a book would not take something, as the command line says it. */
export function bookProblem(place: string, problem: BookProblem): Problem {
  switch (problem.code) {
    case 'changed-elsewhere':
      return {
        code: 'output-not-writable',
        file: `${place}, ${problem.path}`,
        reason: 'another program changed it in the meantime',
      };
    case 'entry-damaged':
      return {
        code: 'output-not-writable',
        file: `${place}, ${problem.path}`,
        reason: `what lies there cannot be read: ${problem.reason}`,
      };
    case 'no-room':
      return { code: 'output-not-writable', file: place, reason: 'the disk is full' };
    case 'not-kept':
      return { code: 'output-not-writable', file: place, reason: problem.reason };
  }
}
