export { quantitiesApart, type ApartQuestion, type QuantitiesApart } from '#analysis/quantities-apart.ts';
export { readingsApart, readApart, type ApartReading } from '#analysis/read-apart.ts';
