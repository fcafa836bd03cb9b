/** Logs of plants that are well, and of plants with one fault of a size. */
import seedrandom from 'seedrandom';
import type { VisitGround } from '../../../src/scenarios/visit/ground.ts';
import type { FaultKind } from '../../../src/scenarios/visit/visit.ts';
import { MAKERS, type Maker, type Wrong } from './fault-makers.ts';
import { logOf } from './fault-recorders.ts';
import { groundOf, keptWorld, SITE_NAMES, STARTS, wellTruth } from './fault-worlds.ts';

/** A log that was made, and what is wrong in it: null where nothing is. */
export interface Made {
  ground: VisitGround;
  what: string;
  wrong: Wrong | null;
}

/** A log of a plant that is well; one in twelve by the plain simulator. */
export function wellCase(i: number, base: string): Made {
  const seed = `${base} well ${i}`;
  const draw = seedrandom(seed);
  const name = SITE_NAMES[i % 3];
  const start = STARTS[name][Math.floor(i / 3) % 3];
  const of = keptWorld(name, start, `${base} ${i % 2}`);
  const truth = wellTruth(of, `${base} ${i}`, i % 12 === 5);
  const what = `${name} from ${start}`;
  return {
    ground: groundOf(of, logOf(of, truth, draw, seed, draw() < 0.5 ? 'all' : [])),
    what,
    wrong: null,
  };
}

export function sizesOf(kind: FaultKind): Maker['sizes'] {
  return MAKERS[kind].sizes;
}

/** A log with one fault. */
export function faultyCase(kind: FaultKind, sizeIndex: number, i: number, base: string): Made {
  const { needs, where, sizes, make } = MAKERS[kind];
  const { size } = sizes[sizeIndex];
  const seed = `${base} ${kind} ${size} ${i}`;
  const draw = seedrandom(seed);
  const [name, season] = where[i % where.length];
  const of = keptWorld(name, STARTS[name][season], `${base} ${i % 2}`);
  const { record, wrong } = make({ of, size, draw, seed, needs });
  return { ground: groundOf(of, record), what: `${name} from ${of.start}`, wrong };
}
