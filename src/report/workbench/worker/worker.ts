import { expose } from 'comlink';
import { Bench } from './bench.ts';

/** The worker's door: the bench as it is, asked over messages. */
expose(new Bench());
