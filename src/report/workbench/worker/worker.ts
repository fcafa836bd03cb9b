import { expose } from 'comlink';
import { Bench } from './bench.ts';
import { serveThread } from './port-threads.ts';
import { Studies } from './studies.ts';

/**
 * The worker's door. One script does for all workers, so that the page carries it once; its name says which it is:
 * the bench (no name), the studies, or a thread of theirs, which is given a port to listen to.
 */
if (self.name === 'thread') self.onmessage = ({ data }) => serveThread(data as MessagePort);
else expose(self.name === 'studies' ? new Studies() : new Bench());
