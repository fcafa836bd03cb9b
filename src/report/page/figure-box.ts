import { type Html, html, raw } from '../html.ts';
import { capital } from '../words.ts';

/** One entry of a key: what a fill stands for. */
export interface KeyEntry {
  fill: string;
  text: string;
  /** drawn as a line rather than an area */
  line?: boolean;
}

/**
 * A drawing with its finding above it.
 * @param drawings one, or the wide one and the narrow one of which a screen shows the one that fits
 */
export function figureBox(
  title: string,
  drawings: { wide: SVGElement; narrow?: SVGElement },
  options: { key?: readonly KeyEntry[]; note?: string; full?: boolean } = {},
): Html {
  const { wide, narrow } = drawings;
  const picture = narrow
    ? html`<div class="wide-only">${raw(wide.outerHTML)}</div><div class="narrow-only">${raw(narrow.outerHTML)}</div>`
    : raw(wide.outerHTML);
  return html`<figure class="${options.full ? 'full' : 'half'}">
<figcaption>${capital(title)}.</figcaption>
${options.key && options.key.length > 0 ? keyList(options.key) : null}
${picture}
${options.note ? html`<p class="note">${options.note}</p>` : null}
</figure>
`;
}

/** What the fills of a drawing stand for. */
export function keyList(entries: readonly KeyEntry[]): Html {
  return html`<ul class="key">${entries.map(({ fill, text, line }) => html`<li>${swatch(fill, line)}${text}</li>`)}</ul>`;
}

function swatch(fill: string, line = false): Html {
  const shape = line
    ? `<path d="M0 6h18" stroke="${fill}" stroke-width="2.5"/>`
    : `<rect x=".5" y=".5" width="17" height="11" fill="${fill}" stroke="var(--soft)" stroke-width=".8"/>`;
  return raw(`<svg class="swatch" width="18" height="12" aria-hidden="true">${shape}</svg>`);
}

/** A table that scrolls in itself where the screen is too narrow for it. */
export function scrollable(label: string, table: Html): Html {
  return html`<div class="scroll" role="group" aria-label="${label}" tabindex="0">${table}</div>`;
}
