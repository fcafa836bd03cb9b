import { readCsvByHeader } from './csv-header.ts';
import { readEpw } from './read-epw.ts';
import { looksLikeGreenButton, readGreenButton } from './read-greenbutton.ts';
import { looksLikeNem12, readNem12 } from './read-nem12.ts';
import { looksLikePvgis, readPvgis } from './read-pvgis.ts';
import { readTmy3 } from './read-tmy3.ts';
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
  /** of a NEM12 file with several */
  meter?: string;
}

/** Which reader takes a file, by its content, and why. */
export function chooseReader(bytes: Uint8Array): { reader: ReaderName; because: string } {
  const nem12 = looksLikeNem12(bytes);
  if (nem12) return { reader: 'nem12', because: nem12 };
  const greenbutton = looksLikeGreenButton(bytes);
  if (greenbutton) return { reader: 'greenbutton', because: greenbutton };
  const pvgis = looksLikePvgis(bytes);
  if (pvgis) return { reader: 'pvgis', because: pvgis };
  const [first = '', second = ''] = new TextDecoder('latin1').decode(bytes.subarray(0, 6000)).split(/\r?\n/);
  if (first.startsWith('LOCATION,')) return { reader: 'epw', because: 'first line begins with LOCATION' };
  if (/^Date \(MM\/DD\/YYYY\),/.test(second))
    return { reader: 'tmy3', because: 'second line is a TMY3 header' };
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
      return readEpw(bytes, file);
    case 'tmy3':
      return readTmy3(bytes, file);
    case 'csv':
      return readCsvByHeader(bytes, file, options);
  }
}
