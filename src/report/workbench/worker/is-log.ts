import { parseSite } from '../../../scenarios/site-document.ts';
import { baseName } from '../given-files.ts';

/** So much of a file is searched for its header [bytes]. */
const HEAD_BYTES = 20_000;

/**
 * Whether a file is the site's own log, as the site file declares it: its name, and every header cell. The name alone
 * will not do, for a load file in another folder may have the same.
 */
export function isLogOf(siteText: string, name: string, bytes: Uint8Array): boolean {
  const site = parseSite(siteText, 'site').document?.value as { log?: unknown } | null | undefined;
  const { file, columns } = (site?.log ?? {}) as { file?: unknown; columns?: unknown };
  if (typeof file !== 'string' || baseName(file) !== baseName(name)) return false;
  const cells = typeof columns === 'object' && columns !== null ? Object.keys(columns) : [];
  if (cells.length === 0) return false;
  const head = new TextDecoder().decode(bytes.subarray(0, HEAD_BYTES)).split(/\r?\n/);
  return head.some((line) => {
    const there = new Set(line.split(/[,;\t]/).map((cell) => cell.trim().replace(/^"(.*)"$/, '$1')));
    return cells.every((cell) => there.has(cell));
  });
}
