import { proxy, type Remote } from 'comlink';
import { given } from './open.ts';
import * as state from './state.ts';
import type { StudyAsked } from './study-messages.ts';
import * as study from './study-state.ts';
import type { Studies } from './worker/studies.ts';
import { startStudies, startThread } from './worker-link.ts';

/** Studies of many runs: one at a time, over as many workers as the machine has cores to spare. */

const MOST_THREADS = 8;
let studies: Remote<Studies> | null = null;
let filesThere = -1;
const threads = new Map<number, Worker>();

/** One core is left to the page itself. */
function threadCount(): number {
  return Math.max(1, Math.min(MOST_THREADS, navigator.hardwareConcurrency - 1));
}

async function linked(): Promise<Remote<Studies>> {
  const link = studies ?? startStudies();
  if (studies === null) {
    studies = link;
    const start = (id: number, port: MessagePort) => {
      threads.set(
        id,
        startThread(port, (why) => void link.threadEnded(id, why)),
      );
    };
    const stop = (id: number) => {
      threads.get(id)?.terminate();
      threads.delete(id);
    };
    const tell = (progress: typeof study.progress.value) => {
      if (study.running.value !== null) study.progress.value = progress;
    };
    await link.attach(proxy({ start, stop, tell }));
  }
  if (filesThere !== study.filesGiven.value) {
    filesThere = study.filesGiven.value;
    await link.giveFiles([...given].map(([name, bytes]) => ({ name, bytes })));
  }
  return link;
}

export async function runStudy(asked: StudyAsked): Promise<void> {
  if (study.running.value !== null) return;
  const { kind } = asked;
  study.running.value = kind;
  study.progress.value = null;
  study.failed.value = null;
  study.refused.value = { ...study.refused.value, [kind]: undefined };
  state.said.value = 'The runs have begun.';
  try {
    const link = await linked();
    const site = { text: state.goodText.value, file: state.fileName.value, key: study.siteKey.value };
    const answer = await link.run(asked, site, threadCount());
    if ('issues' in answer) study.refused.value = { ...study.refused.value, [kind]: answer.issues };
    else study.shown.value = { ...study.shown.value, [kind]: answer.shown };
    state.said.value =
      'issues' in answer
        ? 'It was not run: something is wrong.'
        : answer.shown.stopped || 'The runs are done.';
  } catch (error) {
    // a worker that died, say for want of memory: what was finished is remembered where the studies live
    study.failed.value = { kind, why: error instanceof Error ? error.message : String(error) };
    state.said.value = 'The runs broke off.';
  } finally {
    study.running.value = null;
    study.stopping.value = false;
    study.progress.value = null;
  }
}

/** Ends what is under way; what is finished stays. */
export async function stopStudy(): Promise<void> {
  if (study.running.value === null) return;
  study.stopping.value = true;
  await studies?.stop();
}
