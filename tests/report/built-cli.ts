/** Where the built command line is; also from what vite bundles into out/bench. */
import { resolve } from 'node:path';

export const CLI = resolve(import.meta.dirname, '../../dist/cli.js');

/** How a command is run there: in a folder, its output as text without colours. */
export const inFolder = (folder: string) =>
  ({ cwd: folder, encoding: 'utf8', env: { ...process.env, NO_COLOR: '1' } }) as const;
