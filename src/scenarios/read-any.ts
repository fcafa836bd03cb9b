import { readCsvByHeader } from './csv-header.ts';
import { type EpwOptions, looksLikeEpw, readEpw } from './read-epw.ts';
import { looksLikeGreenButton, readGreenButton } from './read-greenbutton.ts';
import { looksLikeNem12, readNem12 } from './read-nem12.ts';
import { looksLikePvgis, readPvgis } from './read-pvgis.ts';
import { looksLikeTmy3, readTmy3 } from './read-tmy3.ts';
import type { ReaderName } from './readers.ts';
import type { ReadResult } from './series.ts';

/** What a file without declared columns may be told. */
export interface AnyOptions {
  /** read it as this, whatever it looks like */
  reader?: ReaderName;
  /** of a plain CSV */
  stamp?: 'start' | 'end';
  timeZone?: string;
  dateOrder?: 'ymd' | 'dmy' | 'mdy';
  /** of an EPW file that is not a year */
  period?: EpwOptions['period'];
  /** of a NEM12 file with several */
  meter?: string;
}

/** Readers that know their files by what they hold, in the order in which they look; each says why. */
const LOOKS: readonly [ReaderName, (head: Uint8Array) => string | null][] = [
  ['nem12', looksLikeNem12],
  ['greenbutton', looksLikeGreenButton],
  ['pvgis', looksLikePvgis],
  ['epw', looksLikeEpw],
  ['tmy3', looksLikeTmy3],
];

/** Which reader takes a file, by its content, and why. */
export function chooseReader(bytes: Uint8Array): { reader: ReaderName; because: string } {
  for (const [reader, looksLike] of LOOKS) {
    const because = looksLike(bytes);
    if (because) return { reader, because };
  }
  return { reader: 'csv', because: 'nothing else takes it' };
}

/** Reads a file of any kind; its data sheet says which reader took it and why. */
export function readAny(bytes: Uint8Array, file: string, options: AnyOptions = {}): ReadResult {
  const chosen = options.reader ? { reader: options.reader, because: 'asked for' } : chooseReader(bytes);
  const result = readAs(chosen.reader, bytes, file, options);
  const sheet = result.sheet && { ...result.sheet, reader: chosen.reader, chosenBecause: chosen.because };
  return { ...result, sheet };
}

function readAs(reader: ReaderName, bytes: Uint8Array, file: string, options: AnyOptions): ReadResult {
  switch (reader) {
    case 'nem12':
      return readNem12(bytes, file, { meter: options.meter });
    case 'greenbutton':
      return readGreenButton(bytes, file);
    case 'pvgis':
      return readPvgis(bytes, file);
    case 'epw':
      return readEpw(bytes, file, { period: options.period });
    case 'tmy3':
      return readTmy3(bytes, file);
    case 'csv':
      return readCsvByHeader(bytes, file, options);
  }
}
