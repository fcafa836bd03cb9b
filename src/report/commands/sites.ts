import { appendFileSync, existsSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { hashText } from '../../scenarios/hash.ts';
import { missingParts, shareOfPart } from '../../scenarios/many/work-part.ts';
import type { Job } from '../../scenarios/queue/job.ts';
import { QueueTrouble } from '../../scenarios/queue/redis.ts';
import { runJobs } from '../../scenarios/queue/run-jobs.ts';
import { jobId, storedJob } from '../../scenarios/queue/stored-job.ts';
import { keptVisits, visitLine } from '../../scenarios/sites/kept-visits.ts';
import { visitJob } from '../../scenarios/sites/site-jobs.ts';
import type { SiteRank } from '../../scenarios/visit/site-rank.ts';
import { sitesPage } from '../sites/page.ts';
import { visitPlaces } from '../sites/places.ts';
import { sitesTerminal } from '../sites/terminal.ts';
import { visitPages } from '../visit/page.ts';
import { note, noteBesideProgress, printIssues, writeInPlace } from './files.ts';
import { keptPath, partFiles, partSentence } from './parts.ts';
import { makeProgressLine } from './progress-line.ts';
import { sitesOfFolder } from './sites-folder.ts';
import type { SpreadOptions } from './spread-options.ts';
import type { Terminal } from './work.ts';

export interface SitesOptions extends SpreadOptions {
  out: string;
  workers?: number;
  /** whether new settings are looked for too */
  retune?: boolean;
  json?: boolean;
}

/** Finished visits; parts have files of their own beside it. */
const KEPT_FILE = 'visits.jsonl';

/** Sites whose files are in memory, or at the queue, at a time. */
const AT_A_TIME = 32;

/** A site's visit to be made, and the name of that work. */
interface Wanted {
  id: string;
  job: Job<'visit'>;
}

/**
 * `darkweek sites FOLDER`: a visit to each site of a folder by its log, and a list of who needs somebody. Each visit
 * is kept as soon as it is finished, and the same command goes on from there.
 */
export async function sitesCommand(
  folder: string,
  options: SitesOptions,
  version: string,
  terminal: Terminal,
): Promise<void> {
  const jobs = jobsOf(folder, version, options.retune === true);
  if (jobs === null) {
    process.exitCode = 1;
    return;
  }
  const file = keptPath(options.out, KEPT_FILE, options.shard);
  const ranks = options.merge ? merged(jobs, options.merge) : await visited(jobs, file, options, terminal);
  if (ranks === null) process.exitCode = 1;
  else if (options.shard)
    process.stdout.write(partSentence(options.shard, `${ranks.length} of ${jobs.length} sites`, file));
  else show(folder, ranks, version, options, terminal);
}

function jobsOf(folder: string, version: string, retunes: boolean): Wanted[] | null {
  const sites = sitesOfFolder(folder);
  if (sites === null) note(`${folder}: no such folder; expected one with site files`);
  else if (sites.length === 0)
    note(`${folder}: no site file in it; expected YAML or JSON with a 'site' at its top`);
  if (sites === null || sites.length === 0) return null;
  return sites.map((site) => {
    const job = visitJob(site, version, retunes);
    return { id: jobId(storedJob(job)), job };
  });
}

/** Makes the visits that are not kept, or those of a part; null, and said, where there is trouble with the queue. */
async function visited(
  jobs: readonly Wanted[],
  file: string,
  { shard: part, queue, workers }: SitesOptions,
  terminal: Terminal,
): Promise<SiteRank[] | null> {
  const known = keptVisits(existsSync(file) ? readFileSync(file, 'utf8') : '');
  if (known.size === 0) writeInPlace(file, '');
  const wanted = part ? shareOfPart(jobs, part) : [...jobs];
  const open = wanted.filter(({ id }) => !known.has(id));
  if (open.length < wanted.length)
    note(`${wanted.length - open.length} finished visits are known from ${file}`);
  const line = makeProgressLine('sites', wanted.length - open.length, terminal.showsProgress);
  const how = queue
    ? { queue, onNote: noteBesideProgress(terminal) }
    : { workers: workers ?? availableParallelism() };
  let done = 0;
  line.at(0, open.length);
  try {
    for (let from = 0; from < open.length; from += AT_A_TIME) {
      const some = open.slice(from, from + AT_A_TIME);
      await runJobs(
        some.map(({ job }) => job),
        how,
        (index, rank) => {
          appendFileSync(file, visitLine(some[index].id, rank));
          known.set(some[index].id, rank);
          line.at(++done, open.length);
        },
      );
    }
  } catch (error) {
    if (!(error instanceof QueueTrouble)) throw error;
    line.clear();
    note(error.message);
    return null;
  }
  line.clear();
  return ranksOf(wanted, known);
}

/** Visits from the files of all parts; null, and listed, where some are missing. */
function merged(jobs: readonly Wanted[], folders: readonly string[]): SiteRank[] | null {
  const found = partFiles(KEPT_FILE, folders);
  const known = new Map(found.flatMap(({ text }) => [...keptVisits(text)]));
  const there = found.map(({ part }) => part);
  const missing = missingParts(jobs, ({ id }) => known.has(id), there, 'sites', folders);
  printIssues(missing);
  return missing.length > 0 ? null : ranksOf(jobs, known);
}

function ranksOf(jobs: readonly Wanted[], known: ReadonlyMap<string, SiteRank>): SiteRank[] {
  return jobs.map(({ id }) => known.get(id) as SiteRank);
}

function show(
  folder: string,
  ranks: readonly SiteRank[],
  version: string,
  { out, json }: SitesOptions,
  { columns }: Terminal,
): void {
  if (json) {
    process.stdout.write(`${JSON.stringify(ranks, null, 2)}\n`);
    return;
  }
  const heading = { name: basename(resolve(folder)), made: { version, inputsHash: hashOf(ranks) } };
  process.stdout.write(`${sitesTerminal(ranks, columns)}\n`);
  const places = visitPlaces(ranks);
  for (const { file, visit } of ranks)
    if (visit)
      for (const page of visitPages(visit, null))
        writeInPlace(join(out, places.get(file) ?? file, page.file), page.html);
  const page = join(out, 'sites.html');
  writeInPlace(page, sitesPage(ranks, heading));
  process.stdout.write(`Page: ${page}\nVisits: a folder for each site beside it\n`);
}

function hashOf(ranks: readonly SiteRank[]): string {
  return hashText(ranks.map(({ file, visit }) => `${file} ${visit?.made.inputsHash ?? ''}`).join('\n'));
}
