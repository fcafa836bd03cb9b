import { type Html, html } from '../html.ts';
import { alone, digits } from '../numbers.ts';
import { scrollable } from '../page/figure-box.ts';
import { estimateTexts } from '../visit/estimate-words.ts';
import { LISTED_DAYS, type Ranking, type Visited } from './rank.ts';
import { moreWords } from './words.ts';

/** Rows of each of the three lists; all sites are in the table below. */
const MOST_LISTED = 10;
/** A site's name, which leads to the page of its visit beside this one. */
export type Linked = (site: Visited) => Html;

interface List {
  title: string;
  none: string;
  heads: readonly string[];
  rows: { site: Visited; texts: string[] }[];
}

function listPart({ title, none, heads, rows }: List, linked: Linked): Html {
  const rest = rows.length - MOST_LISTED;
  return html`<h3>${title}</h3>
${
  rows.length === 0
    ? html`<p>${none}</p>`
    : scrollable(
        title,
        html`<table class="compact"><thead><tr><th scope="col">Site</th>${heads.map((head) => html`<th scope="col">${head}</th>`)}</tr></thead><tbody>${rows
          .slice(0, MOST_LISTED)
          .map(
            ({
              site,
              texts,
            }) => html`<tr><th scope="row">${linked(site)}</th>${texts.map((text) => html`<td>${text}</td>`)}</tr>
`,
          )}</tbody></table>`,
      )
}
${rest > 0 ? html`<p class="note">${digits(rest)} more in the table of all sites.</p>` : null}
`;
}

export function burningList({ burning }: Ranking, linked: Linked): Html {
  return listPart(
    {
      title: 'Burns more than promised',
      none: 'None does.',
      heads: ['Promised a month', 'Used', 'More', 'Share'],
      rows: burning.map(({ site, measure }) => {
        const { promised, used, more, share } = moreWords(measure);
        return { site, texts: [promised, used, more, share] };
      }),
    },
    linked,
  );
}

export function dryingList({ drying }: Ranking, linked: Linked): Html {
  return listPart(
    {
      title: `Will run dry within ${LISTED_DAYS} days`,
      none: 'None whose log has a level of fuel.',
      heads: ['In the tank', 'A day, lately', 'Days left'],
      rows: drying.map(({ site, tank }) => ({
        site,
        texts: [alone('litres', tank.levelL), alone('litres', tank.litresADay), daysText(tank.daysLeft)],
      })),
    },
    linked,
  );
}

function daysText(days: number): string {
  return digits(days, days < 10 ? 1 : 0);
}

export function fadingList({ fading }: Ranking, linked: Linked): Html {
  return listPart(
    {
      title: 'Battery holds less than named',
      none: 'None whose log can tell.',
      heads: ['Named, kWh', 'Holds, kWh', '90 % interval', 'Of the named'],
      rows: fading.map(({ site, known }) => {
        const { value, low, high, designed } = estimateTexts(known);
        return {
          site,
          texts: [designed, value, `${low} to ${high}`, `${digits((100 * known.value) / known.designed)} %`],
        };
      }),
    },
    linked,
  );
}
