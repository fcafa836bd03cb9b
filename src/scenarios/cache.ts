/** Keeps what has been made once, by what it depends on: plain values, told apart by their JSON. */
export class Cache {
  private readonly made = new Map<string, unknown>();
  private bytes = 0;

  /**
   * @param given     what others have made, by its name; it is kept whatever else is
   * @param mostBytes beyond so much in series, what was made here is forgotten
   */
  constructor(
    private readonly given: ReadonlyMap<string, unknown> = new Map(),
    private readonly mostBytes = Number.POSITIVE_INFINITY,
  ) {}

  /** What was made for a key before, or made now. */
  once<T>(key: readonly unknown[], make: () => T): T {
    const name = JSON.stringify(key);
    if (this.given.has(name)) return this.given.get(name) as T;
    if (!this.made.has(name)) this.keep(name, make());
    return this.made.get(name) as T;
  }

  /** Everything that is kept, by its name. */
  entries(): Map<string, unknown> {
    return new Map([...this.given, ...this.made]);
  }

  /** Forgets all that it made but the kinds named: the first words of their keys. */
  keepOnly(kinds: readonly string[]): void {
    for (const [name, value] of this.made)
      if (!kinds.some((kind) => name.startsWith(`[${JSON.stringify(kind)}`))) {
        this.made.delete(name);
        this.bytes -= this.mostBytes < Number.POSITIVE_INFINITY ? seriesBytes(value) : 0;
      }
  }

  private keep(name: string, value: unknown): void {
    if (this.mostBytes < Number.POSITIVE_INFINITY) {
      const bytes = seriesBytes(value);
      if (this.bytes + bytes > this.mostBytes) {
        this.made.clear();
        this.bytes = 0;
      }
      this.bytes += bytes;
    }
    this.made.set(name, value);
  }
}

/** Bytes of the series within a value. */
export function seriesBytes(value: unknown): number {
  if (ArrayBuffer.isView(value)) return value.byteLength;
  if (typeof value !== 'object' || value === null) return 0;
  return Object.values(value).reduce((sum: number, part) => sum + seriesBytes(part), 0);
}
