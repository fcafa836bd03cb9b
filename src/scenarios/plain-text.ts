import type { Findings } from './findings.ts';

/**
 * Refuses bytes that hold no plain text, which would give an error each line: a zip archive, UTF-16, a program.
 * @returns true when it is refused; the error is then in the list
 */
export function refuseNoText(bytes: Uint8Array, list: Findings): boolean {
  const want = 'plain text in ASCII or UTF-8';
  if (bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4)
    list.error('zip', 'file', 'a zip archive', `${want}: unpack it first`);
  else if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
    list.error('encoding', 'file', 'text in UTF-16', want);
  else if (bytes.subarray(0, 1000).includes(0))
    list.error('encoding', 'file', 'zero bytes, as in UTF-16 or a program', want);
  return list.hasErrors;
}

/** The first letters of a file as a reader looks at them, those of UTF-16 too; without a byte-order mark. */
export function headText(bytes: Uint8Array, length: number): string {
  const text = new TextDecoder('latin1').decode(bytes.subarray(0, length));
  return text.replace(/^(\u00ef\u00bb\u00bf|\u00ff\u00fe|\u00fe\u00ff)/, '').replaceAll('\0', '');
}
