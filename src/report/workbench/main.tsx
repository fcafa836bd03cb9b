import { effect } from '@preact/signals';
import { render } from 'preact';
import { PATTERNS } from '../charts/palette.ts';
import { DARK, LIGHT } from '../page/style.ts';
import { history, setHistory, stepBack, stepForward, take } from './edits.ts';
import { keepSession, keptFiles, keptSession } from './keep.ts';
import { give, openFirst, openServed, servedSites } from './open.ts';
import * as state from './state.ts';
import './style.css';
import { App } from './views/app.tsx';

const KEEP_AFTER_MS = 250;

/** Opens what was open when the tab was closed; else the first site of a served folder, else a demo. */
async function begin(): Promise<void> {
  const kept = keptSession();
  if (!kept) {
    const [first] = servedSites() ?? [];
    await (first ? openServed(first) : openFirst());
    return;
  }
  const files = await keptFiles();
  if (files.length > 0) await give(files);
  state.text.value = kept.text;
  state.savedText.value = kept.savedText;
  state.fileName.value = kept.fileName;
  state.inHand.value = kept.inHand;
  state.trial.value = kept.trial;
  state.shows.value = kept.shows as typeof state.shows.value;
  state.span.value = kept.span;
  state.view.value = kept.view as state.View;
  setHistory(kept);
  await take();
}

function keep(): void {
  if (state.text.value === '') return;
  const { text, savedText, fileName, trial, inHand, view, shows, span } = state;
  keepSession({
    ...{ text: text.value, savedText: savedText.value, fileName: fileName.value, trial: trial.value },
    ...{ inHand: inHand.value, view: view.value, shows: shows.value, span: span.value },
    ...history(),
  });
}

const colours = document.createElement('style');
colours.textContent = `:root{${LIGHT}}@media screen and (prefers-color-scheme:dark){:root{${DARK}}}@media print{:root{--paper:#fff}}`;
document.head.prepend(colours);
document.body.insertAdjacentHTML('afterbegin', PATTERNS);
const place = document.getElementById('page');
if (place) render(<App />, place);

let timer: ReturnType<typeof setTimeout> | undefined;
effect(() => {
  const { text, savedText, trial, inHand, view, shows, span } = state;
  // each is read, so that a change of any is kept
  for (const one of [text, savedText, trial, inHand, view, shows, span]) void one.value;
  clearTimeout(timer);
  timer = setTimeout(keep, KEEP_AFTER_MS);
});
addEventListener('pagehide', keep);
document.addEventListener('keydown', (event) => {
  const typing = (event.target as Element | null)?.closest('input, textarea, select');
  if (!(event.ctrlKey || event.metaKey) || typing || event.key.toLowerCase() !== 'z') return;
  event.preventDefault();
  void (event.shiftKey ? stepForward() : stepBack());
});

performance.mark('page ready');
void begin().then(() => performance.mark('first picture'));
