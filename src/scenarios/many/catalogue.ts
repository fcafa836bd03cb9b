import { z } from 'zod';
import type { Issue } from '../issue.ts';
import { parseSite, type SiteDocument, valueAt } from '../site-document.ts';
import { flag, num, text } from '../site-fields.ts';

const generator = z.strictObject({
  ratedKw: num('rating', 'kW', 0.1, 10_000),
  phases: z.literal([1, 3]),
  price: num('price', 'money', 0, 1e9),
  service: num('a service visit', 'money', 0, 1e6),
  overhaul: num('an overhaul', 'money', 0, 1e7),
  fuel: z
    .array(z.strictObject({ kW: num('output', 'kW', 0, 10_000), lPerH: num('fuel', 'L/h', 0, 5000) }))
    .min(2)
    .max(4),
});

/** Sizes that a site's battery or arrays are multiplied by. */
const times = z.array(num('times as much', '', 0.05, 100)).max(50);

const catalogueSchema = z.strictObject({
  invented: flag('invented').default(false),
  currency: text('currency'),
  generators: z.array(generator).max(100),
  inverters: z
    .array(
      z.strictObject({
        ratedKva: num('rating', 'kVA', 0.1, 1000),
        price: num('price', 'money', 0, 1e9),
      }),
    )
    .max(100),
  battery: z.strictObject({ perKwh: num('price', 'money/kWh', 0, 1e6), times }),
  array: z.strictObject({ perKwp: num('price', 'money/kWp', 0, 1e6), times }),
});

/** Equipment with prices, among which sizes are chosen. */
export type Catalogue = z.infer<typeof catalogueSchema>;

/** A catalogue of equipment, or every problem of it with its line. */
export function readCatalogue(yaml: string, file: string): { catalogue: Catalogue | null; issues: Issue[] } {
  const { document, issues } = parseSite(yaml, file);
  if (document === null) return { catalogue: null, issues };
  const parsed = catalogueSchema.safeParse(document.value);
  if (!parsed.success)
    return { catalogue: null, issues: parsed.error.issues.map((one) => wrong(one, document)) };
  const twins = [...twinsOf(parsed.data, document)];
  return { catalogue: twins.length === 0 ? parsed.data : null, issues: twins };
}

function wrong(issue: z.core.$ZodIssue, document: SiteDocument): Issue {
  const unknown = issue.code === 'unrecognized_keys' ? issue.keys.slice(0, 1) : [];
  const path = [...(issue.path as (string | number)[]), ...unknown];
  const found = valueAt(document.value, path);
  return {
    severity: 'error',
    code: issue.code,
    path: path.join('.') || 'catalogue',
    got: found === undefined ? 'nothing' : JSON.stringify(found),
    want: issue.message,
    at: document.placeOf(path, unknown.length > 0),
  };
}

/** Two items of the same size: neither could be told from the other on a page. */
function* twinsOf({ generators, inverters }: Catalogue, document: SiteDocument): Generator<Issue> {
  const lists = [
    ['generators', generators.map(({ ratedKw, phases }) => `${ratedKw} kW, ${phases}-phase`)],
    ['inverters', inverters.map(({ ratedKva }) => `${ratedKva} kVA`)],
  ] as const;
  for (const [list, names] of lists)
    for (const [i, name] of names.entries())
      if (names.indexOf(name) < i)
        yield {
          severity: 'error',
          code: 'second',
          path: `${list}.${i}`,
          got: `a second one of ${name}`,
          want: 'one of each size',
          at: document.placeOf([list, i]),
        };
}
