import { performance } from 'node:perf_hooks';
import { MessageChannel, receiveMessageOnPort, Worker } from 'node:worker_threads';
import type { Apart } from '#assessment/assess.ts';
import {
  readApart,
  type ApartReading,
  type CurrentApart,
  type CurrentQuestion,
  type HoldApart,
  type HoldQuestion,
} from '#assessment/read-apart.ts';
import type { Log } from '#formats/log.ts';
import { compiledKernels, type FarRequest, type FarRows } from '#log/far-rows.ts';
import type { Rig } from '#formats/rig.ts';
import type { Smoothing } from '#formats/spec.ts';
import type { ThreadData } from './channel-thread.ts';
import program from './channel-thread.ts?thread';

/** What the thread gives: a channel, or quantities; null once it gives no more. */
export type Answer = ApartReading | CurrentApart | HoldApart | null;
/** What it is asked once its channels are read. */
export type Question = CurrentQuestion | HoldQuestion;
/** What the thread is told to read apart. Its columns are shared, not copied. */
export interface ApartRequest {
  log: Log;
  rig: Rig | null;
  smoothing: Smoothing;
}
/** Rows of a file that the thread is told to read before. */
export interface FarTask {
  far: FarRequest;
  /** The open file. */
  file: number;
  /** Position from which the rows are looked for. */
  from: number;
  /** Nothing behind so many bytes belongs to them. */
  size: number;
}

/** What the thread is told before there is a log: to read far rows, to sum a file up, and that it is so many bytes long and the sum wanted. */
export type Task = FarTask | { sum: { file: number; size: number } } | { bytes: number };
/** What it replies. */
export type Reply = { far: FarRows | null } | { sha256: string | null };

/** A thread costs 15 MB and some milliseconds: it is for logs of half a million rows and more. */
export const WORTH_A_THREAD_bytes = 32e6;
/** So long without an answer, and it is taken for lost. A channel of two million rows takes a fifth of a second. */
const LOST_ms = 5_000,
  LOST_ms_aRow = 0.001;

/**
 * A second thread: it reads the far rows of a log while this one reads the near ones, and sums the file up; then it reads channels that do not need the pressure, while
 * this one reads that. What it does not give, for whatever reason, is read here.
 */
export class ChannelReader implements Apart {
  private readonly worker: Worker;
  private readonly port: MessageChannel['port1'];
  private readonly answers = new Int32Array(new SharedArrayBuffer(4));
  private readonly ready = new Map<number, ApartReading>();
  private readonly expected = new Set<number>();
  private current: CurrentApart | null = null;
  private hold: HoldApart | null = null;
  private longest_ms = LOST_ms;
  private isLost = false;
  private readonly replies: Reply[] = [];
  /** Called with each word of the thread, and where it falls. */
  private onWord: () => void = () => undefined;

  /** Starts the thread; it takes as long as the reading of some megabytes to be ready. Null where there is none in this build. */
  static start(): ChannelReader | null {
    return typeof program === 'string' ? new ChannelReader(program) : null;
  }

  private constructor(code: string) {
    const { port1, port2 } = new MessageChannel();
    this.port = port1;
    this.worker = new Worker(code, {
      eval: true,
      workerData: { port: port2, answers: this.answers, kernels: compiledKernels() } satisfies ThreadData,
      transferList: [port2],
      stdout: true,
      stderr: true,
      // Options of this process may be meant for its own script, such as how that is to be read.
      execArgv: [],
    });
    // It must not keep the program from ending.
    this.worker.unref();
    this.port.unref();
    // While a log is read, this thread hears of it; later what is missing is missed.
    const lose = (): void => {
      this.isLost = true;
      this.onWord();
    };
    this.worker.on('error', lose);
    this.worker.on('exit', lose);
    this.worker.on('message', (reply: Reply) => {
      this.replies.push(reply);
      this.onWord();
    });
  }

  /** Begins to sum an open file up, as time allows. */
  beginSum(file: number, size: number): void {
    this.tell({ sum: { file, size } });
  }

  /** The sum is wanted, of the file's first bytes. */
  askSum(bytes: number): void {
    this.tell({ bytes });
  }

  /** The SHA-256 that was asked for; null where nothing came of it. */
  async awaitSum(longest_ms: number): Promise<string | null> {
    const reply = await this.awaitReply('sha256', longest_ms);
    return reply !== null && 'sha256' in reply ? reply.sha256 : null;
  }

  /** Begins with the far rows of a log whose columns are shared. */
  beginFar(task: FarTask): void {
    this.tell(task);
  }

  /**
   * Waits for the far rows. Without an answer the thread is ended, so that it writes nothing more into the columns.
   * @returns null where nothing came of it
   */
  async awaitFar(longest_ms: number): Promise<FarRows | null> {
    const reply = await this.awaitReply('far', longest_ms);
    return reply !== null && 'far' in reply ? reply.far : null;
  }

  private tell(task: Task): void {
    if (!this.isLost) this.worker.postMessage(task);
  }

  /** Waits for a reply of a kind; null where the thread is lost. */
  private async awaitReply(kind: 'far' | 'sha256', longest_ms: number): Promise<Reply | null> {
    const end_ms = performance.now() + Math.max(LOST_ms, longest_ms);
    for (;;) {
      const found = this.replies.findIndex((reply) => kind in reply);
      const [reply] = found < 0 ? [] : this.replies.splice(found, 1);
      if (reply !== undefined) return reply;
      if (this.isLost) return null;
      const left_ms = end_ms - performance.now();
      if (left_ms <= 0) break;
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, left_ms);
        this.onWord = () => {
          clearTimeout(timer);
          resolve();
        };
      });
    }
    this.isLost = true;
    await this.worker.terminate();
    return null;
  }

  /** Begins with the channels of a log whose columns are shared. */
  begin(request: ApartRequest): void {
    if (this.isLost) return;
    this.longest_ms = Math.max(LOST_ms, LOST_ms_aRow * request.log.rows);
    for (const index of readApart(request.log)) this.expected.add(index);
    this.port.postMessage(request);
  }

  awaitChannel(index: number): ApartReading | null {
    while (this.expected.has(index)) this.receive();
    const reading = this.ready.get(index) ?? null;
    this.ready.delete(index);
    return reading;
  }

  beginCurrent(question: CurrentQuestion): () => CurrentApart | null {
    this.ask(question);
    return () => {
      while (this.current === null && !this.isLost) this.receive();
      return this.current;
    };
  }
  beginHold(question: HoldQuestion): () => HoldApart | null {
    this.ask(question);
    return () => {
      while (this.hold === null && !this.isLost) this.receive();
      return this.hold;
    };
  }
  private ask(question: Question): void {
    if (!this.isLost) this.port.postMessage({ question });
  }

  /** Takes one answer, or waits for one. */
  private receive(): void {
    const seen = Atomics.load(this.answers, 0);
    const received: { message: Answer } | undefined = receiveMessageOnPort(this.port);
    if (received !== undefined) this.take(received.message);
    else if (Atomics.wait(this.answers, 0, seen, this.longest_ms) === 'timed-out') this.take(null);
  }

  private take(answer: Answer): void {
    if (answer === null) {
      this.isLost = true;
      this.expected.clear();
    } else if (!('about' in answer)) {
      this.expected.delete(answer.index);
      this.ready.set(answer.index, answer);
    } else if (answer.about === 'hold') this.hold = answer;
    else this.current = answer;
  }

  /** Lets the thread go. */
  async end(): Promise<void> {
    this.port.close();
    await this.worker.terminate();
  }
}
