// Runs on a thread of its own (channel-reader.ts starts it): reads the far rows of a log while the program reads the near ones, and sums the
// file up; then reads the channels that do not need the pressure while the program reads that, and works out some quantities.
import { readSync } from 'node:fs';
import { parentPort, workerData, type MessagePort } from 'node:worker_threads';
import { answerApart, readingsApart, type ApartReading } from '#assessment/read-apart.ts';
import { readFarRows, takeCompiled, type FarRows } from '#log/far-rows.ts';
import type { Answer, ApartRequest, FarTask, Question, Reply, Task } from './channel-reader.ts';
import { FileSum } from './file-sum.ts';

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

/** Reads far rows when it is told to, and sums the file up while it has nothing else to do. */
function waitForRows(): void {
  let sum: FileSum | null = null,
    until = 0,
    isAsked = false,
    isGoing = false;
  const step = (): void => {
    let hasMore = false;
    try {
      hasMore = sum?.take(until) === true;
    } catch {
      // The program sums the file up itself.
      sum = null;
    }
    isGoing = hasMore;
    if (hasMore) setImmediate(step);
    else if (isAsked) reply({ sha256: sum?.digest(until) ?? null });
  };
  const goOn = (): void => {
    if (!isGoing) setImmediate(step);
    isGoing = true;
  };
  parentPort?.on('message', (task: Task) => {
    if ('far' in task) return reply({ far: farRows(task) });
    if ('sum' in task) {
      sum = new FileSum(task.sum.file);
      until = task.sum.size;
    } else {
      // It may have come to the end that was known before.
      isAsked = true;
      until = task.bytes;
    }
    goOn();
  });
}

const reply = (answer: Reply): void => parentPort?.postMessage(answer);

function farRows({ far, file, from, size }: FarTask): FarRows | null {
  try {
    return readFarRows(far, from, (into, position) =>
      readSync(file, into, 0, Math.max(0, Math.min(into.length, size - position)), position),
    );
  } catch {
    // The program reads them itself, and then says what is wrong with them.
    return null;
  }
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
