import type { Cause, Visit } from '../../scenarios/visit/visit.ts';
import { digits } from '../numbers.ts';

/** Load that differs by less than this differs in its hours, not in its amount. */
const SAME_FRAC = 0.01;

type Words = { more: string; less: string };

/** What raises and what lowers the generator's work; the load is told by how much of it there was. */
const CAUSE_WORDS: Record<Exclude<Cause['kind'], 'load'>, Words> = {
  sun: { more: 'less sun than the weather year', less: 'more sun than the weather year' },
  array: { more: 'arrays give less than the sun allows', less: 'arrays give more than was reckoned' },
  'sun-or-array': {
    more: 'less from the arrays (sun or arrays, not told apart)',
    less: 'more from the arrays (sun or arrays, not told apart)',
  },
  battery: {
    more: 'battery holds or gives back less than named',
    less: 'battery holds or gives back more than named',
  },
  standby: { more: 'more standby draw than reckoned', less: 'less standby draw than reckoned' },
  thresholds: {
    more: 'other start and stop settings than on the sheet',
    less: 'other start and stop settings than on the sheet',
  },
  charging: {
    more: 'generator charges otherwise than is set',
    less: 'generator charges otherwise than is set',
  },
  hours: {
    more: 'restricted hours or test runs not as set',
    less: 'restricted hours or test runs not as set',
  },
  cabinet: {
    more: 'cabinet colder or hotter than reckoned',
    less: 'cabinet colder or hotter than reckoned',
  },
  engine: {
    more: 'engine burns more than its fuel curve',
    less: 'engine burns less than its fuel curve',
  },
  unexplained: { more: 'not explained', less: 'not explained' },
};

/** A cause in a few words, to stand in a list: "more load than planned (+11 %)". @param step what it changed */
export function causeWords(kind: Cause['kind'], step: number, visit: Visit): string {
  if (kind === 'load') return loadWords(visit);
  return step >= 0 ? CAUSE_WORDS[kind].more : CAUSE_WORDS[kind].less;
}

function loadWords({ comparison: { designed, ran } }: Visit): string {
  const grown = designed.loadKwh && ran.loadKwh !== null ? ran.loadKwh / designed.loadKwh - 1 : null;
  if (grown === null) return 'load that was not planned';
  if (Math.abs(grown) < SAME_FRAC) return 'load at other times than planned';
  const share = `${digits(Math.abs(100 * grown))} %`;
  return grown > 0 ? `more load than planned (+${share})` : `less load than planned (−${share})`;
}
