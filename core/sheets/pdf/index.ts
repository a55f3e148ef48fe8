export { writePdf } from './writer.ts';
