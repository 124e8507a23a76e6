export { prepare, readRows, rowsRead, missingRead, oddCells } from './rows';
