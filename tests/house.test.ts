/** The house: imports only go down, and the step loop stays plain. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const SRC = resolve(import.meta.dirname, '../src');
const FLOORS = ['sim', 'scenarios', 'report'];

function sourceFiles(): string[] {
  return readdirSync(SRC, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));
}

function importsOf(file: string): string[] {
  const text = readFileSync(file, 'utf8');
  const pattern = /(?:from|import)\s*\(?\s*['"]([^'"]+)['"]/g;
  return [...text.matchAll(pattern)].map((match) => match[1]);
}

function floorOf(file: string): number {
  return FLOORS.indexOf(relative(SRC, file).split('/')[0]);
}

describe('the house', () => {
  const files = sourceFiles();

  it('has files on all three floors', () => {
    const floors = new Set(files.map(floorOf));
    for (const floor of [0, 1, 2]) expect(floors).toContain(floor);
  });

  it('has nothing beside the floors but the door', () => {
    expect(files.filter((file) => floorOf(file) < 0).map((file) => relative(SRC, file))).toEqual(['cli.ts']);
  });

  it('imports only downwards', () => {
    const upwards = files.flatMap((file) =>
      importsOf(file)
        .filter((name) => name.startsWith('.'))
        .map((name) => resolve(file, '..', name))
        .filter((target) => floorOf(file) >= 0 && (floorOf(target) > floorOf(file) || floorOf(target) < 0))
        .filter((target) => target.startsWith(SRC))
        .map((target) => `${relative(SRC, file)} -> ${relative(SRC, target)}`),
    );
    expect(upwards).toEqual([]);
  });

  it('keeps packages, Node and the clock out of sim', () => {
    const foreign = files
      .filter((file) => floorOf(file) === 0)
      .flatMap((file) => {
        const text = readFileSync(file, 'utf8');
        const packages = importsOf(file).filter((name) => !name.startsWith('.'));
        const words = ['Date.', 'new Date', 'Math.random', 'document.', 'process.', 'console.'];
        return [...packages, ...words.filter((word) => text.includes(word))].map(
          (what) => `${relative(SRC, file)}: ${what}`,
        );
      });
    expect(foreign).toEqual([]);
  });

  it('uses only operations that IEEE 754 rounds exactly in the step loop', () => {
    const loop = files.filter((file) => floorOf(file) === 0 && !relative(SRC, file).startsWith('sim/sky'));
    expect(loop.length).toBeGreaterThan(10);
    const allowed = new Set(['abs', 'min', 'max', 'sqrt', 'floor']);
    const inexact = loop.flatMap((file) =>
      [...readFileSync(file, 'utf8').matchAll(/Math\.(\w+)/g)]
        .map((match) => match[1])
        .filter((name) => !allowed.has(name))
        .map((name) => `${relative(SRC, file)}: Math.${name}`),
    );
    expect(inexact).toEqual([]);
  });
});
