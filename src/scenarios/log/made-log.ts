/** What `profiles/logs.mjs` makes the demonstration logs with; built beside the command line. */
export { recordTruth, USUAL_RECORDER } from './recorder.ts';
export { simulateTruth } from './truth.ts';
export { logCsv } from './write-log.ts';
