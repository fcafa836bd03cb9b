import { join } from 'node:path';
import { isUsable } from '../../scenarios/issue.ts';
import { readLog } from '../../scenarios/log/read-log.ts';
import type { RecordResult } from '../../scenarios/log/site-record.ts';
import { parseSite } from '../../scenarios/site-document.ts';
import { readSite } from '../../scenarios/site-file.ts';
import { logPage } from '../log/page.ts';
import { describeRecord } from '../log/record-words.ts';
import { besideSite, printIssues, readSiteText, writeInPlace } from './files.ts';

export interface LogOptions {
  out: string;
  json?: boolean;
}

/** `darkweek log SITE`: the data sheet and every doubt of the site's own log; a page with a picture of each column. */
export function logCommand(site: string, options: LogOptions): void {
  const text = readSiteText(site);
  if (text === null) return;
  const parsed = parseSite(text, site);
  const read = parsed.document && readSite(parsed.document);
  const issues = [...parsed.issues, ...(read?.issues ?? [])];
  if (!parsed.document || !read?.site) {
    printIssues(issues);
    process.exitCode = 1;
    return;
  }
  const { placeOf } = parsed.document;
  const result = readLog(read.site, besideSite(site), placeOf);
  // doubts about the design are no part of this
  if (options.json) process.stdout.write(`${JSON.stringify(recordJson(result), null, 2)}\n`);
  else {
    if (result.record) process.stdout.write(`${describeRecord(result.record).join('\n')}\n`);
    printIssues(result.issues);
  }
  if (!isUsable(result.issues) || result.record === null) {
    process.exitCode = 1;
    return;
  }
  if (options.json) return;
  const page = join(options.out, 'log.html');
  writeInPlace(page, logPage(read.site, result.record, result.issues));
  process.stdout.write(`Page: ${page}\n`);
}

/** Sheet and doubts; values are left to whoever reads the file. What no row has is null. */
function recordJson({ record, issues }: RecordResult) {
  return { axis: record?.axis ?? null, sheet: record?.sheet ?? null, issues };
}
