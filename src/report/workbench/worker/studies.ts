import { transfer } from 'comlink';
import { Memory } from '../../../scenarios/many/remembered.ts';
import { WrongVariants } from '../../../scenarios/many/wrong-variants.ts';
import type { ShownStudy, StudyAnswer, StudyAsked, StudyProgress, StudySite } from '../study-messages.ts';
import { GivenFiles } from './files.ts';
import { PortThreads, type ThreadHost } from './port-threads.ts';
import { shownSize } from './shown-size.ts';
import { type KeptRuns, shownStress } from './shown-stress.ts';
import { shownSweep } from './shown-sweep.ts';
import { shownTune } from './shown-tune.ts';
import type { StudyGround } from './study-ground.ts';

/** What the page does for the studies. */
export interface StudyHost extends ThreadHost {
  tell(progress: StudyProgress): void;
}

/**
 * Studies of many runs, in a worker of their own that hands the runs out to others. What was finished is remembered
 * for as long as the site and its files are the same.
 */
export class Studies {
  private readonly files = new GivenFiles();
  private host!: StudyHost;
  private threads!: PortThreads;
  private memory = new Memory();
  private runs: KeptRuns = new Map();
  private key = '';
  private under: AbortController | null = null;

  attach(host: StudyHost): void {
    this.host = host;
    this.threads = new PortThreads({
      start: (id, port) => host.start(id, transfer(port, [port])),
      stop: (id) => host.stop(id),
    });
  }

  giveFiles(files: readonly { name: string; bytes: Uint8Array }[]): void {
    this.files.forget();
    for (const { name, bytes } of files) this.files.put(name, bytes);
  }

  /** Told by the page when a thread has died. */
  threadEnded(id: number, why: string): void {
    this.threads.ended(id, why);
  }

  stop(): void {
    this.under?.abort();
  }

  /** Runs a study, one at a time. @param count how many threads */
  async run(asked: StudyAsked, { text, file, key }: StudySite, count: number): Promise<StudyAnswer> {
    if (key !== this.key) {
      this.memory = new Memory();
      this.runs = new Map();
    }
    this.key = key;
    this.under = new AbortController();
    const ground: StudyGround = {
      ...{ text, file, threads: count, memory: this.memory, stop: this.under.signal },
      ...{ readFile: this.files.read, startThread: this.threads.start },
      tell: (progress) => this.host.tell(progress),
    };
    try {
      const answer = await this.shown(asked, ground);
      return 'issues' in answer ? answer : { shown: { ...answer.shown, key } };
    } catch (error) {
      if (error instanceof WrongVariants) return { issues: [...error.issues] };
      throw error;
    }
  }

  private shown(
    asked: StudyAsked,
    ground: StudyGround,
  ): Promise<{ shown: Omit<ShownStudy, 'key'> } | StudyAnswer> {
    if (asked.kind === 'sweep') return shownSweep(asked, ground);
    if (asked.kind === 'tune') return shownTune(asked, ground);
    if (asked.kind === 'size') return shownSize(asked, ground);
    return shownStress(asked, ground, this.runs);
  }
}
