import { FILES } from '../../../../profiles/series.mjs';
import type { ReadFile } from '../../../scenarios/load-files.ts';
import { givenAt, putGiven } from '../given-files.ts';

/** Files that a page has been given, and those of the demonstration, which are made when they are asked for. */
export class GivenFiles {
  private readonly given = new Map<string, Uint8Array>();
  private readonly made = new Map<string, Uint8Array>();

  put(name: string, bytes: Uint8Array): void {
    putGiven(this.given, name, bytes);
  }

  forget(): void {
    this.given.clear();
  }

  readonly read: ReadFile = (path) => {
    const given = givenAt(this.given, path);
    if (given) return given;
    const demo = path.startsWith('../') ? path.slice(3) : '';
    const make = Object.hasOwn(FILES, demo) ? FILES[demo] : null;
    if (make === null) throw new Error(`no file '${path}'`);
    const bytes = this.made.get(demo) ?? make();
    this.made.set(demo, bytes);
    return bytes;
  };
}
