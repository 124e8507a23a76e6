export {
  answerApart,
  type CurrentApart,
  type CurrentQuestion,
  type HoldApart,
  type HoldQuestion,
} from '#analysis/quantities-apart.ts';
export { readingsApart, readApart, type ApartReading } from '#analysis/read-apart.ts';
