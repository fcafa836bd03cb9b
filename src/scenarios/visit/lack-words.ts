import { RECORDED, type Recorded } from '../log/site-record.ts';
import type { Lack } from './faults/fault-terms.ts';

const WORDS: Record<Exclude<Lack, Recorded>, string> = {
  'each-array': 'the output of each array',
  'each-phase': 'the load of each phase',
  engine: 'a column that tells when the engine runs',
  'part-arrays': 'arrays',
  'part-battery': 'a battery',
  'part-three-phases': 'three phases',
  'part-generator': 'a generator',
  'part-heater': 'a heater',
  'part-cooler': 'a cooler',
  'part-tank': 'a tank',
  'one-generator': 'a log of one generator alone',
  lithium: 'a lithium battery',
  'enough-days': 'enough days',
  'enough-runs': 'enough runs of the generator',
  'enough-full-charges': 'enough full charges',
};

/** What a fault could not be looked for without, in words; columns stay as their keys. */
export function lackWords(lacks: readonly Lack[]): string {
  const isColumn = (lack: Lack): lack is Recorded => (RECORDED as readonly string[]).includes(lack);
  return lacks.map((lack) => (isColumn(lack) ? lack : WORDS[lack])).join(', ');
}
