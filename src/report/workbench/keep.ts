import { findTab, sessionKey, stayOpen } from './tab.ts';

/** What survives a closed tab: one record and the files that were given, in the browser's own store, for each tab. */

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

async function takeOut(key: string): Promise<void> {
  await done((await database()).transaction(STORE, 'readwrite').objectStore(STORE).delete(key));
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

const tab = findTab(Date.now());
stayOpen(tab.id);
/** some other tab is open, which keeps what is open in it by itself */
export const isSecondTab = tab.isSecond;

const filesKey = (id: string) => `files-${id}`;

/** Small and needed at once when a tab closes, so it goes to the store that answers at once. */
export function keepSession(session: KeptSession): boolean {
  try {
    localStorage.setItem(sessionKey(tab.id), JSON.stringify({ ...session, keptAtMs: Date.now() }));
    return true;
  } catch {
    return false;
  }
}

export function keptSession(): KeptSession | null {
  try {
    const kept = tab.from === null ? null : localStorage.getItem(sessionKey(tab.from));
    return kept ? (JSON.parse(kept) as KeptSession) : null;
  } catch {
    return null;
  }
}

/** Files are large: they go to the browser's database. False where it has none, as in a private window. */
export async function keepFiles(files: readonly KeptFile[]): Promise<boolean> {
  try {
    await put(filesKey(tab.id), files);
    return true;
  } catch {
    return false;
  }
}

export async function keptFiles(): Promise<KeptFile[]> {
  try {
    for (const id of tab.forgotten) await takeOut(filesKey(id));
    return tab.from === null ? [] : ((await get<KeptFile[]>(filesKey(tab.from))) ?? []);
  } catch {
    return [];
  }
}
