import * as state from '../state.ts';
import { Figures } from './figures.tsx';
import { Levers } from './levers.tsx';
import { SocLevers } from './soc-levers.tsx';
import { Span } from './span.tsx';
import { Weeks } from './weeks.tsx';
import { Why } from './why.tsx';

/** The year of the alternative in hand, with the levers that change it. */
export function Year() {
  if (!state.picture.value)
    return (
      <p class="soft">
        {state.errors.value.length > 0 ? 'Nothing can be simulated yet.' : 'Simulating the year…'}
      </p>
    );
  return (
    <div class="year">
      <SocLevers />
      <div class="beside">
        <Figures />
        <Levers />
      </div>
      <Weeks />
      <Span />
      <Why />
    </div>
  );
}
