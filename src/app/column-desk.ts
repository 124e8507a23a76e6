import { writeJson } from '#formats/number.ts';
import type { Rig } from '#formats/rig.ts';
import type { WorkerClient } from '#worker/client.ts';
import type { ColumnOverride } from '#worker/messages.ts';
import { rigToKeep, withChange, type FileLayout } from './column-rig.ts';
import type { Draft } from './state.ts';
import { notKeptSentence } from './trouble.tsx';

/** What putting a layout right needs of the desk. */
export interface ColumnSide {
  client: WorkerClient;
  draft: () => Draft | null;
  setDraft: (patch: Partial<Draft>) => void;
  read: () => void;
  setRig: (rig: Draft['rig']) => void;
  /** Corrections by hand and by answers. */
  overrides: (draft: Draft) => ColumnOverride[];
  putDown: (name: string, bytes: Uint8Array<ArrayBuffer>, type: string) => void;
  say: (said: string) => void;
  at: () => string;
  bookChanged: () => void;
}

/** Puts right how a file is laid out, and remembers it for its logger. */
export function createColumnDesk(side: ColumnSide): {
  layOut: (change: FileLayout) => void;
  layOutAsFound: () => void;
  rememberLogger: (name: string) => Promise<void>;
  saveRig: (name: string) => void;
  recognise: (draft: Draft) => Promise<void>;
} {
  const madeOf = (draft: Draft, name: string): Rig =>
    rigToKeep(draft.rig?.rig ?? null, draft.layout, side.overrides(draft), name);
  /** From here on the file is read with the rig alone, as the command line would. */
  const readWith = (rig: Rig, from: 'kept' | 'file', remembered: string): void => {
    side.setDraft({ layout: {}, corrections: [], answers: new Map(), timeMissing: false });
    side.setRig({ rig, from });
    side.setDraft({ remembered });
  };
  return {
    layOut(change) {
      const draft = side.draft();
      if (draft === null) return;
      // Another table has other columns: what was asked of those before no longer holds.
      side.setDraft({ layout: withChange(draft.layout, change), asRead: null, absent: [], remembered: null });
      side.read();
    },
    layOutAsFound() {
      if (side.draft() === null) return;
      side.setDraft({ layout: {}, asRead: null, absent: [], remembered: null, trouble: null });
      side.read();
    },
    async rememberLogger(name) {
      const draft = side.draft();
      if (draft === null) return;
      const rig = madeOf(draft, name);
      const { file } = draft;
      const outcome = await side.client.ask({ kind: 'remember', file, rig, at: side.at() }).outcome;
      if (side.draft()?.file.key !== file.key) return;
      if (outcome.kind !== 'answer') {
        side.setDraft({ remembered: 'It could not be kept. Save it as a rig file instead.' });
        return;
      }
      if ('problem' in outcome.answer) {
        side.setDraft({
          remembered: `${notKeptSentence(outcome.answer.problem)} Save it as a rig file instead.`,
        });
        return;
      }
      const said = outcome.answer.recognised
        ? `Remembered for ${rig.name}: the next log with this heading is read so by itself.`
        : `Kept as ${rig.name}. Its logs have no heading to be recognised by; save the rig file and give it with the next log.`;
      readWith(rig, 'kept', said);
      side.say(said);
      side.bookChanged();
    },
    saveRig(name) {
      const draft = side.draft();
      if (draft === null) return;
      const rig = madeOf(draft, name);
      const file = `${rig.name.replace(/[\\/:*?"<>|\p{Cc}]/gu, '-')} rig.json`;
      side.putDown(file, new TextEncoder().encode(writeJson(rig)), 'application/json');
      readWith(rig, draft.rig?.from === 'kept' ? 'kept' : 'file', `Saved ${file}; the log is read with it.`);
      side.say(`Saved ${file}.`);
    },
    async recognise(draft) {
      const outcome = await side.client.ask({ kind: 'recognise', file: draft.file }).outcome;
      const now = side.draft();
      if (outcome.kind !== 'answer' || outcome.answer.rig === null || now?.file.key !== draft.file.key)
        return;
      // What was said by hand meanwhile counts.
      const touched =
        now.rig !== null ||
        now.corrections.length > 0 ||
        now.answers.size > 0 ||
        now.layout.time !== undefined ||
        now.layout.dialect !== undefined;
      if (touched) return;
      const { rig } = outcome.answer;
      side.setDraft({ timeMissing: false });
      side.setRig({ rig, from: 'kept' });
      side.say(`Recognised by its heading: ${rig.name}.`);
    },
  };
}
