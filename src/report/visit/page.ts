import { parseHTML } from 'linkedom';
import type { Visit } from '../../scenarios/visit/visit.ts';
import { html } from '../html.ts';
import { sheet } from '../page/sheet.ts';
import { commissioningSheet } from '../sheet/page.ts';
import type { SheetSource } from '../sheet/setting.ts';
import { ownerPart } from './owner-part.ts';
import { proposedChanges } from './retune-words.ts';
import { dateOf, lastDateOf } from './span.ts';
import { VISIT_STYLE } from './style.ts';
import { technicianPart } from './technician-part.ts';

/** What a commissioning sheet with old and new settings is made from. */
export interface SettingsSource {
  before: SheetSource;
  after: SheetSource;
  /** yyyy-mm-dd */
  madeOn: string;
}

/**
 * The pages of a visit: `visit.html`, which prints on two sheets of paper (for the owner, for the technician), and,
 * where settings are to be changed and it is known from what to what, `settings.html`. The same visit, the same bytes.
 * @param settings null: no sheet is wanted, or it could not be made
 */
export function visitPages(visit: Visit, settings: SettingsSource | null): { file: string; html: string }[] {
  const wanted = settings !== null && proposedChanges(visit.retune).length > 0;
  const page = { file: 'visit.html', html: visitPage(visit, wanted) };
  if (!wanted) return [page];
  const { after, madeOn, before } = settings;
  return [page, { file: 'settings.html', html: commissioningSheet(after, madeOn, before) }];
}

function visitPage(visit: Visit, hasSheet: boolean): string {
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const { site, made, stepMin } = visit;
  return sheet({
    ...{ site, made, stepMin, style: VISIT_STYLE },
    kind: 'visit',
    how: `the site’s log from ${dateOf(visit, visit.fromS)} to ${lastDateOf(visit, visit.toS)}`,
    question: 'Does it run as it was designed, and if not, why, and what would change that?',
    title: 'as it ran against as designed',
    contents: [
      { id: 'answer', text: 'For the owner' },
      { id: 'technician', text: 'For the technician' },
      { id: 'care', text: 'Before anyone builds or touches anything' },
    ],
    main: html`${ownerPart(visit, paper)}${technicianPart(visit, hasSheet, paper)}`,
  });
}
