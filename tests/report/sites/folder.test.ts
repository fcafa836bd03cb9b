import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sitesOfFolder } from '../../../src/report/commands/sites-folder.ts';
import { visitLink, visitPlaces } from '../../../src/report/sites/places.ts';
import { SMALL_SITE } from '../../scenarios/small-site.ts';

describe('the sites of a folder', () => {
  it('are YAML and JSON with a site in it, by their paths, however the folder is called', () => {
    const folder = mkdtempSync(join(tmpdir(), 'darkweek-sites-'));
    mkdirSync(join(folder, 'b'));
    for (const [name, text] of [
      ['b/one.yml', SMALL_SITE],
      ['a.json', '{"site":{"name":"A"}}'],
      ['c.yaml', '# a comment\n"site": { name: C }\n'],
      ['prices.yaml', 'fuel: 2\n'],
      ['site.txt', SMALL_SITE],
    ])
      writeFileSync(join(folder, name), text);
    for (const called of [folder, `${folder}/`, `./${relative('.', folder)}`])
      expect(sitesOfFolder(called)?.map(({ file }) => file)).toEqual(['a.json', 'b/one.yml', 'c.yaml']);
    expect(sitesOfFolder(join(folder, 'a.json'))).toBeNull();
    expect(sitesOfFolder(join(folder, 'none'))).toBeNull();
  });
});

describe('the pages of the sites', () => {
  it('lie in folders of their own, also where two sites differ by the ending only', () => {
    const files = ['a/hut.yaml', 'a/hut.json', 'a/Farm 2.yaml', 'a/farm 2.yml', 'b.c/hut.yml'];
    const places = visitPlaces(files.map((file) => ({ file })));
    expect([...places.values()]).toEqual([
      'a/hut.yaml',
      'a/hut.json',
      'a/Farm 2.yaml',
      'a/farm 2.yml',
      'b.c/hut',
    ]);
    expect(visitLink('a/100 % "hut" #2?')).toBe('a/100%20%25%20%22hut%22%20%232%3F/visit.html');
  });
});
