/** What survives a closed tab: one record and the files that were given, in the browser's own store. */

const NAME = 'darkweek-workbench';
const STORE = 'kept';

export interface KeptSession {
  text: string;
  savedText: string;
  fileName: string;
  trial: Record<string, unknown>;
  inHand: number;
  view: string;
  shows: string;
  span: { fromStep: number; toStep: number } | null;
  /** texts before and after this one */
  undo: string[];
  redo: string[];
}

export interface KeptFile {
  name: string;
  bytes: Uint8Array;
}

let opened: Promise<IDBDatabase> | null = null;

function database(): Promise<IDBDatabase> {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opened;
}

async function put(key: string, value: unknown): Promise<void> {
  const store = (await database()).transaction(STORE, 'readwrite').objectStore(STORE);
  await done(store.put(value, key));
}

async function get<T>(key: string): Promise<T | undefined> {
  const store = (await database()).transaction(STORE).objectStore(STORE);
  return done<T | undefined>(store.get(key));
}

function done<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

const SESSION = 'session';
const FILES = 'files';

/** Small and needed at once when a tab closes, so it goes to the store that answers at once. */
export function keepSession(session: KeptSession): boolean {
  try {
    localStorage.setItem(`${NAME}-${SESSION}`, JSON.stringify(session));
    return true;
  } catch {
    return false;
  }
}

export function keptSession(): KeptSession | null {
  try {
    const kept = localStorage.getItem(`${NAME}-${SESSION}`);
    return kept ? (JSON.parse(kept) as KeptSession) : null;
  } catch {
    return null;
  }
}

/** Files are large: they go to the browser's database. False where it has none, as in a private window. */
export async function keepFiles(files: readonly KeptFile[]): Promise<boolean> {
  try {
    await put(FILES, files);
    return true;
  } catch {
    return false;
  }
}

export async function keptFiles(): Promise<KeptFile[]> {
  try {
    return (await get<KeptFile[]>(FILES)) ?? [];
  } catch {
    return [];
  }
}
