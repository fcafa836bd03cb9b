import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/** Where LibreOffice is installed; null where it is not. */
export function findOffice(): string | null {
  const folders = (process.env.PATH ?? '').split(delimiter);
  for (const folder of folders)
    for (const name of ['soffice', 'libreoffice'])
      if (existsSync(join(folder, name))) return join(folder, name);
  return null;
}
