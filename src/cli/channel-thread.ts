// Runs on a thread of its own (channel-reader.ts starts it): reads the channels that do not need the pressure while the program reads that.
import { workerData, type MessagePort } from 'node:worker_threads';
import { readingsApart, type ApartReading } from '#assessment/read-apart.ts';
import type { ApartRequest } from './channel-reader.ts';

/** What the thread is started with. */
export interface ThreadData {
  port: MessagePort;
  /** Its one number is raised with each answer. */
  answers: Int32Array;
}

// Where the command line runs unbuilt, this is no thread.
if (workerData !== null) waitForLog(workerData as ThreadData);

function waitForLog({ port, answers }: ThreadData): void {
  const answer = (reading: ApartReading | null): void => {
    port.postMessage(reading, buffersOf(reading));
    Atomics.add(answers, 0, 1);
    Atomics.notify(answers, 0);
  };
  port.on('message', ({ log, rig, smoothing }: ApartRequest) => {
    try {
      for (const reading of readingsApart(log, rig, smoothing)) answer(reading);
    } catch {
      // The program reads what is missing itself, and then says what is wrong with it.
    }
    answer(null);
    port.close();
  });
}

/** What is handed over without a copy: arrays of the reading's own. Those of the log are shared. */
function buffersOf(reading: ApartReading | null): ArrayBuffer[] {
  const arrays = [
    reading?.flags,
    reading?.values,
    reading?.kept,
    reading?.smoothed?.values,
    reading?.turning,
  ];
  const own = arrays.flatMap((array) => (array?.buffer instanceof ArrayBuffer ? [array.buffer] : []));
  return [...new Set(own)];
}
