import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { namedFiles } from '../../scenarios/named-files.ts';
import { parseSite } from '../../scenarios/site-document.ts';

export interface WorkbenchOptions {
  port: number;
}

/** `darkweek workbench FOLDER`: serves the workbench and the folder's site files to browsers on this machine. */
export function workbenchCommand(folder: string, { port }: WorkbenchOptions): void {
  const page = pagePath();
  if (!existsSync(folder) || page === null) {
    process.stderr.write(
      page ? `${folder}: no such folder\n` : 'no workbench.html: npm run build makes it\n',
    );
    process.exitCode = 1;
    return;
  }
  const server = createServer((request, response) => answer(request, response, folder, page));
  server.on('error', (error: NodeJS.ErrnoException) => {
    const taken = error.code === 'EADDRINUSE';
    process.stderr.write(taken ? `port ${port} is taken: --port chooses another\n` : `${error.message}\n`);
    process.exitCode = 1;
  });
  // only this machine: what is in the folder is nobody else's business
  server.listen(port, '127.0.0.1', () => {
    const address = server.address();
    const at = typeof address === 'object' && address ? address.port : port;
    process.stdout.write(`Workbench of ${folder}: http://127.0.0.1:${at}/ (Ctrl-C ends it)\n`);
  });
}

/** Beside the bundled command line, or built in this folder. */
function pagePath(): string | null {
  const here = dirname(fileURLToPath(import.meta.url));
  return [join(here, 'workbench.html'), resolve('dist/workbench.html')].find(existsSync) ?? null;
}

/** Names of site files in a folder. */
function sitesIn(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => /\.(ya?ml|json)$/i.test(name))
    .sort();
}

interface Answer {
  status: number;
  type: string;
  content: string | Uint8Array;
}

function answer(request: IncomingMessage, response: ServerResponse, folder: string, page: string): void {
  let found: Answer;
  try {
    found = answerTo(request, folder, page);
  } catch (error) {
    found = { status: 500, type: 'text/plain', content: (error as Error).message };
  }
  response.writeHead(found.status, { 'content-type': found.type, 'cache-control': 'no-store' });
  response.end(found.content);
}

/** The page, a site file of the folder, or a file that such a site file names; nothing else. */
function answerTo({ headers, url }: IncomingMessage, folder: string, page: string): Answer {
  const refused = (status: number, content: string) => ({ status, type: 'text/plain', content });
  // a page elsewhere that gives this machine a name of its own must get nothing
  if (!/^(127\.0\.0\.1|localhost)(:\d+)?$/.test(headers.host ?? '')) return refused(403, 'not this machine');
  const { pathname, searchParams } = new URL(url ?? '/', 'http://localhost');
  if (pathname === '/')
    return { status: 200, type: 'text/html; charset=utf-8', content: withSites(page, folder) };
  const site = searchParams.get('site') ?? '';
  if (!sitesIn(folder).includes(site)) return refused(404, 'no such site');
  const text = readFileSync(join(folder, site), 'utf8');
  if (pathname === '/text') return { status: 200, type: 'text/plain; charset=utf-8', content: text };
  const named = namedFiles(simulatedOf(parseSite(text, site).document?.value)).filter((name) =>
    existsSync(resolve(folder, name)),
  );
  const file = searchParams.get('file');
  if (pathname !== '/named' || (file !== null && !named.includes(file)))
    return refused(404, 'not named by the site file');
  if (file === null) return { status: 200, type: 'application/json', content: JSON.stringify(named) };
  const content = readFileSync(resolve(folder, file));
  return { status: 200, type: 'application/octet-stream', content };
}

/** What of a site file is simulated: all but its log, which may be large and is for a return visit. */
function simulatedOf(value: unknown): unknown {
  return typeof value === 'object' && value !== null ? { ...value, log: null } : value;
}

/** The page with the names of the folder's site files. */
function withSites(page: string, folder: string): string {
  const list = JSON.stringify(sitesIn(folder)).replaceAll('<', '\\u003c');
  const element = `<script type="application/json" id="served-sites">${list}</script>`;
  return readFileSync(page, 'utf8').replace('<div id="page">', () => `${element}<div id="page">`);
}
