import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { namedFiles } from '../../src/scenarios/named-files.ts';
import { parseSite } from '../../src/scenarios/site-document.ts';

describe('files that a site names', () => {
  it('finds those of load and weather', () => {
    const text = readFileSync(new URL('../../profiles/sites/hut.yaml', import.meta.url), 'utf8');
    expect(namedFiles(parseSite(text, 'hut.yaml').document?.value)).toEqual([
      '../loads/hut.csv',
      '../weather/alpine.csv',
    ]);
  });

  it('finds those of sources, of alternatives and of weather years, each once', () => {
    const site = {
      load: [{ file: 'a.csv' }, { file: 'a.csv' }],
      sources: [{ file: 'stream.csv' }],
      horizon: { weatherYears: ['wet.epw', 'dry.epw'] },
      alternatives: [{ changes: { 'load.0.file': 'b.csv', weather: { format: 'epw', file: 'c.epw' } } }],
    };
    expect(namedFiles(site)).toEqual(['a.csv', 'stream.csv', 'wet.epw', 'dry.epw', 'b.csv', 'c.epw']);
    expect(namedFiles(null)).toEqual([]);
  });
});
