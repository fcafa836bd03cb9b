import { defineConfig } from 'vite';
import base from './vite.config.ts';

/** The yardsticks, bundled like the command line: `npm run bench`. */
export default defineConfig({
  ...base,
  build: {
    ...base.build,
    outDir: 'out/bench',
    lib: {
      entry: {
        engine: 'tests/bench/engine.ts',
        readers: 'tests/bench/readers.ts',
        bound: 'tests/bench/bound.ts',
        'other-languages': 'tests/bench/other-languages.ts',
        many: 'tests/bench/many.ts',
        sites: 'tests/bench/sites.ts',
        'many-work': 'src/scenarios/many/work.ts',
      },
      formats: ['es'],
    },
  },
});
