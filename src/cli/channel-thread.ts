// Runs on a thread of its own (channel-reader.ts starts it): reads the far rows of a log while the program reads the near ones, then the
// channels that do not need the pressure while the program reads that.
import { readSync } from 'node:fs';
import { parentPort, workerData, type MessagePort } from 'node:worker_threads';
import { answerApart, readingsApart, type ApartReading } from '#assessment/read-apart.ts';
import { readFarRows, takeCompiled, type FarRows } from '#log/far-rows.ts';
import type { Answer, ApartRequest, FarTask, Question } from './channel-reader.ts';

/** What the thread is started with. */
export interface ThreadData {
  port: MessagePort;
  /** Its one number is raised with each answer. */
  answers: Int32Array;
  /** What the program has compiled of the kernels. */
  kernels: object | null;
}

// Where the command line runs unbuilt, this is no thread.
if (workerData !== null) {
  waitForRows();
  waitForLog(workerData as ThreadData);
}

function waitForRows(): void {
  parentPort?.once('message', ({ far, file, from, size }: FarTask) => {
    let rows: FarRows | null = null;
    try {
      rows = readFarRows(far, from, (into, position) =>
        readSync(file, into, 0, Math.max(0, Math.min(into.length, size - position)), position),
      );
    } catch {
      // The program reads them itself, and then says what is wrong with them.
    }
    parentPort?.postMessage(rows);
  });
}

function waitForLog({ port, answers, kernels }: ThreadData): void {
  if (kernels !== null) takeCompiled(kernels);
  const answer = (given: Answer, own: ArrayBuffer[] = []): void => {
    port.postMessage(given, own);
    Atomics.add(answers, 0, 1);
    Atomics.notify(answers, 0);
  };
  port.on('message', (asked: ApartRequest | { question: Question }) => {
    try {
      if ('question' in asked) answer(answerApart(asked.question));
      else
        for (const reading of readingsApart(asked.log, asked.rig, asked.smoothing))
          answer(reading, buffersOf(reading));
    } catch {
      // The program works out itself what is missing, and then says what is wrong with it.
      answer(null);
      port.close();
    }
  });
}

/** What is handed over without a copy: arrays of the reading's own. Those of the log are shared. */
function buffersOf(reading: ApartReading): ArrayBuffer[] {
  const arrays = [reading.flags, reading.values, reading.kept, reading.smoothed?.values, reading.turning];
  const own = arrays.flatMap((array) => (array?.buffer instanceof ArrayBuffer ? [array.buffer] : []));
  return [...new Set(own)];
}
