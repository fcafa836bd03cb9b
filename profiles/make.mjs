/**
 * Makes the demonstration data: loads and weather, all invented (series.mjs).
 * `node profiles/make.mjs` writes what is missing; with `--all` it writes everything anew.
 */
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { FILES } from './series.mjs';

const HERE = fileURLToPath(new URL('.', import.meta.url));

for (const [path, make] of Object.entries(FILES)) {
  const file = HERE + path;
  if (existsSync(file) && !process.argv.includes('--all')) continue;
  mkdirSync(file.slice(0, file.lastIndexOf('/')), { recursive: true });
  writeFileSync(file, make());
}
