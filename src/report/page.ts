import { parseHTML } from 'linkedom';
import type { Study } from '../scenarios/study.ts';
import { PATTERNS } from './charts/palette.ts';
import { html, raw } from './html.ts';
import { alternativeSection } from './page/alternative.ts';
import { answer } from './page/answer.ts';
import { basis, footing } from './page/basis.ts';
import { cautions, dangersOf } from './page/cautions.ts';
import { checksSummary } from './page/checks.ts';
import { comparison } from './page/comparison.ts';
import { contents, heading } from './page/heading.ts';
import { STYLE } from './page/style.ts';
import { makeView } from './view.ts';

/**
 * The report page of a study: one HTML file that holds everything it needs, opens from disk, needs no script, reads
 * on a phone and prints. The same study gives the same bytes.
 */
export function reportPage(study: Study): string {
  const { document: paper } = parseHTML('<!doctype html><html><body></body></html>');
  const view = makeView(study);
  const page = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${study.site.name}: when the generator runs, and why</title>
<style>${raw(STYLE)}</style>
</head>
<body>
<a class="skip" href="#answer">Skip to the answer</a>
${raw(PATTERNS)}
<div class="sheet">
${heading(view)}${contents(view)}<main>
${answer(view)}${comparison(view, paper)}${checksSummary(study)}${cautions(dangersOf(study))}
${study.alternatives.map((_, i) => alternativeSection(view, i, paper))}
${basis(view)}</main>
${footing(view)}</div>
</body>
</html>
`;
  return page.html;
}
