import { withValue } from '../../scenarios/edit-site.ts';
import { withChange } from './alternatives.ts';
import type { Field } from './messages.ts';
import * as state from './state.ts';

/** Groups that all alternatives share. */
const SHARED = ['site', 'period'];

function isOfAlternative(field: Field): boolean {
  return state.inHand.value > 0 && !SHARED.includes(String(field.steps[0]));
}

/** The text with a value set: in the site, or as a change of the alternative in hand. */
export function withFieldValue(field: Field, to: unknown): string {
  const { text } = state;
  if (!isOfAlternative(field)) return withValue(text.value, field.steps, to);
  return withChange(text.value, field.path, to === undefined ? null : to);
}

/** The text without it: its default holds again, or what the site as filed has. */
export function withoutField(field: Field): string {
  const { text, inHand } = state;
  if (!isOfAlternative(field)) return withValue(text.value, field.steps, undefined);
  if (field.changed)
    return withValue(text.value, ['alternatives', inHand.value - 1, 'changes', field.path], undefined);
  return withChange(text.value, field.path, null);
}
