import type { Issue } from './issue.ts';
import { schemaIssues } from './schema-issues.ts';
import { checkSite } from './site-checks.ts';
import { type Path, plainCopy, type SiteDocument, valueAt } from './site-document.ts';
import { type Site, siteSchema } from './site-schema.ts';

/** A site of which some groups may be missing, because something is wrong in them. */
export type SiteParts = Partial<Site>;

/**
 * Checks a site's value against the schema and against sense.
 * @returns the site with defaults filled in, or null and every problem at its place; `parts` has the groups in
 * which nothing is wrong in either case, so that whatever depends on them alone can be checked at once too
 */
export function readSite(
  document: SiteDocument,
  value: unknown = document.value,
): { site: Site | null; parts: SiteParts; issues: Issue[] } {
  const parsed = siteSchema.safeParse(value);
  const wrong = parsed.success ? [] : parsed.error.issues;
  const parts = parsed.success ? parsed.data : soundParts(value, wrong);
  const issues = wrong.flatMap((issue) => schemaIssues(issue, document, value));
  issues.push(...checkSite(parts, document));
  const failed = issues.some((issue) => issue.severity === 'error');
  return { site: parsed.success && !failed ? parsed.data : null, parts, issues };
}

type SchemaIssues = NonNullable<ReturnType<typeof siteSchema.safeParse>['error']>['issues'];

/** The groups that pass the schema by themselves, unknown keys set aside. */
function soundParts(value: unknown, wrong: SchemaIssues): SiteParts {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return {};
  const known = plainCopy(value) as Record<string, unknown>;
  for (const issue of wrong)
    if (issue.code === 'unrecognized_keys')
      for (const key of issue.keys)
        delete (valueAt(known, issue.path as Path) as Record<string, unknown>)[key];
  const sound: [string, unknown][] = [];
  for (const [group, schema] of Object.entries(siteSchema.shape)) {
    const parsed = schema.safeParse(known[group]);
    if (parsed.success) sound.push([group, parsed.data]);
  }
  return Object.fromEntries(sound) as SiteParts;
}
