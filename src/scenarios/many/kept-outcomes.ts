import type { SiteChanges } from '../apply-changes.ts';
import type { Attempt } from './evaluate.ts';
import type { Outcome } from './outcome.ts';

/** What outcomes belong to: other inputs, another step or another program give others. */
export interface KeptFor {
  inputsHash: string;
  version: string;
  /** of the site as filed: an engine that gives another has changed */
  filed: Outcome;
}

/**
 * Outcomes that are kept in a file as they come, so that stopping loses next to nothing: its first line says what
 * they belong to, each further one holds a variant's changes and what it gave.
 */
export class KeptOutcomes {
  /** read from the file */
  readonly before: number;
  private readonly known = new Map<string, Attempt>();
  private waiting: string[] = [];
  private writtenMs = 0;

  /**
   * @param text  the file as it is; null where there is none
   * @param write puts text into it: at its end, or in place of what is there
   * @param nowMs the time; what comes within a tenth of a second is written together
   */
  constructor(
    text: string | null,
    belongsTo: KeptFor,
    private readonly write: (text: string, how: 'append' | 'replace') => void,
    private readonly nowMs: () => number,
  ) {
    const head = JSON.stringify(belongsTo);
    const [first, ...lines] = (text ?? '').split('\n');
    if (first === head) for (const line of lines) this.read(line);
    else this.write(`${head}\n`, 'replace');
    this.before = this.known.size;
    // an unfinished last line is left behind
    if (first === head && !text?.endsWith('\n')) this.write('\n', 'append');
  }

  of(changes: SiteChanges): Attempt | undefined {
    return this.known.get(JSON.stringify(changes));
  }

  add(changes: SiteChanges, attempt: Attempt): void {
    this.waiting.push(JSON.stringify([changes, attempt]));
    if (this.nowMs() - this.writtenMs >= WRITE_EVERY_MS) this.flush();
  }

  flush(): void {
    if (this.waiting.length > 0) this.write(`${this.waiting.join('\n')}\n`, 'append');
    this.waiting = [];
    this.writtenMs = this.nowMs();
  }

  /** A line that was cut off when the program was stopped is passed over. */
  private read(line: string): void {
    try {
      const [changes, attempt] = JSON.parse(line);
      this.known.set(JSON.stringify(changes), attempt);
    } catch {}
  }
}

const WRITE_EVERY_MS = 100;
