import { type Findings, quoted, someOf } from './findings.ts';
import type { Register } from './metered.ts';
import { readNmi } from './nmi.ts';

/** Energy units and their kWh. */
const KWH_PER_UNIT: Record<string, number> = { WH: 0.001, KWH: 1, MWH: 1000 };
/** Power units and their kW: a level over the interval, not its energy. */
const KW_PER_UNIT: Record<string, number> = { W: 0.001, KW: 1, MW: 1000 };
/** Lengths of the format, and two that files have all the same [min]. */
const LENGTHS = [5, 15, 30, 10, 60];

/** One stretch of a file that a 200 record begins. */
export interface Channel {
  nmi: string;
  suffix: string;
  intervalMin: number;
  /** kWh of one unit in one interval */
  kwhPerValue: number;
  /** where its days go; null when it is left out */
  register: Register | null;
  /** counts its days where leaving it out is to be told */
  leftOut: { days: number; line: number } | null;
}

/** The channels of a file: which are read, into which registers, and what is left out. */
export class Nem12Channels {
  readonly nmis = new Set<string>();
  private readonly registers = new Map<string, Register & { nmi: string; isLevel: boolean }>();
  private readonly leftOut = new Map<string, { days: number; line: number }>();
  private readonly named = new Map<string, number>();
  private readonly seen = new Set<string>();

  constructor(
    private readonly list: Findings,
    private readonly wanted: string | null,
  ) {}

  /** Takes the cells of a 200 record after the first. */
  begin(cells: readonly string[], line: number): Channel {
    const [nmiText = '', config = '', , suffixText = '', , , unit = '', length = '', , ...more] = cells;
    const { nmi, doubt } = readNmi(nmiText);
    const suffix = suffixText.toUpperCase();
    const channel: Channel = {
      nmi,
      suffix,
      intervalMin: Number(length),
      kwhPerValue: 0,
      register: null,
      leftOut: null,
    };
    // two rows without a line end between them
    if (more.some((cell) => cell !== ''))
      this.list.error('cells', '200', `${more.length} more cells`, 'nine after the 200', { line });
    if (doubt !== null && !this.nmis.has(nmi))
      this.list.doubt('nmi', 'meter', doubt, '10 letters or digits', { line });
    this.nmis.add(nmi);
    this.seen.add(`${nmi} ${suffix}`);
    for (const [name] of config.toUpperCase().matchAll(/[A-Z][0-9A-Z]/g)) this.note(`${nmi} ${name}`, line);
    if (this.wanted !== null && this.wanted !== nmi) return channel;
    const kwhPerUnit = KWH_PER_UNIT[unit.toUpperCase()];
    const kwPerUnit = KW_PER_UNIT[unit.toUpperCase()];
    const isRead = /^[EB]/.test(suffix) && (kwhPerUnit ?? kwPerUnit) !== undefined;
    if (!isRead) {
      const name = `${nmi} ${suffix} in ${unit === '' ? 'no unit' : unit}`;
      channel.leftOut = this.leftOut.get(name) ?? { days: 0, line };
      this.leftOut.set(name, channel.leftOut);
      return channel;
    }
    if (!LENGTHS.includes(channel.intervalMin)) {
      this.list.error('interval-length', 'interval length', quoted(length), '5, 15 or 30 minutes', { line });
      return channel;
    }
    channel.kwhPerValue = kwhPerUnit ?? (kwPerUnit * channel.intervalMin) / 60;
    channel.register = this.registerOf(nmi, suffix, kwhPerUnit === undefined);
    return channel;
  }

  private note(name: string, line: number): void {
    if (!this.named.has(name)) this.named.set(name, line);
  }

  private registerOf(nmi: string, suffix: string, isLevel: boolean): Register {
    const name = `${nmi} ${suffix}${isLevel ? ' (power)' : ''}`;
    const known = this.registers.get(name);
    if (known) return known;
    const quantity = suffix.startsWith('E') ? ('loadKw' as const) : ('generationKw' as const);
    const register = { name, quantity, blocks: [], nmi, isLevel };
    this.registers.set(name, register);
    return register;
  }

  /** The registers to add up, and the doubts about what they leave out. */
  finish(): (Register & { nmi: string })[] {
    for (const [name, { days, line }] of this.leftOut) {
      const got = `${days} days of a channel that is not energy or power drawn (E) or sent (B)`;
      this.list.doubt('left-out', `channel ${name}`, got, 'kWh or kW; left out', { line });
    }
    const absent = [...this.named].filter(([name]) => !this.seen.has(name) && this.isWanted(name));
    if (absent.length > 0) {
      const names = someOf(absent.map(([name]) => name));
      const want = 'a 200 record of each channel that the configuration names';
      this.list.doubt('channel-absent', 'channels', `nothing of ${names}`, want, { line: absent[0][1] });
    }
    const filled = [...this.registers.values()].filter(({ blocks }) => blocks.length > 0);
    return filled.filter((register) => this.keepsLevel(register, filled));
  }

  /** Reactive channels named and absent are of no interest. */
  private isWanted(name: string): boolean {
    const [nmi, suffix] = name.split(' ');
    return /^[EB]/.test(suffix) && (this.wanted === null || this.wanted === nmi);
  }

  /** Power is read only where a meter has no energy in that direction: it would count twice. */
  private keepsLevel(
    { nmi, quantity, isLevel, name, blocks }: Register & { nmi: string; isLevel: boolean },
    all: readonly (Register & { nmi: string; isLevel: boolean })[],
  ): boolean {
    if (!isLevel) return true;
    const hasEnergy = all.some((one) => !one.isLevel && one.nmi === nmi && one.quantity === quantity);
    const spot = { line: blocks[0].line };
    if (hasEnergy)
      this.list.doubt('left-out', `channel ${name}`, 'power beside energy', 'one; left out', spot);
    else
      this.list.doubt(
        'power',
        `channel ${name}`,
        'power',
        'energy; read as the mean over each interval',
        spot,
      );
    return !hasEnergy;
  }
}
