import { describeSheet } from '../../../scenarios/data-sheet.ts';
import { Rerunner } from '../../../scenarios/rerun.ts';
import { siteHeading } from '../../../scenarios/run-study.ts';
import type { AlternativeResult, Study } from '../../../scenarios/study.ts';
import { startStory } from '../../../scenarios/why-start.ts';
import { makeColumns } from '../../../sim/columns.ts';
import { changesAgainst, changeWords } from '../../change-words.ts';
import { keepUnits } from '../../numbers.ts';
import { studySentences } from '../../sentences.ts';
import { localMs, makeView, type StudyView } from '../../view.ts';
import { startWords } from '../../why-start.ts';
import { REMEDY_NOTE } from '../../why-start-remedies.ts';
import type {
  Changes,
  Compared,
  Field,
  LookedAtFile,
  Picture,
  PictureRequest,
  SiteFacts,
  Taken,
  Told,
} from '../messages.ts';
import type { VaryChoice } from '../study-messages.ts';
import { fieldTree } from './field-tree.ts';
import { comparedRows, figureRows } from './figure-rows.ts';
import { GivenFiles } from './files.ts';
import { isLogOf } from './is-log.ts';
import { lookAt } from './looked-at.ts';
import { type OpenSite, onTrial, openSite, type ReadSite } from './open-site.ts';
import { rawValues } from './raw-values.ts';
import { Simulator } from './simulated.ts';
import { leverFacts, socBand } from './soc-band.ts';
import { spanPicture } from './span-picture.ts';
import { varyChoices } from './vary-choices.ts';
import { weekCells } from './week-cells.ts';

/** Everything that the page asks for and that takes long: it runs in a worker, one question after the other. */
export class Bench {
  private readonly files = new GivenFiles();
  private readonly inHand = new Simulator();
  private readonly tried = new Simulator();
  private readonly others = new Simulator();
  private read: ReadSite | null = null;
  private open: OpenSite | null = null;
  /** files were given or forgotten: what was read of the old ones is not to be kept */
  private isStale = false;
  private view: StudyView | null = null;
  private results = new Map<string, AlternativeResult>();

  /** Gives files by name, which a site file may ask for. */
  giveFiles(files: readonly { name: string; bytes: Uint8Array }[]): void {
    for (const { name, bytes } of files) this.files.put(name, bytes);
    this.isStale = true;
  }

  forgetFiles(): void {
    this.files.forget();
    this.isStale = true;
  }

  lookAt(name: string, bytes: Uint8Array): LookedAtFile {
    return lookAt(name, bytes);
  }

  /** Whether a file is the log of a site: nothing that is simulated reads it. */
  isLog(siteText: string, name: string, bytes: Uint8Array): boolean {
    return isLogOf(siteText, name, bytes);
  }

  /** Reads a site file. With an error in it the last good one stays in hand. */
  take(text: string, file: string): Taken {
    this.read = openSite(text, file, this.files.read, this.isStale ? null : this.open);
    const { open, issues } = this.read;
    if (open) {
      if (this.isStale) this.results.clear();
      this.isStale = false;
      this.open = open;
      this.view = null;
    }
    return { ok: open !== null, issues, site: this.siteFacts() };
  }

  /** What is wrong or doubtful in a site file, whatever is open. */
  check(text: string, file: string): Pick<Taken, 'ok' | 'issues'> {
    const { open, issues } = openSite(text, file, this.files.read, null);
    return { ok: open !== null, issues };
  }

  private siteFacts(): SiteFacts | null {
    const { open } = this;
    const view = open && this.viewOf(open);
    if (!open || !view) return null;
    const { site } = open.alternatives[0];
    const { startS, stepMin, count } = view.study.axis;
    const { name, note, currency, invented } = site.site;
    return {
      ...{ name, note, currency, invented, startS, stepMin, count },
      localMs: localMs(view, 0),
      alternatives: open.alternatives.map((each) => ({
        ...{ name: each.name, note: each.note, capital: each.capital },
        words: each.changes.map(changeWords).map(keepUnits),
      })),
      sheets: open.maker.sheets.map(describeSheet),
      dangers: {
        battery: open.alternatives.some((each) => each.site.battery !== null),
        array: open.alternatives.some((each) => each.site.arrays.length > 0),
        generator: open.alternatives.some((each) => each.site.generator !== null),
      },
    };
  }

  /** Axis and clock of the site; null where its files cannot be read. */
  private viewOf(open: OpenSite): StudyView | null {
    const [{ site }] = open.alternatives;
    const made = this.view ? null : open.maker.make(site);
    if (made)
      this.view = makeView({
        site: siteHeading(site),
        axis: made.axis,
        timeZone: site.site.timeZone,
        alternatives: [],
        sheets: open.maker.sheets,
        doubts: [],
        made: { version: '', inputsHash: '' },
      });
    return this.view;
  }

  private studyOf(view: StudyView, alternatives: AlternativeResult[]): Study {
    return { ...view.study, alternatives };
  }

  /** The year of the alternative in hand, or of what is on trial in it; or why there is none. */
  picture(request: PictureRequest): Picture | { issues: Taken['issues'] } {
    const { open } = this;
    const view = open && this.viewOf(open);
    if (!open || !view) return { issues: [] };
    const index = Math.min(request.index, open.alternatives.length - 1);
    const { alternative, issues } = onTrial(open, index, request.trial);
    if (alternative === null) return { issues };
    const own = this.inHand.run(open.alternatives[index], open.maker, true);
    const isTrial = Object.keys(request.trial).length > 0;
    const trial = isTrial ? this.tried.run(alternative, open.maker, request.full) : null;
    if (own === null || (isTrial && trial === null)) return { issues: open.maker.issues };
    const { result, simulatedMs } = trial ?? own;
    const study = this.studyOf(view, trial ? [own.result, trial.result] : [own.result]);
    const words = changesAgainst(own.result, result).map(changeWords).map(keepUnits);
    const span = request.span ?? result.darkWeek ?? { fromStep: 0, toStep: result.inputs.count };
    const sentences = request.full ? studySentences(study)[trial ? 1 : 0].sentences : [];
    return {
      weeks: weekCells(view, result, request.shows),
      soc: socBand(result, request.columns),
      levers: leverFacts(alternative.site),
      baseLevers: leverFacts(open.alternatives[index].site),
      rows: figureRows(study, request.full),
      span: spanPicture(view, result, span.fromStep, span.toStep, request.spanColumns),
      darkWeek: result.darkWeek,
      trialWords: words,
      sentences: sentences.map(keepUnits),
      simulatedMs,
    };
  }

  /** Simulates one alternative for the comparison; true where there was something to do. */
  prepare(index: number): boolean {
    const { open } = this;
    if (!open || index >= open.alternatives.length) return false;
    const key = this.keyOf(open, index);
    if (this.results.has(key)) return false;
    const done = this.others.run(open.alternatives[index], open.maker, true);
    if (done) this.results.set(key, { ...done.result, columns: makeColumns(0) });
    return true;
  }

  /** All alternatives side by side, once they are prepared. */
  compared(): Compared | null {
    const { open } = this;
    const view = open && this.viewOf(open);
    if (!open || !view) return null;
    const keys = open.alternatives.map((_, i) => this.keyOf(open, i));
    const results = keys.flatMap((key) => this.results.get(key) ?? []);
    if (results.length < keys.length) return null;
    for (const key of [...this.results.keys()]) if (!keys.includes(key)) this.results.delete(key);
    const study = this.studyOf(view, results);
    return {
      names: results.map(({ name }) => name),
      rows: comparedRows(study),
      sentences: studySentences(study).map(({ sentences }) => sentences.map(keepUnits)),
    };
  }

  private keyOf({ alternatives }: OpenSite, index: number): string {
    const { name, note, capital, changes, site } = alternatives[index];
    return JSON.stringify([index, name, note, capital, changes, site]);
  }

  /** Every value of the site file, with those of the alternative in hand, right or wrong. */
  fields(index: number): Field[] {
    return fieldTree(rawValues(this.read, index));
  }

  /** Numbers of the site as filed that may be varied. */
  varyChoices(): VaryChoice[] {
    return varyChoices(fieldTree(rawValues(this.read, 0)));
  }

  /** Why one run started, and what would have avoided it: runs the site again many times. */
  why(index: number, trial: Changes, run: number): Told | null {
    const { open } = this;
    const view = open && this.viewOf(open);
    const alternative = open && onTrial(open, index, trial).alternative;
    if (!open || !view || !alternative) return null;
    const done = this.inHand.run(alternative, open.maker, true);
    if (done === null || run >= done.result.ledger.runs.length) return null;
    const study = this.studyOf(view, [done.result]);
    const story = startStory(new Rerunner(alternative.site, done.result, open.maker), run, ['asked']);
    const words = startWords({ ...view, study }, done.result, story);
    return {
      heading: keepUnits(words.heading),
      why: words.why.map(keepUnits),
      remedies: words.remedies.map(keepUnits),
      note: REMEDY_NOTE,
    };
  }
}
