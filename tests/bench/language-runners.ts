/** Builds and runs the yardsticks in other languages; null where the machine does not have the language. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { writeSlots } from './engine-file.ts';

const SOURCE = resolve('tests/bench');

/** Runs a file of numbers so many times, leaves the outcome of the last; processor time of each run [ms]. */
export type Runner = (input: string, output: string, times: number) => number[];

/** An empty folder for what is built and written, with the slots in it. */
export function makeFolder(folder: string): void {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeSlots(resolve(folder, 'slots.h'), resolve(folder, 'slots.py'));
}

/** By gcc with all its speed but none that changes a bit: no contraction of a·b + c, no reordering of sums. */
export function runnerOfC(folder: string): Runner | null {
  const program = resolve(folder, 'engine');
  const flags = ['-O3', '-march=native', '-ffp-contract=off', '-fno-math-errno', '-Wall', '-I', folder];
  const built = spawnSync('gcc', [...flags, resolve(SOURCE, 'engine.c'), '-o', program, '-lm'], {
    encoding: 'utf8',
  });
  if (built.error) return null;
  if (built.status !== 0) throw new Error(built.stderr);
  return (input, output, times) => milliseconds(program, [input, output, String(times)], {});
}

/** Loops over lists with nothing but Python; or the same text compiled by numba, which is not timed. */
export function runnerOfPython(folder: string, kind: 'plain' | 'numba'): Runner | null {
  const pythons = ['python3', '/usr/bin/python3'];
  const needs = kind === 'numba' ? 'import numba' : 'import array';
  const python = pythons.find((name) => spawnSync(name, ['-c', needs]).status === 0);
  if (python === undefined) return null;
  const script = resolve(SOURCE, 'engine.py');
  const env = { NUMBA_CACHE_DIR: resolve(folder, 'numba'), PYTHONDONTWRITEBYTECODE: '1' };
  return (input, output, times) =>
    milliseconds(python, [script, folder, kind, input, output, String(times)], env);
}

function milliseconds(program: string, args: string[], env: Record<string, string>): number[] {
  const text = execFileSync(program, args, { encoding: 'utf8', env: { ...process.env, ...env } });
  return text
    .trim()
    .split('\n')
    .map((ns) => Number(ns) / 1e6);
}
