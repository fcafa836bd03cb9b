import { readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import pkg from './package.json' with { type: 'json' };

const nodeBuiltins = [...builtinModules, ...builtinModules.map((name) => `node:${name}`)];
const packages = Object.keys(pkg.dependencies);

/**
 * Unbundled (tests, development), each `slot.NAME` would be a getter call in the step loop, forty times as
 * slow: put the numbers of slots.ts in their place. A bundle does so by itself (`inlineConst`).
 */
function inlineSlots(): Plugin {
  const text = readFileSync(new URL('./src/sim/slots.ts', import.meta.url), 'utf8');
  const numbers = new Map([...text.matchAll(/export const (\w+) = ([\d.e-]+);/g)].map((m) => [m[1], m[2]]));
  return {
    name: 'inline-slots',
    enforce: 'pre',
    transform(code, id) {
      if (!id.includes('/src/sim/') || !code.includes("import * as slot from './slots.ts'")) return null;
      return code.replace(/\bslot\.([A-Z]\w*)/g, (whole, name) => numbers.get(name) ?? whole);
    },
  };
}

/**
 * The command line is bundled so that the step loop and its helpers share one module at run time
 * (calls between unbundled modules cost the engine about a fifth of its speed); packages stay outside.
 */
export default defineConfig({
  plugins: [inlineSlots()],
  build: {
    target: 'node20',
    outDir: 'dist',
    emptyOutDir: true,
    minify: false,
    lib: {
      entry: {
        cli: 'src/cli.ts',
        work: 'src/report/commands/work.ts',
        'many-work': 'src/scenarios/many/work.ts',
      },
      formats: ['es'],
    },
    rolldownOptions: {
      external: [...nodeBuiltins, ...packages, ...packages.map((name) => new RegExp(`^${name}/`))],
      optimization: { inlineConst: true },
    },
  },
  test: {
    include: ['tests/**/*.test.ts'],
    testTimeout: 60_000,
    setupFiles: ['tests/setup.ts'],
  },
});
