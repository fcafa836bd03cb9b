import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { takeChoice } from '../alternatives.ts';
import type { ShownPart, ShownStudy } from '../study-messages.ts';

/** Where a mark of a drawing lies within its part [px]. */
interface Spot {
  left: number;
  top: number;
  width: number;
  height: number;
}

/** A drawing or table of the report; where its marks are choices, each is a button that makes the alternative. */
export function StudyPart({ part, shown }: { part: ShownPart; shown: ShownStudy }) {
  const box = useRef<HTMLDivElement>(null);
  const [spots, setSpots] = useState<Spot[]>([]);
  useLayoutEffect(() => {
    const place = box.current;
    if (!place || part.cells.length === 0) return;
    const measure = () => setSpots(spotsIn(place));
    const watch = new ResizeObserver(measure);
    watch.observe(place);
    measure();
    return () => watch.disconnect();
  }, [part]);
  return (
    <div class="study-part" ref={box}>
      {/* drawn by the report's own code, in which every text of a file is escaped */}
      <div class="drawn" dangerouslySetInnerHTML={{ __html: part.html }} />
      {spots.length > 0 && <Spots part={part} shown={shown} spots={spots} />}
    </div>
  );
}

/** One of them can be reached by Tab, the others from it by arrows. */
function Spots({ part, shown, spots }: { part: ShownPart; shown: ShownStudy; spots: Spot[] }) {
  const [at, setAt] = useState(0);
  const buttons = useRef<(HTMLButtonElement | null)[]>([]);
  const reached = Math.min(at, spots.length - 1);
  const move = (event: KeyboardEvent, from: number) => {
    const to = nextSpot(spots, from, event.key);
    if (to === null) return;
    event.preventDefault();
    setAt(to);
    buttons.current[to]?.focus();
  };
  return (
    <fieldset class="spots" aria-label="Variants in the drawing: arrows move, Enter makes the alternative">
      {spots.map((spot, i) => {
        const choice = shown.choices[part.cells[i]];
        if (!choice) return null;
        const figures = choice.figures.slice(0, MOST_FIGURES).map((text, k) => `${shown.heads[k]}: ${text}`);
        const words = [choice.name, ...figures, choice.marks].filter((text) => text !== '');
        return (
          <button
            key={part.cells[i]}
            type="button"
            ref={(button) => {
              buttons.current[i] = button;
            }}
            tabIndex={i === reached ? 0 : -1}
            aria-label={`${words.join(', ')}: make it an alternative`}
            title={words.join('\n')}
            style={{
              left: `${spot.left}px`,
              top: `${spot.top}px`,
              width: `${spot.width}px`,
              height: `${spot.height}px`,
            }}
            onFocus={() => setAt(i)}
            onKeyDown={(event) => move(event, i)}
            onClick={() => takeChoice(choice)}
          />
        );
      })}
    </fieldset>
  );
}

/** So many figures are told where a place is pointed at. */
const MOST_FIGURES = 3;

/** Dots are hard to hit: a spot is at least so large [px]. */
const LEAST_PX = 12;

/** The marks of the drawing that is shown: of a wide and a narrow one the other has no place. */
function spotsIn(place: HTMLElement): Spot[] {
  const from = place.getBoundingClientRect();
  const drawn = [...place.querySelectorAll<SVGElement>('svg.chart')].find(
    (svg) => svg.getBoundingClientRect().width > 0,
  );
  return [...(drawn?.querySelector('.cells')?.children ?? [])].map((mark) => {
    const { left, top, width, height } = mark.getBoundingClientRect();
    const [w, h] = [Math.max(LEAST_PX, width), Math.max(LEAST_PX, height)];
    return {
      left: left - from.left - (w - width) / 2,
      top: top - from.top - (h - height) / 2,
      width: w,
      height: h,
    };
  });
}

const WAYS: Record<string, readonly [number, number]> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** The nearest spot in the direction of an arrow; what lies aside counts three times. */
function nextSpot(spots: readonly Spot[], from: number, key: string): number | null {
  const way = WAYS[key];
  if (!way) return null;
  let best: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const [i, { left, top }] of spots.entries()) {
    const [x, y] = [left - spots[from].left, top - spots[from].top];
    const ahead = x * way[0] + y * way[1];
    const aside = Math.abs(x * way[1]) + Math.abs(y * way[0]);
    if (i === from || ahead <= 1 || ahead + 3 * aside >= least) continue;
    best = i;
    least = ahead + 3 * aside;
  }
  return best;
}
