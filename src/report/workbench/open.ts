import { batch } from '@preact/signals';
import { DEMOS, type Demo, EMPTY_SITE } from './demos.ts';
import { forgetHistory, take } from './edits.ts';
import { type GivenByName, putGiven } from './given-files.ts';
import { type KeptFile, keepFiles } from './keep.ts';
import type { LookedAtFile } from './messages.ts';
import * as state from './state.ts';
import * as study from './study-state.ts';
import { trialMayGo } from './trial-question.ts';
import { drawing } from './worker-link.ts';

/** Opening: site files, data files, demos, a folder that is served. Nothing leaves the browser. */

/** Files that were given, by name: the worker has copies. */
export const given: GivenByName = new Map();

export async function openText(text: string, file: string): Promise<void> {
  if (!(await trialMayGo())) return;
  forgetHistory();
  batch(() => {
    state.text.value = text;
    state.savedText.value = text;
    state.fileName.value = file;
    state.inHand.value = 0;
    state.trial.value = {};
    state.span.value = null;
    state.askedRun.value = null;
    state.told.value = null;
    state.refused.value = null;
    state.view.value = 'year';
  });
  await take();
}

export function openDemo({ text, file }: Demo): Promise<void> {
  return openText(text, file);
}

export function openEmpty(): Promise<void> {
  return openText(EMPTY_SITE, 'site.yaml');
}

export function openFirst(): Promise<void> {
  return openDemo(DEMOS[0]);
}

/** Files that were dropped or chosen: data first, then a site file, which may ask for them. */
export async function openFiles(files: Iterable<File>): Promise<void> {
  const read = await Promise.all(
    [...files].map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })),
  );
  const sites: KeptFile[] = [];
  const others: { file: KeptFile; looked: LookedAtFile }[] = [];
  for (const file of read) {
    const looked = await drawing.bench.lookAt(file.name, file.bytes);
    if (looked.kind === 'site') sites.push(file);
    else others.push({ file, looked });
  }
  const siteText = sites.length > 0 ? new TextDecoder().decode(sites[0].bytes) : state.text.value;
  const data: KeptFile[] = [];
  for (const { file, looked } of others) {
    const isLog = await drawing.bench.isLog(siteText, file.name, file.bytes);
    if (!isLog) data.push(file);
    const one = isLog ? { ...looked, kind: 'log' as const, issues: [], lines: [], entry: null } : looked;
    state.looked.value = [one, ...state.looked.value.filter(({ file }) => file !== one.file)];
  }
  if (data.length > 0) await give(data);
  if (sites.length > 0) return openSiteFile(sites[0]);
  state.view.value = 'files';
  await take();
}

/** Opens a site file where nothing in it is wrong; else says what is, and leaves the open one alone. */
async function openSiteFile({ name, bytes }: KeptFile): Promise<void> {
  const text = new TextDecoder().decode(bytes);
  const { ok, issues } = await drawing.bench.check(text, name);
  if (ok) return openText(text, name);
  state.refused.value = { file: name, text, issues };
  state.view.value = 'files';
  state.said.value = `${name} was not opened: ${issues.length} problems and doubts.`;
}

/** Gives files to the worker, and keeps them for when the page is opened again. */
export async function give(files: readonly KeptFile[]): Promise<void> {
  for (const { name, bytes } of files) putGiven(given, name, bytes);
  state.fileNames.value = [...given.keys()].sort();
  study.filesGiven.value++;
  await drawing.bench.giveFiles([...files]);
  await keepFiles([...given].map(([name, bytes]) => ({ name, bytes })));
}

/** Lets go of all files that were given; a site that names them must be given them again. */
export async function forgetFiles(): Promise<void> {
  given.clear();
  state.fileNames.value = [];
  state.looked.value = [];
  study.filesGiven.value++;
  await drawing.bench.forgetFiles();
  await keepFiles([]);
  await take();
}

/** Site files of a folder that the command line serves; null where none does. */
export function servedSites(): string[] | null {
  const list = document.getElementById('served-sites')?.textContent;
  return list ? (JSON.parse(list) as string[]) : null;
}

/** Opens a site of the served folder, with the files that it names. */
export async function openServed(site: string): Promise<void> {
  const ask = (what: string, more: Record<string, string> = {}) =>
    fetch(`${what}?${new URLSearchParams({ site, ...more })}`);
  const text = await (await ask('text')).text();
  const names = (await (await ask('named')).json()) as string[];
  const files = await Promise.all(
    names.map(async (file) => {
      const bytes = new Uint8Array(await (await ask('named', { file })).arrayBuffer());
      return { name: file, bytes };
    }),
  );
  if (files.length > 0) await give(files);
  await openSiteFile({ name: site, bytes: new TextEncoder().encode(text) });
}
