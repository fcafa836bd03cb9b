import { applyChanges, type SiteChanges } from '../apply-changes.ts';
import { type Issue, isUsable, type Place } from '../issue.ts';
import type { ReadFile } from '../load-files.ts';
import { prepareStudy } from '../run-study.ts';
import { checkSite } from '../site-checks.ts';
import { type Path, parseSite, type SiteDocument, valueAt } from '../site-document.ts';
import { readSite, type SiteParts } from '../site-file.ts';
import { type Site, siteSchema } from '../site-schema.ts';
import { variantName, WrongVariants } from './wrong-variants.ts';

/** A site file of which many variants are wanted. */
export interface ManyRequest {
  /** text and name of the site file */
  text: string;
  file: string;
  /** reads a file named in it; throws when there is none */
  readFile: ReadFile;
  /** another step than the site file's [min] */
  stepMin?: number;
}

/**
 * In the place of a path among a variant's changes: what it costs more at the start than the site as filed (less,
 * where it is below 0), as an alternative's `capital`.
 */
export const CAPITAL = 'capital';

/** Series that do not depend on the variant, by what they were made from. */
export type SharedSeries = ReadonlyMap<string, unknown>;

/**
 * Reads and checks the site with its alternatives, and makes all series that they need.
 * @returns the series, and what is doubtful about the inputs
 * Errors: throws `WrongVariants` with every problem of the site file.
 */
export function makeSeries(request: ManyRequest): { series: SharedSeries; doubts: Issue[] } {
  const { alternatives, maker, issues } = prepareStudy({ ...request, version: '' }, request.readFile);
  const all = [...issues, ...(maker?.issues ?? [])];
  if (alternatives === null) throw new WrongVariants(errorsOf(all));
  return { series: maker.cache.entries(), doubts: all };
}

/** A site file that has been read: what its variants are changes of. */
export class Filed {
  readonly site: Site;
  readonly placeOf: (path: Path) => Place;
  private readonly document: SiteDocument;
  private readonly parts: SiteParts;

  /** Errors: throws `WrongVariants` where the site as filed is wrong. */
  constructor(text: string, file: string) {
    const parsed = parseSite(text, file);
    if (parsed.document === null) throw new WrongVariants(parsed.issues);
    const { site, parts, issues } = readSite(parsed.document);
    if (site === null) throw new WrongVariants(errorsOf(issues));
    this.document = parsed.document;
    this.placeOf = this.document.placeOf;
    this.parts = parts;
    this.site = site;
  }

  /** The site with changes made, checked whole as an alternative of the site file is; or every problem of it. */
  variant(changes: SiteChanges): Site | Issue[] {
    const { [CAPITAL]: _, ...ofSite } = changes;
    const quick = this.quickVariant(ofSite);
    if (quick !== null) return quick;
    const applied = applyChanges(ofSite, [], this.document, this.parts);
    const { site, issues } = readSite(this.document, applied.value);
    const all = [...applied.issues, ...issues];
    return site !== null && isUsable(all) ? site : this.named(changes, all);
  }

  /**
   * The variant with only those groups read anew that its changes are in; null where something is wrong, so that the
   * long way says what. A group is read by itself, so that the others are as the site as filed has them.
   */
  private quickVariant(changes: SiteChanges): Site | null {
    const groups = [...new Set(Object.keys(changes).map((path) => path.split('.')[0]))];
    const value = Object.fromEntries(groups.map((group) => [group, valueAt(this.document.value, [group])]));
    const applied = applyChanges(changes, [], { ...this.document, value }, this.parts);
    if (applied.issues.length > 0) return null;
    const site: Record<string, unknown> = { ...this.site };
    for (const group of groups) {
      const read = siteSchema.shape[group as keyof Site].safeParse(valueAt(applied.value, [group]));
      if (!read.success) return null;
      site[group] = read.data;
    }
    return isUsable(checkSite(site as Site, this.document)) ? (site as Site) : null;
  }

  /** What the site as filed has at a path of an alternative's changes, or what is wrong with the path. */
  valueAt(path: string): { value: unknown } | { issue: Issue } {
    const { made, issues } = applyChanges({ [path]: null }, [], this.document, this.parts);
    return issues.length > 0 ? { issue: issues[0] } : { value: made[0].from };
  }

  /** The errors among issues, each named after the variant that has it. */
  named(changes: SiteChanges, issues: readonly Issue[]): Issue[] {
    const { [CAPITAL]: _, ...ofSite } = changes;
    const name = variantName(ofSite);
    return errorsOf(issues).map((issue) => ({ ...issue, path: `${name}: ${issue.path}` }));
  }
}

function errorsOf(issues: readonly Issue[]): Issue[] {
  return issues.filter(({ severity }) => severity === 'error');
}
