import { type Html, html, raw } from '../html.ts';
import { capital } from '../words.ts';

/** One entry of a key: what a fill stands for. */
export interface KeyEntry {
  fill: string;
  text: string;
  /** drawn as a line rather than an area */
  line?: boolean;
  /** a sign rather than a fill */
  sign?: 'frame' | 'dashes' | 'ring' | 'star' | 'triangle';
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

/** What fills and signs stand for. */
export function keyList(entries: readonly KeyEntry[]): Html {
  return html`<ul class="key">${entries.map((entry) => html`<li>${swatch(entry)}${entry.text}</li>`)}</ul>`;
}

function swatch({ fill, line, sign }: KeyEntry): Html {
  const area = `<rect x=".5" y=".5" width="17" height="11" fill="${fill}" stroke="var(--soft)" stroke-width=".8"/>`;
  const shape = sign ? SIGNS[sign] : line ? `<path d="M0 6h18" stroke="${fill}" stroke-width="2.5"/>` : area;
  return raw(`<svg class="swatch" width="18" height="12" aria-hidden="true">${shape}</svg>`);
}

const SIGNS = {
  frame: '<rect x="2" y="1.2" width="14" height="9.6" fill="none" stroke="var(--ink)" stroke-width="2.4"/>',
  dashes:
    '<rect x="2" y="1.2" width="14" height="9.6" fill="none" stroke="var(--ink)" stroke-width="2.2" stroke-dasharray="3.5 2.2"/>',
  triangle: '<path d="M9 1.2l5.4 9.6H3.6z" fill="var(--paper)" stroke="var(--ink)" stroke-width="1.2"/>',
  ring: '<circle cx="9" cy="6" r="4.6" fill="none" stroke="var(--ink)" stroke-width="2.2"/>',
  star: '<path d="M9 .6l1.5 3.7 4 .3-3 2.6.9 3.9L9 9l-3.4 2.1.9-3.9-3-2.6 4-.3z" fill="var(--paper)" stroke="var(--ink)" stroke-width="1.2"/>',
};

/** A table that scrolls in itself where the screen is too narrow for it. */
export function scrollable(label: string, table: Html): Html {
  return html`<div class="scroll" role="group" aria-label="${label}" tabindex="0">${table}</div>`;
}
