import { RECORDED, type Recorded } from '../../scenarios/log/site-record.ts';

const COLUMN_WORDS: Record<Recorded, string> = {
  socFrac: 'state of charge',
  loadKw: 'load',
  load1Kw: 'load of phase 1',
  load2Kw: 'load of phase 2',
  load3Kw: 'load of phase 3',
  arrayKw: 'array output',
  batteryKw: 'battery power',
  generatorKw: 'generator power',
  generatorOn: 'engine running',
  fuelL: 'fuel level',
  cabinetC: 'cabinet air',
  cellC: 'battery cells',
  outsideC: 'outside air',
  sunWPerM2: 'sun',
};

/** What a column of a log holds: "state of charge", "output of array barn". @param is as in the log's data sheet */
export function columnName(is: string): string {
  if (is.startsWith('array:')) return `output of array ${is.slice('array:'.length)}`;
  return is in COLUMN_WORDS ? COLUMN_WORDS[is as Recorded] : is;
}

const KEYS = new RegExp(`\\b(${RECORDED.join('|')})\\b`, 'g');

/** The same wherever keys of columns stand in a text. */
export function withColumnNames(text: string): string {
  return text
    .replace(KEYS, (key) => COLUMN_WORDS[key as Recorded])
    .replace(/\barray:(\S)/g, 'output of array $1');
}
