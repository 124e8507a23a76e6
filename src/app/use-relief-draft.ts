import { reliefFieldsOf, reliefTexts, type ReliefFields } from './relief-fields.ts';
import { hasDraft, useDraft } from './use-draft.ts';

/** Per log: what is said of a relief is said on the card of one run. */
const draftOf = (log: string): string => `relief ${log}`;

/** Whether something was typed into the form of this run's card and not kept. */
export const hasReliefDraft = (log: string): boolean => hasDraft(draftOf(log));

/** The relief form's fields, as somebody types into them; they outlast a reload. */
export function useReliefDraft(
  log: string,
  kept: ReliefFields,
): {
  fields: ReliefFields;
  set: <K extends keyof ReliefFields>(field: K, value: ReliefFields[K]) => void;
  clear: () => void;
} {
  const draft = useDraft(draftOf(log), reliefTexts(kept));
  const texts = Object.fromEntries(
    Object.keys(kept).map((field) => [field, draft.value(field as keyof ReliefFields)]),
  ) as Record<keyof ReliefFields, string>;
  return {
    fields: reliefFieldsOf(texts, kept),
    set: (field, value) => draft.type(field, typeof value === 'string' ? value : JSON.stringify(value)),
    clear: draft.clear,
  };
}
