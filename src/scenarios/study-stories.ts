import { climateDecision } from './climate-decision.ts';
import { Rerunner } from './rerun.ts';
import type { Again } from './run-study.ts';
import type { Study } from './study.ts';
import { startStories } from './why-start.ts';

/**
 * A study with what running it again tells: why single runs of the first alternative's generator started, and what
 * the cabinet's climate decides, for the first alternative and for those that change something about the cabinet.
 */
export function withStories(study: Study, again: Again): Study {
  const alternatives = study.alternatives.map((result, i) => {
    const isFirst = i === 0;
    const changesCabinet = result.changes.some(({ path }) => /^(cabinet|batteryCabinets)\b/.test(path));
    return {
      ...result,
      ...(isFirst && {
        startStories: startStories(new Rerunner(again.alternatives[i].site, result, again.maker)),
      }),
      ...((isFirst || changesCabinet) && { climate: climateDecision(result, i, again) ?? undefined }),
    };
  });
  return { ...study, alternatives };
}
