import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];
const QUIET = [
  '--headless',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-extensions',
];
/** A browser that has not printed by then never will [ms]. */
const PATIENCE_MS = 30_000;

/** Where Chromium is installed; null where it is not. */
export function findChromium(path = process.env.PATH ?? ''): string | null {
  for (const folder of path.split(delimiter))
    for (const name of NAMES) if (folder !== '' && existsSync(join(folder, name))) return join(folder, name);
  return null;
}

/**
 * Prints a page to PDF with Chromium: tagged, with an outline of its headings and real text.
 * @param page the page as HTML; @param madeOn yyyy-mm-dd, the date that the file bears
 * @returns the PDF; null where the browser failed
 */
export async function printPdf(chromium: string, page: string, madeOn: string): Promise<Uint8Array | null> {
  const folder = mkdtempSync(join(tmpdir(), 'darkweek-print-'));
  const source = join(folder, 'page.html');
  const target = join(folder, 'page.pdf');
  try {
    writeFileSync(source, page);
    // Chromium refuses to run as root inside its own sandbox
    const root = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
    await ended(chromium, [
      ...QUIET,
      ...root,
      `--user-data-dir=${join(folder, 'profile')}`,
      '--no-pdf-header-footer',
      '--export-tagged-pdf',
      '--generate-pdf-document-outline',
      `--print-to-pdf=${target}`,
      `file://${source}`,
    ]);
    return existsSync(target) ? repeatable(readFileSync(target), madeOn) : null;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Of a tagged element in a PDF by Chromium. */
const ELEMENT_NAME = /(?<=\()node\d{8}(?=\))/g;

/**
 * The same file in a form that can be made again: the date given in place of the moment of printing, and names of
 * tagged elements counted from 1, where Chromium's begin somewhere.
 */
export function repeatable(pdf: Uint8Array, madeOn: string): Uint8Array {
  const day = `D:${madeOn.replaceAll('-', '')}000000+00'00'`;
  const text = Buffer.from(pdf).toString('latin1');
  // in their order, and each as long as it was: the tree of names stays sorted, and places in the file stay true
  const names = [...new Set(text.match(ELEMENT_NAME))].sort();
  const renamed = new Map(names.map((name, i) => [name, `node${String(i + 1).padStart(8, '0')}`]));
  const again = text
    .replace(/D:\d{14}\+00'00'/g, (moment) => (moment.length === day.length ? day : moment))
    .replace(ELEMENT_NAME, (name) => renamed.get(name) ?? name);
  return Buffer.from(again, 'latin1');
}

function ended(command: string, args: readonly string[]): Promise<void> {
  return new Promise((done) => {
    const child = spawn(command, args, { stdio: 'ignore', timeout: PATIENCE_MS });
    child.on('error', () => done());
    child.on('exit', () => done());
  });
}
