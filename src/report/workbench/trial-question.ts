import { signal } from '@preact/signals';
import * as state from './state.ts';

/** Set while somebody is asked what becomes of a trial; called with whether what was wanted may go on. */
export const trialQuestion = signal<((mayGo: boolean) => void) | null>(null);

/** Before something would drop what is on trial: true where nothing is, or where it was kept or may go. */
export function trialMayGo(): Promise<boolean> {
  if (!state.isTrial.value) return Promise.resolve(true);
  trialQuestion.value?.(false);
  return new Promise((resolve) => {
    trialQuestion.value = (mayGo) => {
      trialQuestion.value = null;
      resolve(mayGo);
    };
  });
}
