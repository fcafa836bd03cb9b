import { describe, expect, it } from 'vitest';
import { changesAgainst, changeWords } from '../../src/report/change-words.ts';
import { fieldFacts } from '../../src/report/field-facts.ts';
import { changesLead } from '../../src/report/sentences.ts';
import { siteJsonSchema } from '../../src/scenarios/site-schema.ts';
import type { AlternativeResult, Change } from '../../src/scenarios/study.ts';

const change = (path: string, from: unknown, to: unknown): Change => ({ path, from, to });

/** Only what is read of an alternative's differences. */
function withChanges(...changes: Change[]): AlternativeResult {
  return { changes, plant: { generator: {} } } as unknown as AlternativeResult;
}

describe('a change in words', () => {
  it('counts what is counted', () => {
    expect(changeWords(change('battery.modules', 12, 24))).toBe(
      'twenty-four battery modules instead of twelve',
    );
    expect(changeWords(change('battery.modules', 2, 1))).toBe('one battery module instead of two');
  });

  it('gives measures their unit and shares in percent', () => {
    expect(changeWords(change('generator.ratedKw', 20, 30))).toBe('generator rating 30 kW instead of 20 kW');
    expect(changeWords(change('control.charge.startSoc', 0.3, 0.5))).toBe(
      'generator started at 50 % instead of 30 %',
    );
    expect(changeWords(change('arrays.shed.kWp', 8, 18))).toBe('shed array 18 kWp instead of 8 kWp');
    expect(changeWords(change('cabinet.batteryKjPerK', 550, 1100))).toBe(
      'cabinet: heat capacity of the battery 1,100 kJ/K instead of 550 kJ/K',
    );
  });

  it('names the parts of an array in the order of speech', () => {
    expect(changeWords(change('arrays.shed.strings.strings', 4, 6))).toBe(
      'strings in parallel of the shed array 6 instead of 4',
    );
    expect(changeWords(change('arrays.0.controller.maxInputA', 75, 112))).toBe(
      'charge controller of array 1: highest input current 112 A instead of 75 A',
    );
    expect(changeWords(change('arrays.shed.strings.vocV', 40, 50))).toBe(
      'strings of the shed array: open-circuit voltage of a module 50 V instead of 40 V',
    );
    expect(changeWords(change('arrays.N.E. side.kWp', 8, 18))).toBe(
      'N.E. side array 18 kWp instead of 8 kWp',
    );
    expect(changeWords(change('control.peak.holdMin', 10, 5))).toBe(
      'delay of the peak stop 5 min instead of 10 min',
    );
  });

  it('says what came, went or was switched', () => {
    expect(changeWords(change('cabinet.heater', { ratedW: 400 }, null))).toBe('no cabinet heater');
    expect(changeWords(change('cabinet.cooler', null, { ratedW: 400 }))).toBe('cabinet cooler added');
    expect(changeWords(change('generator.phase', 2, null))).toBe('generator: no phase of a single-phase set');
    expect(changeWords(change('batteryCabinets.left.heater', { ratedW: 400 }, null))).toBe(
      'left cabinet: no heater',
    );
    expect(changeWords(change('batteryCabinets.0.heater', null, { ratedW: 400 }))).toBe(
      'battery cabinet 1: heater added',
    );
    expect(changeWords(change('secondGenerator.connectH', 12, 3))).toBe(
      'second generating set: connected after 3 h instead of 12 h',
    );
    expect(changeWords(change('control.peakAssist', true, false))).toBe('peak assist off');
    expect(changeWords(change('generator.fuel', [1], [2]))).toBe('generator: fuel curve changed');
  });

  it('has a title from the schema, or words of its own, for every number of the site file', () => {
    const paths = numberPaths(siteJsonSchema() as JsonSchema, []);
    expect(paths.length).toBeGreaterThan(80);
    for (const path of paths) {
      expect(fieldFacts(path), path).not.toBeNull();
      expect(changeWords(change(path, 1, 2)), path).not.toMatch(/undefined|NaN|null|\[object/);
    }
  });
});

describe('differences from the first alternative', () => {
  it('are those of the second, where the first is as filed', () => {
    const changes = changesAgainst(withChanges(), withChanges(change('a', 1, 2)));
    expect(changes).toEqual([change('a', 1, 2)]);
  });

  it('count from what the first has, where it differs from the file too', () => {
    const first = withChanges(change('a', 1, 5), change('b', 1, 7), change('c', 1, 9));
    const other = withChanges(change('a', 1, 2), change('c', 1, 9));
    expect(changesAgainst(first, other)).toEqual([change('a', 5, 2), change('b', 7, 1)]);
  });

  it('name the main changes and count what goes with them', () => {
    const other = withChanges(change('battery.modules', 12, 24), change('cabinet.batteryKjPerK', 550, 1100));
    expect(changesLead(withChanges(), other)).toBe(
      'twenty-four battery modules instead of twelve (with 1 change that goes with it)',
    );
  });

  it('leave the lead out where there are too many', () => {
    const many = ['battery.modules', 'generator.ratedKw', 'tank.capacityL', 'inverter.ratedKva'];
    expect(changesLead(withChanges(), withChanges(...many.map((path) => change(path, 1, 2))))).toBe('');
  });
});

interface JsonSchema {
  type?: string;
  properties?: Record<string, JsonSchema>;
  items?: JsonSchema;
  anyOf?: JsonSchema[];
  oneOf?: JsonSchema[];
}

/** Dotted paths of all numbers that a site file may hold. */
function numberPaths(schema: JsonSchema, path: string[]): string[] {
  const here = schema.type === 'number' || schema.type === 'integer' ? [path.join('.')] : [];
  const inside = [
    ...Object.entries(schema.properties ?? {}).flatMap(([key, child]) => numberPaths(child, [...path, key])),
    ...(schema.items ? numberPaths(schema.items, [...path, '0']) : []),
    ...[...(schema.anyOf ?? []), ...(schema.oneOf ?? [])].flatMap((child) => numberPaths(child, path)),
  ];
  return [...new Set([...here, ...inside])];
}
