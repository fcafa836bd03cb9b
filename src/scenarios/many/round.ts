import type { SiteChanges } from '../apply-changes.ts';
import type { Attempt } from './evaluate.ts';
import { type Seat, ThreadEnded } from './seat.ts';
import type { OpenMessage } from './thread.ts';
import { variantName } from './wrong-variants.ts';

/** Variants in a row that one thread runs. */
interface Portion {
  from: number;
  to: number;
  /** threads that have died over it */
  deaths: number;
}

/** Of what is left, a thread takes this share of its equal part, so that all end together. */
const SHARE_OF_PART = 0.25;
/** A thread that dies takes no more than this with it. */
const MOST_IN_PORTION = 32;
/** A portion is done again once. */
const MOST_DEATHS = 2;

/** Some variants, shared out among threads; which thread runs which is chance, and the outcomes are not. */
export class Round {
  private readonly attempts: Attempt[];
  private readonly again: Portion[] = [];
  private next = 0;
  private done = 0;

  /** @param onDone told of each variant as it is done; @param onPortion told after every few how many are done */
  constructor(
    private readonly variants: readonly SiteChanges[],
    private readonly site: OpenMessage,
    private readonly files: ReadonlyMap<string, Uint8Array>,
    private readonly onDone: (index: number, attempt: Attempt) => void,
    private readonly onPortion: (done: number) => void,
  ) {
    this.attempts = new Array(variants.length);
  }

  /** Errors: rejects where threads die over the same variants twice, with what the last one said. */
  async run(seats: readonly Seat[]): Promise<Attempt[]> {
    const ends = await Promise.allSettled(seats.map((seat) => this.serve(seat, seats.length)));
    for (const end of ends) if (end.status === 'rejected') throw end.reason;
    return this.attempts;
  }

  private async serve(seat: Seat, seats: number): Promise<void> {
    for (let portion = this.take(seats); portion !== null; portion = this.take(seats)) {
      const variants = this.variants.slice(portion.from, portion.to);
      try {
        const { attempts } = await seat.run(
          { kind: 'run', stepMin: this.site.stepMin, variants },
          this.site,
          this.files,
        );
        this.keep(portion, attempts);
      } catch (error) {
        portion.deaths++;
        if (error instanceof ThreadEnded && portion.deaths < MOST_DEATHS) this.again.push(portion);
        else {
          // nobody takes up more
          this.next = this.variants.length;
          this.again.length = 0;
          throw error instanceof ThreadEnded ? diedTwice(variants, error) : error;
        }
      }
    }
  }

  private take(seats: number): Portion | null {
    const again = this.again.pop();
    if (again) return again;
    const left = this.variants.length - this.next;
    if (left === 0) return null;
    const part = Math.ceil((SHARE_OF_PART * left) / seats);
    const from = this.next;
    this.next += Math.min(part, MOST_IN_PORTION);
    return { from, to: this.next, deaths: 0 };
  }

  private keep({ from, to }: Portion, attempts: readonly Attempt[]): void {
    for (const [i, attempt] of attempts.entries()) {
      this.attempts[from + i] = attempt;
      this.onDone(from + i, attempt);
    }
    this.done += to - from;
    this.onPortion(this.done);
  }
}

function diedTwice(variants: readonly SiteChanges[], { message }: ThreadEnded): Error {
  const names = variants.map((changes) => variantName(changes)).join('; ');
  return new Error(`two threads ended over the same variants (${names}): ${message}`);
}
