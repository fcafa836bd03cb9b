import catalogueText from '../../../../profiles/equipment/catalogue.yaml?raw';
import type { Issue } from '../../../scenarios/issue.ts';
import { readCatalogue } from '../../../scenarios/many/catalogue.ts';
import { findSizes, sizeResultOf } from '../../../scenarios/many/size.ts';
import type { Sized } from '../../../scenarios/many/size-result.ts';
import { allSizes, sizeLists } from '../../../scenarios/many/sizes.ts';
import { makePaper } from '../../charts/paper.ts';
import { costDots, fuelDots } from '../../charts/size-frontier.ts';
import { digits } from '../../numbers.ts';
import { basis, beside, fuelFrontier, moneyFrontier } from '../../size/parts.ts';
import { markWords, shownSizes, sizeSentences } from '../../size/sentences.ts';
import { sizeWords } from '../../size/words.ts';
import type { ShownStudy, SizeAsked } from '../study-messages.ts';
import { bestChoices, chosenFor, figuresOf, headsOf, ofWords, stoppedSearch } from './shown-search.ts';
import { overThreads, type StudyGround } from './study-ground.ts';

/** More take too long for a page. */
const MOST_CHOICES = 20_000;

/** Sizes weighed against each other, and the choices along the frontier, each of which can be taken. */
export async function shownSize(
  asked: SizeAsked,
  ground: StudyGround,
): Promise<{ shown: Omit<ShownStudy, 'key'> } | { issues: Issue[] }> {
  const { file, text } = asked.catalogue ?? { file: 'catalogue.yaml', text: catalogueText };
  const { catalogue, issues } = readCatalogue(text, file);
  if (catalogue === null) return { issues };
  const site = chosenFor(ground, asked.alternative, asked.stepMin);
  if ('issues' in site) return site;
  const { chosen } = site;
  const { sizes, limits } = asked;
  const count = allSizes(sizeLists(chosen.site, catalogue, sizes)).length;
  if (count > MOST_CHOICES) return { issues: [tooMany(count, file)] };
  const { result: found, many } = await overThreads(ground, chosen.stepMin, ({ evaluate }, doing) =>
    findSizes({
      ...{ site: chosen.site, base: chosen.base, evaluate, stepMin: chosen.stepMin },
      ...{ catalogue, asked: sizes, limits, onProgress: doing },
    }),
  );
  if (found === null) {
    const choices = bestChoices(many.finished, site, limits, () => true, 'all');
    return { shown: stoppedSearch('size', chosen, choices, many.finished.length) };
  }
  const result = sizeResultOf(chosen, found, file, catalogue);
  const paper = makePaper();
  const listed = shownSizes(result);
  const [forCost, forFuel] = [costDots(result), fuelDots(result)];
  // those of the table first, then those that only have a dot
  const all = new Map([...listed, ...forCost, ...forFuel].map((one) => [one.changes, one]));
  const places = new Map([...all.keys()].map((changes, place) => [changes, place]));
  const cellsOf = (dots: readonly Sized[]) => dots.map(({ changes }) => places.get(changes) as number);
  const choices = [...all.values()].map((one) => ({
    ...{ name: sizeWords(one.size), changes: one.changes, capital: 0 },
    ...{ figures: figuresOf(one.outcome), marks: markWords(one, result) },
  }));
  const parts = [
    { html: moneyFrontier(result, paper).html, cells: cellsOf(forCost) },
    { html: fuelFrontier(result, paper).html, cells: cellsOf(forFuel) },
    { html: beside(result, false).html, cells: [] },
  ];
  return {
    shown: {
      ...{ kind: 'size', of: ofWords(chosen), sentences: sizeSentences(result), care: [] },
      parts,
      heads: headsOf(chosen.heading.currency, result.years),
      ...{ choices, listed: [...listed.keys()], basis: basis(result).html, stopped: '' },
    },
  };
}

function tooMany(count: number, file: string): Issue {
  return {
    ...{ severity: 'error', code: 'size', path: 'size', at: { file } },
    got: `${digits(count)} choices of sizes`,
    want: `at most ${digits(MOST_CHOICES)} here: name fewer sizes`,
  };
}
