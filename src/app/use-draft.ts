import { useState } from 'react';
import { hasTexts } from './has-texts.ts';

/** What was typed and not kept yet: field by field, with what stood there when it was typed. */
export interface Typed {
  value: string;
  over: string;
}
export type Drafted = Readonly<Record<string, Typed>>;

const PREFIX = 'overdrive-bench-draft ';

function recalled(key: string): Drafted {
  try {
    const data: unknown = JSON.parse(window.localStorage.getItem(PREFIX + key) ?? '{}');
    if (typeof data !== 'object' || data === null) return {};
    return Object.fromEntries(
      Object.entries(data).filter((pair): pair is [string, Typed] => hasTexts(pair[1], ['value', 'over'])),
    );
  } catch {
    return {};
  }
}

/** Whether something was typed of this thing and not kept. */
export const hasDraft = (key: string): boolean => Object.keys(recalled(key)).length > 0;

/**
 * Fields of something kept, as somebody types into them. What is typed outlasts a reload, and a change of the kept value from
 * elsewhere: a field that was not touched follows it, one that was touched stays as typed.
 * @param key names the thing, so that its draft is found again
 */
export function useDraft<F extends string>(
  key: string,
  kept: Readonly<Record<F, string>>,
): {
  value: (field: F) => string;
  type: (field: F, value: string) => void;
  /** Fields that say something else than what is kept. */
  changed: F[];
  /** Changed fields whose kept value is no longer the one that they were typed over. */
  overtaken: F[];
  /** @param except stays as typed */
  clear: (...except: F[]) => void;
} {
  const [drafted, setDrafted] = useState(() => recalled(key));
  const put = (next: Drafted): void => {
    setDrafted(next);
    try {
      if (Object.keys(next).length === 0) window.localStorage.removeItem(PREFIX + key);
      else window.localStorage.setItem(PREFIX + key, JSON.stringify(next));
    } catch {
      // Without a storage the draft lasts as long as the page.
    }
  };
  const fields = Object.keys(kept) as F[];
  const changed = fields.filter((field) => (drafted[field]?.value ?? kept[field]) !== kept[field]);
  return {
    value: (field) => drafted[field]?.value ?? kept[field],
    type(field, value) {
      const { [field]: own, ...others } = drafted;
      put(
        value === kept[field] && own === undefined
          ? others
          : { ...others, [field]: { value, over: own?.over ?? kept[field] } },
      );
    },
    changed,
    overtaken: changed.filter((field) => drafted[field]?.over !== kept[field]),
    clear: (...except) =>
      put(
        Object.fromEntries(Object.entries(drafted).filter(([field]) => except.some((own) => own === field))),
      ),
  };
}
