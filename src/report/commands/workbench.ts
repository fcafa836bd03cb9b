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

function answer(request: IncomingMessage, response: ServerResponse, folder: string, page: string): void {
  const send = (status: number, type: string, content: string | Uint8Array) => {
    response.writeHead(status, { 'content-type': type, 'cache-control': 'no-store' });
    response.end(content);
  };
  // a page elsewhere that gives this machine a name of its own must get nothing
  if (!/^(127\.0\.0\.1|localhost)(:\d+)?$/.test(request.headers.host ?? ''))
    return send(403, 'text/plain', '');
  const { pathname, searchParams } = new URL(request.url ?? '/', 'http://localhost');
  const site = searchParams.get('site') ?? searchParams.get('name') ?? '';
  try {
    if (pathname === '/') return send(200, 'text/html; charset=utf-8', withSites(page, folder));
    // only what lies in the folder, and only files that a site file there names
    if (!sitesIn(folder).includes(site)) return send(404, 'text/plain', 'no such site');
    const text = readFileSync(join(folder, site), 'utf8');
    if (pathname === '/site') return send(200, 'text/plain; charset=utf-8', text);
    const named = namedFiles(parseSite(text, site).document?.value);
    const file = searchParams.get('file');
    if (pathname === '/named' && file === null)
      return send(
        200,
        'application/json',
        JSON.stringify(named.filter((name) => existsSync(join(folder, name)))),
      );
    if (pathname === '/named' && file !== null && named.includes(file))
      return send(200, 'application/octet-stream', readFileSync(join(folder, file)));
    send(404, 'text/plain', 'not named by the site file');
  } catch (error) {
    send(500, 'text/plain', (error as Error).message);
  }
}

/** The page with the names of the folder's site files. */
function withSites(page: string, folder: string): string {
  const list = JSON.stringify(sitesIn(folder)).replaceAll('<', '\\u003c');
  const element = `<script type="application/json" id="served-sites">${list}</script>`;
  return readFileSync(page, 'utf8').replace('<div id="page">', () => `${element}<div id="page">`);
}
