/** Random sites as they really are, with the log that an imperfect recorder makes of each, and what is true of them. */
import { readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import seedrandom from 'seedrandom';
import { Cache } from '../../../../src/scenarios/cache.ts';
import { recordTruth } from '../../../../src/scenarios/log/recorder.ts';
import { simulateTruth } from '../../../../src/scenarios/log/truth.ts';
import { type VisitGround, visitGround } from '../../../../src/scenarios/visit/ground.ts';
import { imperfect, traitsOf, writtenAndRead } from './careless.ts';
import { between, drawnSite, type Known, variedLoad } from './drawn-site.ts';
import { naiveStretch } from './naive-stretch.ts';

const SITES = resolve(import.meta.dirname, '../../../../profiles/sites');

/** A site in a season: what several cases share. */
interface World {
  name: string;
  text: string;
  file: string;
  stepMin: 5 | 10;
  cache: Cache;
}

export interface Case {
  name: string;
  ground: VisitGround;
  truth: Known;
}

/** 'ac': its large array is coupled on the AC side. */
const PLAN: [site: string, start: string, days: number, stepMin: 5 | 10, coupling?: 'ac'][] = [
  ['farm', '2025-01-05', 75, 10],
  ['farm', '2025-03-01', 70, 10],
  ['farm', '2025-06-10', 60, 5],
  ['farm', '2025-08-20', 120, 10],
  ['workshop', '2025-01-10', 60, 10],
  ['workshop', '2025-05-01', 80, 10],
  ['workshop', '2025-09-01', 60, 5],
  ['hut', '2025-02-01', 70, 10],
  ['hut', '2025-05-15', 65, 5],
  ['farm', '2025-04-01', 70, 10, 'ac'],
];

export function makeWorlds(): World[] {
  return PLAN.map(([site, start, days, stepMin, coupling]) => {
    const file = join(SITES, `${site}.yaml`);
    const text = readFileSync(file, 'utf8')
      .replace(/^period:.*$/m, `period: { start: ${start}, days: ${days}, stepMin: 5 }`)
      // the log that is in the file is of another story
      .replace(/^log:\n( .*\n)+/m, '')
      .replace(
        coupling ? 'coupling: dc\n    controllerA: 300' : '',
        coupling ? 'coupling: ac\n    inverterKw: 14' : '',
      );
    return { name: `${site} ${start}${coupling ? ' ac' : ''}`, text, file, stepMin, cache: new Cache() };
  });
}

/** Every case of a seed is the same. Every twentieth log is made by the plain simulator, every seventh read from a file. */
export function makeCase(worlds: readonly World[], n: number, seed: string): Case {
  const world = worlds[n % worlds.length];
  const draw = seedrandom(`${seed} ${n}`);
  const { text, file, cache } = world;
  const readFile = (path: string) => readFileSync(join(dirname(file), path));
  const shared = () => new Cache(cache.entries());
  const { site } = visitGroundOf(world, readFile);
  const { changes, truth } = drawnSite(site, draw);
  const factor = between(draw, 0.7, 1.4);
  truth.loadFactor = factor;
  const isRead = n % 7 === 5;
  const traits = { stepMin: world.stepMin, phases: site.inverter.phases };
  const made = simulateTruth({
    ...{ text, file, readFile, stepMin: isRead ? 1 : 5, cache: shared() },
    stretches: [{ fromDay: 0, changes, edit: (inputs) => variedLoad(inputs, factor, draw) }],
    ...(n % 19 === 3 && !isRead && { engine: naiveStretch }),
  });
  if (Array.isArray(made)) throw new Error(JSON.stringify(made));
  const seen = imperfect(recordTruth(made, traitsOf({ ...traits, seed: `${seed} ${n}` }, draw)), draw);
  const record = isRead ? writtenAndRead(seen, text, draw, `${seed} ${n}`) : seen;
  const { ground, issues } = visitGround({ text, file, readFile, cache: shared() }, record);
  if (ground === null) throw new Error(JSON.stringify(issues));
  return { name: `${n} ${world.name}`, ground, truth };
}

const grounds = new WeakMap<World, VisitGround>();

/** The site as filed with an empty log: it fills the world's cache. */
function visitGroundOf(world: World, readFile: (path: string) => Uint8Array): VisitGround {
  const known = grounds.get(world);
  if (known) return known;
  const { text, file, cache } = world;
  const made = simulateTruth({
    text,
    file,
    readFile,
    stepMin: 5,
    cache,
    stretches: [{ fromDay: 0, changes: {} }],
  });
  if (Array.isArray(made)) throw new Error(JSON.stringify(made));
  const record = recordTruth(
    made,
    traitsOf({ stepMin: world.stepMin, phases: 1, seed: 'first' }, () => 0.5),
  );
  const { ground, issues } = visitGround({ text, file, readFile, cache }, record);
  if (ground === null) throw new Error(JSON.stringify(issues));
  grounds.set(world, ground);
  return ground;
}
