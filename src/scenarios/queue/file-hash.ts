import { createHash } from 'node:crypto';

const known = new WeakMap<Uint8Array, string>();

/** SHA-256 of bytes, 64 hexadecimal digits; worked out once for the same array. */
export function fileHash(bytes: Uint8Array): string {
  const hash = known.get(bytes) ?? textHash(bytes);
  known.set(bytes, hash);
  return hash;
}

export function textHash(data: string | Uint8Array): string {
  return createHash('sha256').update(data).digest('hex');
}

/** Names and hashes of files, in the order of the names. */
export function hashesOf(files: Readonly<Record<string, Uint8Array>>): Record<string, string> {
  const names = Object.keys(files).sort();
  return Object.fromEntries(names.map((name) => [name, fileHash(files[name])]));
}

/** The same for the same files under the same names. */
export function filesKey(files: Readonly<Record<string, Uint8Array>>): string {
  return JSON.stringify(hashesOf(files));
}
