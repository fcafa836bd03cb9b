/**
 * Every tab keeps what is open in it by itself. A new one goes on with what a closed one has left; tabs that are open
 * are told by a time that they write again and again, and take back when they close.
 */

const NAME = 'darkweek-workbench';
const BEAT_MS = 2000;
/** A tab in the background may write as seldom as once a minute; after more than two it was lost without closing. */
const LOST_MS = 150_000;
/** What closed tabs have left is forgotten beyond so many. */
const MOST_LEFT = 5;

const beatKey = (id: string) => `${NAME}-open-${id}`;
export const sessionKey = (id: string) => `${NAME}-session-${id}`;

export interface Tab {
  /** of what is kept for this tab */
  id: string;
  /** where what it begins with is kept: its own, or the tab's that it was copied from; null: nothing is left */
  from: string | null;
  /** some other tab is open */
  isSecond: boolean;
  /** left by tabs that were closed, and no longer kept */
  forgotten: string[];
}

/** Finds out whose place this tab takes. Errors: none; without a store every tab begins anew. */
export function findTab(nowMs: number): Tab {
  try {
    const kept = keptIds();
    const isOpen = (id: string) => nowMs - Number(localStorage.getItem(beatKey(id)) ?? 0) < LOST_MS;
    const own = sessionStorage.getItem(NAME);
    const left = kept.filter((id) => !isOpen(id));
    const isSecond = kept.some(isOpen);
    // a copied tab brings the name of the one that it was copied from, which is open
    const isCopy = own !== null && isOpen(own);
    const id = own !== null && !isCopy ? own : isCopy ? newId() : (left[0] ?? newId());
    const forgotten = left.filter((one) => one !== id).slice(MOST_LEFT);
    for (const one of forgotten) localStorage.removeItem(sessionKey(one));
    sessionStorage.setItem(NAME, id);
    return { id, from: isCopy ? own : kept.includes(id) ? id : null, isSecond, forgotten };
  } catch {
    return { id: newId(), from: null, isSecond: false, forgotten: [] };
  }
}

/** Says from now on that this tab is open, and no longer when it closes. */
export function stayOpen(id: string): void {
  const beat = () => {
    try {
      localStorage.setItem(beatKey(id), String(Date.now()));
    } catch {}
  };
  beat();
  setInterval(beat, BEAT_MS);
  addEventListener('pageshow', beat);
  addEventListener('pagehide', () => {
    try {
      localStorage.removeItem(beatKey(id));
    } catch {}
  });
}

/** Tabs of which something is kept, the latest first. */
function keptIds(): string[] {
  const start = sessionKey('');
  const ids = Object.keys(localStorage).flatMap((key) =>
    key.startsWith(start) ? [key.slice(start.length)] : [],
  );
  const keptAt = (id: string) => {
    try {
      return Number(JSON.parse(localStorage.getItem(sessionKey(id)) ?? '{}').keptAtMs ?? 0);
    } catch {
      return 0;
    }
  };
  return ids.sort((a, b) => keptAt(b) - keptAt(a));
}

function newId(): string {
  return Math.random().toString(36).slice(2, 12);
}
