/**
 * Files that the page was given, by name. A file that is dropped has a bare name, for a browser does not tell folders;
 * one of a served folder has the path by which its site names it, for two folders may hold files of one name.
 */
export type GivenByName = Map<string, Uint8Array>;

/** Takes a file in; what is dropped later stands for every file of its name. */
export function putGiven(given: GivenByName, name: string, bytes: Uint8Array): void {
  if (baseName(name) === name)
    for (const other of [...given.keys()]) if (baseName(other) === name) given.delete(other);
  given.set(name, bytes);
}

/** The file that a site file names: by its whole path, else the one that was dropped with its last part as name. */
export function givenAt(given: GivenByName, path: string): Uint8Array | undefined {
  return given.get(path) ?? given.get(baseName(path));
}

export function baseName(path: string): string {
  return path.split(/[\\/]/).pop() ?? path;
}
