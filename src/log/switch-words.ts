/** How loggers say the state of a switched thing: English, German, French, Spanish, Italian (common practice, no source). */
const on = new Set([
  'on',
  'true',
  'yes',
  'high',
  'engaged',
  'energised',
  'energized',
  'ein',
  'an',
  'ja',
  'oui',
  'sí',
  'si',
]);
const off = new Set([
  'off',
  'false',
  'no',
  'low',
  'released',
  'disengaged',
  'aus',
  'nein',
  'non',
  'arrêt',
  'apagado',
]);

/** 1 for a word that says on, 0 for one that says off; null for any other text. */
export function switchState(text: string): 0 | 1 | null {
  const word = text.trim().toLowerCase();
  return on.has(word) ? 1 : off.has(word) ? 0 : null;
}
