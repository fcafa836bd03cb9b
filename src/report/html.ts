import { keepUnits } from './numbers.ts';

/** Text that is already HTML. */
export interface Html {
  html: string;
}

export type Part = Html | string | number | null | undefined | readonly Part[];

/** HTML from a template; every plain text put into it is escaped. null and undefined give nothing. */
export function html(strings: TemplateStringsArray, ...parts: Part[]): Html {
  let text = strings[0];
  for (let i = 0; i < parts.length; i++) text += rendered(parts[i]) + strings[i + 1];
  return { html: text };
}

/** Takes text that is known to be HTML (drawings, styles) as it is. */
export function raw(text: string): Html {
  return { html: text };
}

function rendered(part: Part): string {
  if (part === null || part === undefined) return '';
  if (typeof part === 'string') return escaped(keepUnits(part));
  if (typeof part === 'number') return String(part);
  if (Array.isArray(part)) return part.map(rendered).join('');
  return (part as Html).html;
}

function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}
