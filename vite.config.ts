import { builtinModules } from 'node:module';
import { defineConfig } from 'vitest/config';
import pkg from './package.json' with { type: 'json' };
import { inlineSlots } from './vite.slots.ts';

const nodeBuiltins = [...builtinModules, ...builtinModules.map((name) => `node:${name}`)];
const packages = Object.keys({ ...pkg.dependencies, ...pkg.optionalDependencies });

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
        'made-log': 'src/scenarios/log/made-log.ts',
        'job-work': 'src/scenarios/queue/job-work.ts',
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
    // a busy machine is slow, not wrong
    testTimeout: 240_000,
    hookTimeout: 120_000,
    expect: { poll: { timeout: 60_000 } },
    maxWorkers: '100%',
    setupFiles: ['tests/setup.ts'],
  },
});
