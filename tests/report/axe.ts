/** What axe finds on a page. Contrast takes it longest, and depends on the colours of a screen, not on its width. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';

export type Looked = 'all' | 'contrast' | 'all but contrast';

const CONTRAST = ['color-contrast'];
/** So many rules at least must have had something to look at. */
const LEAST_PASSES: Record<Looked, number> = { all: 15, contrast: 0, 'all but contrast': 15 };

/** @returns what is wrong, a line each; that too little was looked at is wrong too */
export async function axeFinds(page: Page, looked: Looked): Promise<string[]> {
  const axe = new AxeBuilder({ page });
  if (looked === 'contrast') axe.withRules(CONTRAST);
  if (looked === 'all but contrast') axe.disableRules(CONTRAST);
  const { violations, passes } = await axe.analyze();
  const found = violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`);
  return passes.length > LEAST_PASSES[looked] ? found : [...found, `only ${passes.length} rules passed`];
}
