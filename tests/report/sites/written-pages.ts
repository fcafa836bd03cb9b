import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Every page that was written into a folder and the folders in it, by its path there, each as its bytes. */
export function pagesOf(folder: string): Map<string, string> {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  const pages = names.filter((name) => name.endsWith('.html')).sort();
  return new Map(pages.map((name) => [name, readFileSync(join(folder, name), 'latin1')]));
}
