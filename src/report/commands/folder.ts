import { basename, join } from 'node:path';
import type { Alternative } from '../../scenarios/alternatives.ts';
import { describeSheet } from '../../scenarios/data-sheet.ts';
import { hashText } from '../../scenarios/hash.ts';
import { type Issue, issueSentence } from '../../scenarios/issue.ts';
import { type Again, runStudy } from '../../scenarios/run-study.ts';
import type { Study } from '../../scenarios/study.ts';
import { moneyAtFuelPrice, whatIfs } from '../../scenarios/what-if.ts';
import { ownerReport, type Tongue } from '../owner/page.ts';
import { commissioningSheet } from '../sheet/page.ts';
import { workbook } from '../spreadsheet/workbook.ts';
import { LANGUAGES, textsOf } from '../texts/all.ts';
import { besideSite, printIssues, readSiteText, writeInPlace } from './files.ts';
import { findChromium, printPdf } from './print-pdf.ts';

export interface FolderOptions {
  out: string;
  /** yyyy-mm-dd, put on everything */
  date: string;
  /** name of the alternative that is handed over; left out: the site as filed */
  proposed?: string;
  /** BCP 47; left out: that of the site file, else en-GB */
  locale?: string;
  step?: number;
  pdf: boolean;
}

const USUAL_LOCALE = 'en-GB';

/**
 * `darkweek folder SITE`: everything for the customer and the technician in one folder, named by site and date. The
 * same inputs and date give the same bytes.
 */
export async function folderCommand(site: string, options: FolderOptions, version: string): Promise<void> {
  const text = readSiteText(site);
  if (text === null) return;
  const request = { text, file: site, readFile: besideSite(site), version, stepMin: options.step };
  const { study, again, issues } = runStudy(request);
  const asked = study && again && askedFor(study, again.alternatives, site, options);
  printIssues([...issues, ...(asked?.issues ?? [])]);
  if (!study || !again || !asked || asked.tongue === null || asked.proposed < 0) {
    process.exitCode = 1;
    return;
  }
  const files = await contents(study, again, { ...asked, tongue: asked.tongue }, options);
  files.set(basename(site), text);
  files.set('about.txt', about(study, files, options));
  const folder = join(options.out, `${plainName(study.site.name)}-${options.date}`);
  for (const [name, content] of files) writeInPlace(join(folder, name), content);
  process.stdout.write(`${[...files.keys()].sort().join('\n')}\nFolder: ${folder}\n`);
}

interface Asked {
  /** place of the alternative; -1: none of that name */
  proposed: number;
  tongue: Tongue | null;
  issues: Issue[];
}

/** Which alternative and which language, or what is wrong with what was asked for. */
function askedFor(
  study: Study,
  alternatives: readonly Alternative[],
  file: string,
  options: FolderOptions,
): Asked {
  const issues: Issue[] = [];
  const names = study.alternatives.map(({ name }) => name);
  const proposed = options.proposed === undefined ? 0 : names.indexOf(options.proposed);
  const wrong = (path: string, got: string, want: string) =>
    issues.push({ severity: 'error', code: 'folder', path, got, want, at: { file } });
  if (proposed < 0)
    wrong(
      '--proposed',
      `no alternative '${options.proposed}'`,
      names.map((name) => `'${name}'`).join(' or '),
    );
  const locale = options.locale ?? alternatives[0].site.site.locale ?? USUAL_LOCALE;
  const texts = isLocale(locale) ? textsOf(locale) : null;
  if (texts === null)
    wrong(
      'locale',
      `'${locale}'`,
      `a locale in a language that there are texts of (${Object.keys(LANGUAGES).join(', ')}), such as 'en-GB' or 'de-AT'`,
    );
  return { proposed, tongue: texts && { locale, texts }, issues };
}

function isLocale(text: string): boolean {
  try {
    return Intl.getCanonicalLocales(text).length === 1;
  } catch {
    return false;
  }
}

async function contents(
  study: Study,
  { alternatives, maker }: Again,
  { proposed, tongue }: { proposed: number; tongue: Tongue },
  options: FolderOptions,
): Promise<Map<string, string | Uint8Array>> {
  const result = study.alternatives[proposed];
  const alternative = alternatives[proposed];
  const sheet = commissioningSheet({ study, result, site: alternative.site }, options.date);
  const chromium = options.pdf ? findChromium() : null;
  if (options.pdf && chromium === null)
    process.stderr.write('No Chromium found: no PDF is written; print the pages from a browser instead.\n');
  // prints while the rest is worked out
  const sheetPdf = chromium ? printPdf(chromium, sheet, options.date) : null;
  const owner = ownerReport(
    {
      study,
      alternatives,
      proposed,
      whatIfs: whatIfs(alternative, result, maker),
      doubled: alternatives.map((each, i) => moneyAtFuelPrice(each, study.alternatives[i], 2)),
    },
    tongue,
    options.date,
  );
  const ownerPdf = chromium ? printPdf(chromium, owner, options.date) : null;
  const files = new Map<string, string | Uint8Array>([
    ['owner-report.html', owner],
    ['commissioning-sheet.html', sheet],
    ['figures.xlsx', await workbook(study, alternatives)],
    ['data-sheets.txt', dataSheets(study)],
  ]);
  for (const [name, pdf] of [
    ['owner-report.pdf', await ownerPdf],
    ['commissioning-sheet.pdf', await sheetPdf],
  ] as const)
    if (pdf) files.set(name, pdf);
    else if (chromium) process.stderr.write(`${name}: Chromium did not print it\n`);
  return files;
}

/** What is known about the files that were read, and every doubt about them. */
function dataSheets({ sheets, doubts }: Study): string {
  const lines = sheets.flatMap((sheet) => [...describeSheet(sheet), '']);
  const doubtful =
    doubts.length === 0 ? ['No doubts about the inputs.'] : ['Doubts:', ...doubts.map(issueSentence)];
  return `${[...lines, ...doubtful].join('\n')}\n`;
}

const CONTENTS: Record<string, string> = {
  'owner-report.html': 'for the owner: what they get, pay and do',
  'owner-report.pdf': 'the same, for print',
  'commissioning-sheet.html': 'for the technician at the cabinet, on a phone',
  'commissioning-sheet.pdf': 'the same, for print: one sheet of paper, both sides',
  'figures.xlsx': 'inputs, comparison, months, money by formulas, generator runs',
  'data-sheets.txt': 'what is known about the files that were read',
};

/** What lies in the folder, and what made it. */
function about(
  study: Study,
  files: ReadonlyMap<string, string | Uint8Array>,
  options: FolderOptions,
): string {
  const rows = [...files]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, content]) => `${hashText(content)}  ${name}: ${CONTENTS[name] ?? 'the site file'}`);
  return `${[
    study.site.name,
    `Made on ${options.date} by Darkweek ${study.made.version} from inputs ${study.made.inputsHash}.`,
    `Proposed: ${options.proposed ?? study.alternatives[0].name}. Steps of ${study.axis.stepMin} min.`,
    'The same inputs, version and date give the same bytes.',
    '',
    'Files and their fingerprints:',
    ...rows,
    '',
    'A design aid, not a wiring design. Work is done by licensed people to local codes.',
  ].join('\n')}\n`;
}

/** A name that every file system takes. */
function plainName(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return plain || 'site';
}
