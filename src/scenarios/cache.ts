/** Keeps what has been made once, by what it depends on: plain values, told apart by their JSON. */
export class Cache {
  private readonly made = new Map<string, unknown>();

  /** What was made for a key before, or made now. */
  once<T>(key: readonly unknown[], make: () => T): T {
    const name = JSON.stringify(key);
    if (!this.made.has(name)) this.made.set(name, make());
    return this.made.get(name) as T;
  }
}
