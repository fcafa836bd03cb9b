import fc from 'fast-check';

/** Random cases are the same in every run; `SEED=7 npm test` draws others. */
fc.configureGlobal({ seed: Number(process.env.SEED ?? 20_261_125) });
