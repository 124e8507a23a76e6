import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { createFileLooks } from '#worker/follow-file.ts';
import type { LogFile } from '#worker/messages.ts';
import { logBytes, rig, spec } from './sample.ts';

const name = 'five-over-the-band.csv';
const reading = { rig: rig('bench-1.json'), overrides: [] };
const judging = { spec: spec('example-400-420.json'), judge: null };
const bytes = logBytes(name);
const upTo = (length: number, key = 'one'): LogFile => ({
  key,
  blob: new Blob([bytes.slice(0, length)]),
  name,
});

describe('a file that is looked at again and again', () => {
  it('reads on from the look before, and says how far the run has come', async () => {
    const looks = createFileLooks('1.2.3');
    const half = await looks.look(upTo(bytes.length / 2), reading, judging);
    expect(half).toMatchObject({ anew: false, added: Math.floor(bytes.length / 2), problems: [] });
    const whole = await looks.look(upTo(bytes.length), reading, judging);
    expect(whole.added).toBe(bytes.length - Math.floor(bytes.length / 2));
    const rows = (look: typeof half): number => look.run?.assessment.log.rows ?? 0;
    expect(rows(whole)).toBeGreaterThan(rows(half));
    expect(whole.run?.assessment).toMatchObject({
      complete: false,
      log: { sha256: createHash('sha256').update(bytes).digest('hex'), bytes: bytes.length },
    });
    expect(half.run?.soFar.toGo_s).toBeGreaterThan(3600);
    // Nothing came: the answer is the same.
    expect(await looks.look(upTo(bytes.length), reading, judging)).toMatchObject({ added: 0, anew: false });
  });

  it('notices a file that was begun anew, shorter or not, and reads that one', async () => {
    const looks = createFileLooks('1.2.3');
    await looks.look(upTo(bytes.length), reading, judging);
    const shorter = await looks.look(upTo(bytes.length / 2), reading, judging);
    expect(shorter.anew).toBe(true);
    const other = bytes.slice();
    // Another reading where the last look ended.
    other.set(new TextEncoder().encode('9'), Math.floor(bytes.length / 2) - 3);
    const longer = await looks.look({ key: 'one', blob: new Blob([other]), name }, reading, judging);
    expect(longer.anew).toBe(true);
    expect(longer.run?.assessment.log.bytes).toBe(bytes.length);
  });

  it('says why nothing can be judged yet, and begins anew after a look that the logger disturbed', async () => {
    const looks = createFileLooks('1.2.3');
    expect((await looks.look(upTo(0), reading, judging)).problems[0]?.code).toBe('empty-file');
    await looks.look(upTo(5000), reading, judging);
    const broken = new Blob([bytes]);
    broken.slice = () => {
      throw new DOMException('changed', 'NotReadableError');
    };
    const disturbed = await looks.look({ key: 'one', blob: broken, name }, reading, judging);
    expect(disturbed).toMatchObject({ run: null, problems: [{ code: 'file-not-readable' }] });
    const after = await looks.look(upTo(bytes.length), reading, judging);
    expect(after.run?.assessment.log.bytes).toBe(bytes.length);
  });
});
