import type { Pen } from './pen.ts';

type Paper = Pick<Pen, 'ratio' | 'x' | 'y'>;

/** Points nearer than this to the last one would not be seen, in device px. */
const SAME_POINT = 0.5;
/** A point that lies nearer than this to the line past it would not be seen, in device px. */
export const SAME_LINE = 0.1;

/** Draws a line through points in order of time; those that make no bend are left out: stroking each would cost most of a picture. */
export class LinePen {
  readonly path = new Path2D();
  private readonly pen: Paper;
  private readonly near: number;
  private readonly under: LinePen | null;
  private down = false;
  /** Along and across of the last point that is drawn. */
  private t = 0;
  private v = 0;
  /** The last point that was asked for, and between which slopes a line from the drawn one passes all those since. */
  private waiting = false;
  private lastT = 0;
  private lastV = 0;
  private least = -Infinity;
  private most = Infinity;
  /**
   * @param near points that lie nearer to the line past them are left out, in device px
   * @param under follows the points that this one draws, as a halo's coarser line
   */
  constructor(pen: Paper, near = SAME_LINE, under: LinePen | null = null) {
    this.pen = pen;
    this.near = near / pen.ratio;
    this.under = under;
  }

  /** Nothing joins what was drawn with what comes. */
  lift(): void {
    this.settle();
    this.down = false;
    this.under?.lift();
  }

  /** @param must a point that is drawn however near it is to the last one */
  to(along: number, across: number, must = false): void {
    const { pen, path } = this;
    if (!this.down) {
      const x = pen.x(along, across),
        y = pen.y(along, across);
      path.moveTo(x, y);
      // A single point is a dot under a round pen.
      path.lineTo(x + 0.01, y);
      this.down = true;
      this.stand(along, across);
      this.under?.to(along, across);
      return;
    }
    const same = SAME_POINT / pen.ratio;
    if (!must && Math.abs(along - this.lastT) < same && Math.abs(across - this.lastV) < same) return;
    const ahead = along - this.lastT;
    if (must || ahead < same) {
      this.settle();
      this.draw(along, across);
      return;
    }
    let run = along - this.t;
    const slope = (across - this.v) / run;
    if (this.waiting && (slope < this.least || slope > this.most)) {
      this.settle();
      run = along - this.t;
    }
    this.least = Math.max(this.least, (across - this.near - this.v) / run);
    this.most = Math.min(this.most, (across + this.near - this.v) / run);
    this.lastT = along;
    this.lastV = across;
    this.waiting = true;
  }

  private settle(): void {
    if (this.waiting) this.draw(this.lastT, this.lastV);
  }

  private draw(along: number, across: number): void {
    this.path.lineTo(this.pen.x(along, across), this.pen.y(along, across));
    this.stand(along, across);
    this.under?.to(along, across);
  }

  private stand(along: number, across: number): void {
    this.t = this.lastT = along;
    this.v = this.lastV = across;
    this.waiting = false;
    this.least = -Infinity;
    this.most = Infinity;
  }
}
