import { describeSheet } from '../../scenarios/data-sheet.ts';
import { type Issue, issueSentence } from '../../scenarios/issue.ts';
import type { DataSheet } from '../../scenarios/series.ts';
import type { SiteHeading } from '../../scenarios/study.ts';
import { PATTERNS } from '../charts/palette.ts';
import { type Html, html, raw } from '../html.ts';
import { STYLE } from './style.ts';

/** What all pages that answer one question about a site have in common. */
export interface SheetParts {
  site: Pick<SiteHeading, 'name' | 'note'>;
  /** an alternative that it is all about; left out: the site as filed, or several */
  alternative?: string | null;
  /** "break-even" */
  kind: string;
  /** how it was made, above the name of the site */
  how: string;
  question: string;
  /** of the browser's window, after the name of the site */
  title: string;
  contents: { id: string; text: string }[];
  main: Html;
  /** rules of this page alone, after those of all */
  style?: string;
  made: { version: string; inputsHash: string };
  /** null where the figures may be in several steps */
  stepMin: number | null;
  /** what else gives the same figures */
  also?: string;
}

/** One HTML file that holds everything it needs, opens from disk and prints; the same parts give the same bytes. */
export function sheet(parts: SheetParts): string {
  const {
    site,
    kind,
    how,
    question,
    title,
    contents,
    main,
    made,
    stepMin,
    alternative,
    also,
    style = '',
  } = parts;
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${site.name}: ${title}</title>
<style>${raw(STYLE + style)}</style>
</head>
<body>
<a class="skip" href="#answer">Skip to the answer</a>
${raw(PATTERNS)}
<div class="sheet">
<header>
<p class="made">Darkweek ${kind} · ${how}</p>
<h1>${site.name}${alternative ? `: ${alternative}` : ''}</h1>
${site.note ? html`<p>${site.note}</p>` : null}
<p class="question">${question}</p>
</header>
<nav aria-label="Contents"><div><h2>On this page</h2><ul>
${contents.map(({ id, text }) => html`<li><a href="#${id}">${text}</a></li>`)}
</ul></div></nav>
<main>
${main}</main>
<footer><p class="made">Made by Darkweek ${made.version} from inputs <code>${made.inputsHash}</code>${stepMin === null ? '' : ` in steps of ${stepMin} min`}. The same inputs and version give the same figures${also ? `, ${also}` : ''}.</p></footer>
</div>
</body>
</html>
`.html;
}

/** What was read, and what is doubtful about it. */
export function filesAndDoubts(sheets: readonly DataSheet[], doubts: readonly Issue[]): Html {
  return html`${
    sheets.length > 0
      ? html`<h3>Files read</h3>${sheets.map(
          (one) =>
            html`<h4>${one.file}</h4><ul>${describeSheet(one)
              .slice(1)
              .map((line) => html`<li>${line.trim()}</li>`)}</ul>`,
        )}`
      : null
  }
<h3>Doubts</h3>
${doubts.length === 0 ? html`<p>None were found in the inputs.</p>` : html`<ul>${doubts.map((doubt) => html`<li>${issueSentence(doubt)}</li>`)}</ul>`}
`;
}
