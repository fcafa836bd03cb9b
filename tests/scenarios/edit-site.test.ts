/** Edits of a site file's text: what was not touched stays as it was. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withAlternative, withValue } from '../../src/scenarios/edit-site.ts';
import { parseSite, valueAt } from '../../src/scenarios/site-document.ts';

const FARM = readFileSync(new URL('../../profiles/sites/farm.yaml', import.meta.url), 'utf8');
const plainOf = (text: string) => parseSite(text, 'site.yaml').document?.value;

/** Paths of all plain values of the farm. */
function leaves(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null) return [path];
  return Object.entries(value).flatMap(([key, item]) =>
    leaves(item, [...path, Array.isArray(value) ? Number(key) : key]),
  );
}

describe('an edit of a site file', () => {
  it('replaces a plain value and not a letter beside it', () => {
    expect(withValue(FARM, ['battery', 'modules'], 13)).toBe(FARM.replace('modules: 12', 'modules: 13'));
    const zone = withValue(FARM, ['site', 'timeZone'], 'Europe/Vienna');
    expect(zone).toBe(FARM.replace("'+01:00'", 'Europe/Vienna'));
    expect(zone).toContain('# standard time all year');
  });

  it('gives the value that was set, whatever it is and wherever it stands', () => {
    const paths = leaves(plainOf(FARM));
    expect(paths.length).toBeGreaterThan(150);
    const value = fc.oneof(fc.double({ noNaN: true }), fc.boolean(), fc.string(), fc.constant(null));
    fc.assert(
      fc.property(fc.constantFrom(...paths), value, (path, to) => {
        const text = withValue(FARM, path, to);
        // -0 is 0 in a file
        expect(valueAt(plainOf(text), path)).toEqual(Object.is(to, -0) ? 0 : to);
        const [before, after] = [plainOf(FARM), plainOf(text)];
        for (const other of paths)
          if (other !== path && other.join('.') !== path.join('.'))
            expect(valueAt(after, other)).toEqual(valueAt(before, other));
        for (const comment of FARM.match(/# .*/g) ?? []) expect(text).toContain(comment);
      }),
      { numRuns: 60 },
    );
  });

  it('takes a value out, and puts in a group where there is none', () => {
    const without = withValue(FARM, ['cabinet', 'heater'], undefined);
    expect(valueAt(plainOf(without), ['cabinet', 'heater'])).toBeUndefined();
    const stated = withValue(without, ['control', 'hand', 'startSoc'], 0.2);
    expect(valueAt(plainOf(stated), ['control', 'hand'])).toEqual({ startSoc: 0.2 });
    const overNothing = withValue('a: null # nothing yet\n', ['a', 'b'], 1);
    expect(plainOf(overNothing)).toEqual({ a: { b: 1 } });
    expect(plainOf(withValue('', ['site', 'name'], 'new'))).toEqual({ site: { name: 'new' } });
  });

  it('adds an alternative, to a list or where there was none', () => {
    const one = { name: 'more', changes: { 'battery.modules': 20 } };
    const added = plainOf(withAlternative(FARM, one)) as { alternatives: unknown[] };
    expect(added.alternatives).toHaveLength(6);
    expect(added.alternatives[5]).toEqual(one);
    expect(plainOf(withAlternative('site: {}\n', one))).toEqual({ site: {}, alternatives: [one] });
  });

  it('edits JSON as well', () => {
    const text = '{ "site": { "name": "hut" }, "battery": { "modules": 1 } }';
    const edited = withValue(text, ['battery', 'modules'], 2);
    expect(JSON.parse(edited)).toEqual({ site: { name: 'hut' }, battery: { modules: 2 } });
    expect(JSON.parse(withValue(text, ['site', 'name'], 'a "hut"')).site.name).toBe('a "hut"');
    expect(JSON.parse(withValue(text, ['battery', 'modules'], 'many')).battery.modules).toBe('many');
    const more = JSON.parse(withValue(text, ['tank', 'fillDates'], ['2025-04-05']));
    expect(more.tank).toEqual({ fillDates: ['2025-04-05'] });
  });
});
