// Runs on a thread of its own (channel-reader.ts starts it): reads the far rows of a log while the program reads the near ones, then the
// channels that do not need the pressure while the program reads that.
import { readSync } from 'node:fs';
import { parentPort, workerData, type MessagePort } from 'node:worker_threads';
import { readingsApart, type ApartReading } from '#assessment/read-apart.ts';
import { readFarRows, type FarRows } from '#log/far-rows.ts';
import type { ApartRequest, FarTask } from './channel-reader.ts';

/** What the thread is started with. */
export interface ThreadData {
  port: MessagePort;
  /** Its one number is raised with each answer. */
  answers: Int32Array;
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
