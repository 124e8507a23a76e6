export { readingsApart, readApart, type ApartReading } from '#analysis/read-apart.ts';
