/**
 * The engine beside the same rules in C, in a plain Python loop and in a numba loop: whether they agree to the last
 * bit, and processor time per step, the least and the median of runs in turn, for the machine is shared.
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { runStudy } from '../../src/scenarios/run-study.ts';
import { simulate } from '../../src/sim/simulate.ts';
import { compare, type Run, readOutcome, writeRun } from './engine-file.ts';
import { makeFolder, type Runner, runnerOfC, runnerOfPython } from './language-runners.ts';

const SITES = resolve('profiles/sites');
const FOLDER = resolve('out/bench/other');
const INPUT = resolve(FOLDER, 'run.bin');
const OUTPUT = resolve(FOLDER, 'outcome.bin');

const ROUNDS = 5;
const RUNS_A_ROUND = 5;
/** Plain Python takes seconds a run: once a round, and not in every one. */
const SLOW_ROUNDS = 3;
const AIM = 2;

function farm(stepMin: number): Run[] {
  const { study } = runStudy({
    text: readFileSync(resolve(SITES, 'farm.yaml'), 'utf8'),
    file: 'farm.yaml',
    readFile: (path) => readFileSync(resolve(SITES, path)),
    version: 'bench',
    stepMin,
  });
  if (study === null) throw new Error('the farm does not run');
  return study.alternatives;
}

/** The farm in need, three ways: a third of the battery and no fuel when it is wanted, so that every shortage counts. */
function inNeed({ plant, controls, inputs }: Run): Run[] {
  const { battery, tank, generator, cabinet } = plant;
  if (!battery || !tank || !generator || !cabinet) throw new Error('the farm has all of these');
  const small = { ...battery, capacityKwh: 20, maxDischargeKw: 9, deadSoc: 0.08 };
  const hard = { ...plant, battery: small, tank: { ...tank, capacityL: 400, initialL: 300, leadH: 900 } };
  const charge = controls.charge && { ...controls.charge, tailKw: 2, tailH: 0.1 };
  const peak = controls.peak && { ...controls.peak, charges: false };
  return [
    { name: 'in need, phases trip', plant: hard, controls: { ...controls, charge, peak }, inputs },
    {
      name: 'in need, load shared',
      plant: { ...hard, generator: { ...generator, blackStart: false } },
      controls: { ...controls, peak, shortfall: 'partial', dcToAcOnLoad: true, restrictedEndsRun: true },
      inputs,
    },
    {
      name: 'in need, all phases trip, hot',
      plant: { ...hard, cabinet: { ...cabinet, sunApertureM2: 3, coolerKw: 0 } },
      controls: { ...controls, tripAllPhases: true, peakAssist: false, maxRunH: 1 },
      inputs,
    },
  ];
}

/** Says whether every number of every run is the same here and there; where not, which. */
function sayAgreement(language: string, runner: Runner, runs: readonly Run[], what: string): void {
  let count = 0;
  const differences: string[] = [];
  for (const run of runs) {
    writeRun(INPUT, run);
    runner(INPUT, OUTPUT, 1);
    const {
      totals,
      extremes,
      runs: engineRuns,
      outages,
      storedEndKwh,
      tankEndL,
    } = simulate(run.plant, run.controls, run.inputs);
    const ours = { totals, extremes, runs: engineRuns, outages, storedEndKwh, tankEndL };
    const compared = compare(ours, readOutcome(OUTPUT, run));
    count += compared.numbers;
    differences.push(...compared.differences.map((difference) => `${run.name}${difference}`));
  }
  const verdict = differences.length === 0 ? 'the same to the last bit' : `${differences.length} DIFFER`;
  console.log(`${language}: ${what}; ${count} totals, extremes and entries of the logs: ${verdict}`);
  for (const difference of differences.slice(0, 20)) console.log(`  ${difference}`);
  if (differences.length > 0) process.exitCode = 1;
}

function engineMs({ plant, controls, inputs }: Run): number {
  const before = process.cpuUsage();
  simulate(plant, controls, inputs);
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

function median(values: number[]): number {
  return values.slice().sort((a, b) => a - b)[Math.floor(values.length / 2)];
}

makeFolder(FOLDER);
const minute = farm(1);
const [hour] = farm(60);
const languages = [
  { name: 'C, gcc -O3', runner: runnerOfC(FOLDER), needs: 'gcc', rounds: ROUNDS },
  { name: 'Python, numba', runner: runnerOfPython(FOLDER, 'numba'), needs: 'python3-numba', rounds: ROUNDS },
  { name: 'Python, lists', runner: runnerOfPython(FOLDER, 'plain'), needs: 'python3', rounds: SLOW_ROUNDS },
];

const asMinutes = [...minute, ...inNeed(minute[0])];
const asHours = [hour, ...inNeed(hour)];
console.log(
  'The same rules in other languages (general step for every step; what the farm lacks is left out)',
);
for (const { name, runner, needs } of languages) {
  if (runner === null) console.log(`${name}: left out, there is no ${needs} on this machine`);
  else if (needs === 'gcc')
    sayAgreement(name, runner, [...asMinutes, ...asHours], 'the farm, its alternatives, the farm in need');
  else sayAgreement(name, runner, asHours, 'hours of the farm and of the farm in need');
}
console.log('A spreadsheet is left out: the rules are not written as cells.');

const [run] = minute;
writeRun(INPUT, run);
const engine: number[] = [];
const taken = new Map<string, number[]>(languages.map(({ name }) => [name, []]));
for (let round = 0; round < ROUNDS; round++) {
  for (const { name, runner, needs, rounds } of languages)
    if (runner !== null && round < rounds)
      taken.get(name)?.push(...runner(INPUT, OUTPUT, needs === 'python3' ? 1 : RUNS_A_ROUND));
  for (let j = 0; j < RUNS_A_ROUND; j++) engine.push(engineMs(run));
}

console.log('\nfarm, a year of minutes, processor time    least ms   median ms   ns/step   engine / this');
for (const [name, ms] of [['the engine', engine] as const, ...taken]) {
  if (ms.length === 0) continue;
  const least = Math.min(...ms);
  const perStep = (least * 1e6) / run.inputs.count;
  const ratio = Math.min(...engine) / least;
  console.log(
    `${name.padEnd(40)} ${least.toFixed(1).padStart(10)} ${median(ms).toFixed(1).padStart(11)} ${perStep.toFixed(0).padStart(9)} ${ratio.toPrecision(3).padStart(15)}`,
  );
}
const inC = taken.get('C, gcc -O3') ?? [];
if (inC.length > 0) {
  const ratio = Math.min(...engine) / Math.min(...inC);
  const medians = median(engine) / median(inC);
  console.log(
    `engine / C per step: ${ratio.toFixed(2)} by the least, ${medians.toFixed(2)} by the medians (aim: within ${AIM.toFixed(1)})`,
  );
}
