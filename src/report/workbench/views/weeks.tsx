import { useEffect, useRef, useState } from 'preact/hooks';
import { cssOf, inksOf } from '../inks.ts';
import { CELLS_A_WEEK, SHOWS, type Shows, type WeekCells } from '../messages.ts';
import { askPicture } from '../picture-loop.ts';
import * as state from '../state.ts';
import { cellOfStep, monthLabels, piecesOf, stepOfCell } from '../week-places.ts';
import { linePx, paintWeeks, stopsOf } from '../weeks-canvas.ts';
import { useDark, useWidth } from './use-size.ts';

const NAMES: Record<Shows, string> = {
  soc: 'state of charge',
  generator: 'generator',
  load: 'load',
  array: 'array',
  unserved: 'unserved',
  cabinet: 'cabinet',
};
const HOUR_CELLS = 6;
const DAY_CELLS = 144;

/** The year as a page of lines, a week each: the map of everything, on which a span is picked. */
export function Weeks() {
  const picture = state.picture.value;
  const site = state.site.value;
  if (!picture || !site) return null;
  return (
    <section class="weeks" aria-labelledby="weeks-title">
      <h2 id="weeks-title">The year, a week a line</h2>
      <fieldset class="choices">
        <legend class="unseen">What the lines show</legend>
        {SHOWS.map((shows) => (
          <label key={shows}>
            <input
              type="radio"
              name="shows"
              checked={state.shows.value === shows}
              onChange={() => {
                state.shows.value = shows;
                void askPicture(true);
              }}
            />
            <span>{NAMES[shows]}</span>
          </label>
        ))}
      </fieldset>
      <Key weeks={picture.weeks} />
      <Page weeks={picture.weeks} stepMin={site.stepMin} count={site.count} />
    </section>
  );
}

function Key({ weeks }: { weeks: WeekCells }) {
  const inks = inksOf(useDark());
  const stops = stopsOf(inks, state.shows.value).map(cssOf).join(',');
  const say = (value: number) =>
    weeks.unit === '%' ? `${Math.round(value * 100)} %` : `${value.toFixed(1)} ${weeks.unit}`;
  return (
    <p class="weeks-key">
      <span class="nobreak">
        {say(weeks.least)} <span class="ramp" style={{ background: `linear-gradient(90deg,${stops})` }} />{' '}
        {say(weeks.most)}
      </span>
      <span class="nobreak">
        <span class="bar charge" /> generator, battery low
      </span>
      <span class="nobreak">
        <span class="bar peak" /> load high
      </span>
      <span class="nobreak">
        <span class="bar other" /> other
      </span>
      <span class="nobreak">
        <span class="bar unserved" /> load unserved
      </span>
    </p>
  );
}

function Page({ weeks, stepMin, count }: { weeks: WeekCells; stepMin: number; count: number }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [box, width] = useWidth<HTMLDivElement>();
  const dark = useDark();
  const [from, setFrom] = useState<number | null>(null);
  const shows = state.shows.value;
  useEffect(() => {
    if (canvas.current && width > 0)
      paintWeeks(canvas.current, weeks, inksOf(dark), shows, width, Math.min(2, devicePixelRatio || 1));
  }, [weeks, width, dark, shows]);
  const shown = state.picture.value?.span ?? { fromStep: 0, toStep: count };
  const pick = (fromCell: number, toCell: number) => {
    const fromStep = stepOfCell(weeks, fromCell, stepMin, count);
    const toStep = stepOfCell(weeks, toCell, stepMin, count);
    if (toStep - fromStep < 1) return;
    state.span.value = { fromStep, toStep };
    void askPicture(false);
  };
  const cellAt = (event: PointerEvent) => {
    const place = (event.currentTarget as HTMLElement).getBoundingClientRect();
    const week = Math.max(
      0,
      Math.min(weeks.weeks - 1, Math.floor(((event.clientY - place.top) / place.height) * weeks.weeks)),
    );
    const share = Math.max(0, Math.min(0.9999, (event.clientX - place.left) / place.width));
    return week * CELLS_A_WEEK + Math.floor((share * CELLS_A_WEEK) / HOUR_CELLS) * HOUR_CELLS;
  };
  const moveBy = (event: KeyboardEvent) => {
    const by = { ArrowLeft: -1, ArrowRight: 1, ArrowUp: -7, ArrowDown: 7 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    const length = shown.toStep - shown.fromStep;
    const steps = (by * 1440) / stepMin;
    if (event.shiftKey) {
      const toStep = Math.max(shown.fromStep + 1440 / stepMin, Math.min(count, shown.toStep + steps));
      state.span.value = { fromStep: shown.fromStep, toStep };
    } else {
      const fromStep = Math.max(0, Math.min(count - length, shown.fromStep + steps));
      state.span.value = { fromStep, toStep: fromStep + length };
    }
    void askPicture(false);
  };
  const dark7 = state.picture.value?.darkWeek ?? null;
  const outline = (span: { fromStep: number; toStep: number }) =>
    piecesOf(cellOfStep(weeks, span.fromStep, stepMin), cellOfStep(weeks, span.toStep, stepMin));
  return (
    <div class="weeks-page" style={{ '--weeks': weeks.weeks, '--line': `${linePx(width)}px` }}>
      <div class="weekdays" aria-hidden="true">
        {['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'].map((day) => (
          <span key={day}>{day}</span>
        ))}
      </div>
      <div class="months" aria-hidden="true">
        {monthLabels(weeks.weeks, weeks.firstDay).map(({ week, text }) => (
          <span key={week} style={{ top: `calc(${week} * var(--line))` }}>
            {text}
          </span>
        ))}
      </div>
      <div
        ref={box}
        class="weeks-map"
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it answers arrow keys
        tabIndex={0}
        aria-label="The year, a week a line, Monday to Sunday. Arrow keys move the span that is shown below by a day or a week; with Shift they lengthen or shorten it."
        onKeyDown={moveBy}
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          const cell = cellAt(event);
          setFrom(cell);
          const day = Math.floor(cell / DAY_CELLS) * DAY_CELLS;
          pick(day, day + DAY_CELLS);
        }}
        onPointerMove={(event) => {
          if (from === null) return;
          const cell = cellAt(event);
          if (cell !== from) pick(Math.min(from, cell), Math.max(from, cell) + HOUR_CELLS);
        }}
        onPointerUp={() => setFrom(null)}
        onPointerCancel={() => setFrom(null)}
      >
        <canvas ref={canvas} />
        <svg
          class="weeks-over"
          viewBox={`0 0 1000 ${weeks.weeks}`}
          preserveAspectRatio="none"
          aria-hidden="true"
        >
          {dark7 &&
            outline(dark7).map((piece) => <Piece key={`d${piece.week}`} {...piece} kind="dark-week" />)}
          {outline(shown).map((piece) => (
            <Piece key={`s${piece.week}`} {...piece} kind="shown" />
          ))}
        </svg>
      </div>
    </div>
  );
}

function Piece({ week, from, to, kind }: { week: number; from: number; to: number; kind: string }) {
  return <rect class={kind} x={from * 1000} y={week} width={(to - from) * 1000} height={1} />;
}
