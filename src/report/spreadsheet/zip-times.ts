/** Marks of a zip file's records, and where in them the time stands: PKWARE APPNOTE 4.3 (from memory). */
const CENTRAL = 0x02014b50;
const END = 0x06054b50;
const TIME_IN_CENTRAL = 12;
const TIME_IN_LOCAL = 10;
/** 1 January 1980, 00:00: the first that a zip file can name. */
const NO_TIME = 0x00210000;

/**
 * A zip file without the time at which it was written: the same content gives the same bytes.
 * Errors: throws on what is no zip file; it is our own.
 */
export function withoutTimes(zip: Uint8Array): Uint8Array {
  const bytes = Uint8Array.from(zip);
  const view = new DataView(bytes.buffer);
  let end = bytes.length - 22;
  while (end >= 0 && view.getUint32(end, true) !== END) end--;
  if (end < 0) throw new Error('no zip file');
  let at = view.getUint32(end + 16, true);
  for (let entry = view.getUint16(end + 10, true); entry > 0; entry--) {
    if (view.getUint32(at, true) !== CENTRAL) throw new Error('a zip file with a broken list');
    view.setUint32(at + TIME_IN_CENTRAL, NO_TIME, true);
    view.setUint32(view.getUint32(at + 42, true) + TIME_IN_LOCAL, NO_TIME, true);
    const lengths = [28, 30, 32].map((place) => view.getUint16(at + place, true));
    at += 46 + lengths[0] + lengths[1] + lengths[2];
  }
  return bytes;
}
