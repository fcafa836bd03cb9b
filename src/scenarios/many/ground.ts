import { applyChanges, type SiteChanges } from '../apply-changes.ts';
import { type Issue, isUsable, type Place } from '../issue.ts';
import type { ReadFile } from '../load-files.ts';
import { prepareStudy } from '../run-study.ts';
import { type Path, parseSite, type SiteDocument } from '../site-document.ts';
import { readSite, type SiteParts } from '../site-file.ts';
import type { Site } from '../site-schema.ts';
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

/** Series that do not depend on the variant, by what they were made from. */
export type SharedSeries = ReadonlyMap<string, unknown>;

/**
 * Reads and checks the site with its alternatives, and makes all series that they need.
 * Errors: throws `WrongVariants` with every problem of the site file.
 */
export function makeSeries(request: ManyRequest): SharedSeries {
  const { alternatives, maker, issues } = prepareStudy({ ...request, version: '' }, request.readFile);
  if (alternatives === null) throw new WrongVariants(errorsOf([...issues, ...(maker?.issues ?? [])]));
  return maker.cache.entries();
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
    const applied = applyChanges(changes, [], this.document, this.parts);
    const { site, issues } = readSite(this.document, applied.value);
    const all = [...applied.issues, ...issues];
    return site !== null && isUsable(all) ? site : this.named(changes, all);
  }

  /** The errors among issues, each named after the variant that has it. */
  named(changes: SiteChanges, issues: readonly Issue[]): Issue[] {
    const name = variantName(changes);
    return errorsOf(issues).map((issue) => ({ ...issue, path: `${name}: ${issue.path}` }));
  }
}

function errorsOf(issues: readonly Issue[]): Issue[] {
  return issues.filter(({ severity }) => severity === 'error');
}
