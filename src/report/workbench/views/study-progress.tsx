import { digits, duration } from '../../numbers.ts';
import { counted } from '../../words.ts';
import * as study from '../study-state.ts';
import { stopStudy } from '../study-work.ts';

/** How far a study is, and how to stop it: on every view, for it goes on while something else is looked at. */
export function StudyProgress() {
  if (study.running.value === null) return null;
  const progress = study.progress.value;
  const { done = 0, of = 0, doing = '', finished = 0, leftS = null } = progress ?? {};
  return (
    <section class="study-progress" aria-label="Runs under way">
      <progress max={Math.max(1, of)} value={of === 0 ? undefined : done} aria-label="Done of this part" />
      <p>
        {progress === null
          ? 'Reading the site and starting workers…'
          : `${digits(done)} of ${digits(of)}${doing ? `: ${doing}` : ''}`}
        {leftS !== null &&
          done < of &&
          `, about ${leftWords(leftS)} left${finished > of ? ' in this part' : ''}`}
        {finished > of && `; ${counted(digits(finished), 'run')} so far`}
      </p>
      <button type="button" onClick={stopStudy} disabled={study.stopping.value}>
        {study.stopping.value ? 'Stopping…' : 'Stop, keep what is finished'}
      </button>
    </section>
  );
}

function leftWords(seconds: number): string {
  return seconds < 60 ? `${Math.max(1, Math.ceil(seconds))} s` : duration(seconds / 3600);
}
