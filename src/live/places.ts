import { orPlace } from '../page/html.ts';

/** Parts of the page that are drawn anew after an edit. */
const PLACES = [
  'verdict',
  'matters',
  'shell',
  'holes',
  'gauge',
  'work',
  'rotary',
  'replay',
  'buy',
  'chances',
  'assumed',
] as const;
type Place = (typeof PLACES)[number];

/** What was last put into each place; the same again costs the browser nothing. */
const inPlace = new Map<Place, string>();

export function replace(id: Place, html: string): void {
  if (inPlace.get(id) === html) return;
  inPlace.set(id, html);
  const old = document.getElementById(id);
  if (old) old.outerHTML = orPlace(id, html);
}

/** Remembers the page as it is now; calling the result puts all of it back. */
export function asMade(): () => void {
  const made = PLACES.map((id) => [id, document.getElementById(id)?.outerHTML] as const);
  return () => {
    for (const [id, html] of made) if (html !== undefined) replace(id, html);
  };
}
