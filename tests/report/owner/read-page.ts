import { parseHTML } from 'linkedom';
import type { FactKind } from '../../../src/report/owner/quantity.ts';

/** A figure as it stands on a page. */
interface Shown {
  key: string;
  kind: FactKind;
  value: number;
  text: string;
}

/** A page of the owner's report as a person reads it, and as it can be checked. */
export function readOwnerPage(page: string) {
  const { document } = parseHTML(page);
  const body = document.querySelector('main')!;
  const figures: Shown[] = [...body.querySelectorAll('data')].map((each) => ({
    key: each.getAttribute('data-fact')!,
    kind: each.getAttribute('data-kind') as FactKind,
    value: Number(each.getAttribute('value')),
    text: plain(each.textContent ?? ''),
  }));
  const sections = new Map(
    [...body.querySelectorAll('h2')].map((head) => [
      plain(head.textContent ?? ''),
      plain(textOf(head.parentElement!)),
    ]),
  );
  const text = plain(textOf(body));
  const sentences = [...body.querySelectorAll('li, p')]
    .filter((item) => !item.closest('.key, .words, header, table'))
    .map((item) => plain(item.textContent ?? ''))
    .filter((said) => said !== '');
  for (const each of body.querySelectorAll('data, time, svg, code')) each.remove();
  return { figures, sentences, sections, text, withoutFigures: plain(textOf(body)) };
}

/** Text of an element, with a space where one thing ends and the next begins. */
function textOf(element: Element): string {
  return element.innerHTML
    .replace(/<svg.*?<\/svg>/gs, '')
    .replace(/<\/(p|h\d|li|tr|td|th|figcaption|small)>/g, ' ')
    .replace(/<[^>]+>/g, '')
    .replace(/&#(\d+);/g, (_, code) => String.fromCharCode(Number(code)))
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&');
}

function plain(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}
