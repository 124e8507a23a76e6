export { prepare, readRows, rowsRead, missingRead } from './rows';
