import type { Layout } from '../../model/layout.ts';
import { el, label, line, picture } from '../../picture/svg.ts';
import { unrolledPicture } from '../../picture/unrolled.ts';
import { type Mm, toRad } from '../../units/scalar.ts';
import type { RotaryPage } from '../data.ts';
import { section } from '../html.ts';
import type { View } from '../view.ts';

/** The replay's place; the page's script puts pictures and controls into it, for without one they would stand still. */
export function replaySection(rotary: RotaryPage | null): string {
  if (!rotary) return '';
  return section(
    'replay',
    'Dry run, replayed',
    `${
      rotary.withheld
        ? '<p class="before"><b>Withheld program.</b> Something says stop, so there is no program in this set. This shows what it would do, and why not to.</p>'
        : ''
    }<p>What the program does, as the dry run understood it: the shell turning under the bit, the wall there cut open, and the place of the bit on the skin.</p><div id="replay-body"></div>`,
    'screen able-only',
  );
}

/** Still pictures and controls; the page's script moves them. + X points away from the datum edge. */
export function replayBody(view: View, rotary: RotaryPage): string {
  const speeds = [1, 5, 20, 100].map((s) => `<option value="${s}"${s === 20 ? ' selected' : ''}>${s}×</option>`);
  const sheet = unrolledPicture(view).replace('class="picture unrolled"', 'class="picture replay-sheet"');
  return `<div class="controls"><button type="button" id="replay-play" aria-pressed="false">Play</button> <label>Speed <select id="replay-speed">${speeds.join('')}</select></label> <button type="button" id="replay-before" hidden>Finding before</button> <button type="button" id="replay-next" hidden>Next finding</button></div>
<p id="replay-said" class="said" aria-live="polite"></p>
<label class="slide">Time <input type="range" id="replay-time" min="0" max="1000" value="0" step="1"></label><div id="replay-marks" aria-hidden="true"></div>
<p><output id="replay-now"></output></p>
<div class="replay"><div><figure hidden><canvas id="replay-solid" tabindex="0" role="img" aria-label="The shell in the machine, turning under the bit. Arrow keys walk round it."></canvas><figcaption>In the machine, + X to the right: dark where a bit has begun, open where one is through. Drag to walk round it</figcaption></figure><figure id="replay-flat">${endView(view.layout, rotary.datum)}<figcaption>Seen from the + X end: the bit stands still, the shell turns</figcaption></figure></div><div><figure>${cutView(view, view.jig.rotary.backing)}<figcaption>The wall under the bit, cut open: what is gone so far at this place</figcaption></figure><pre id="replay-lines" tabindex="0" aria-label="Program lines around the one now running"></pre></div></div>
<figure class="wide"><div class="scroll" tabindex="0" role="group" aria-label="The skin">${sheet}</div><figcaption>On the skin: filled where a bit has been through</figcaption></figure>`;
}

/** Half width and height over the skin of the wall's picture, mm. */
const CUT = { half: 42, above: 14 };

/** Wall and backing with outside up; the script puts what is gone and the bit into the empty groups. */
function cutView(view: View, backing: Mm): string {
  const { wall } = view.layout;
  const low = wall + backing;
  const layer = (cls: string, y: Mm, height: Mm): string =>
    el('rect', { class: cls, x: -CUT.half, y, width: 2 * CUT.half, height });
  return picture(
    { x: -CUT.half, y: -CUT.above, width: 2 * CUT.half, height: CUT.above + low + 3 },
    'The wall under the bit, cut open, outside up',
    'replay-cut',
    layer('cut', 0, wall) +
      (backing > 0 ? layer('ring', wall, backing) : '') +
      el('g', { id: 'replay-gone' }, '') +
      el('g', { id: 'replay-tip' }, el('path', { class: 'rod', d: '' })) +
      label(-CUT.half + 1, -1, 'outside', 'soft', 3) +
      label(CUT.half - 1, wall - 1, 'wall', 'soft end', 3) +
      (backing > 0 ? label(CUT.half - 1, low - 1.5, 'backing', 'soft end', 3) : ''),
  );
}

/** The ring of the shell in a group that turns, the bit above it in a group that rises and falls. */
function endView(layout: Layout, datum: 'top' | 'bottom'): string {
  const R = layout.radius;
  const spot = (angle: number, r: number): readonly [number, number] => {
    const a = toRad(datum === 'bottom' ? angle : -angle);
    return [-r * Math.sin(a), -r * Math.cos(a)];
  };
  const bores = layout.holes.map((h) => {
    const [x1, y1] = spot(h.angle, R);
    const [x2, y2] = spot(h.angle, layout.inside);
    return el('g', { 'data-bore': h.id }, line(x1, y1, x2, y2, 'bore-line'));
  });
  const [zx, zy] = spot(0, R * 0.7);
  const size = R * 0.08;
  const ring = `M${-R} 0A${R} ${R} 0 1 0 ${R} 0A${R} ${R} 0 1 0 ${-R} 0ZM${-layout.inside} 0A${layout.inside} ${layout.inside} 0 1 0 ${layout.inside} 0A${layout.inside} ${layout.inside} 0 1 0 ${-layout.inside} 0Z`;
  return picture(
    { x: -R * 1.1, y: -R * 1.55, width: R * 2.2, height: R * 2.65 },
    'Shell from the + X end with the bit above it',
    'replay-end',
    el(
      'g',
      { id: 'replay-shell' },
      el('path', { class: 'cut', 'fill-rule': 'evenodd', d: ring }),
      ...bores,
      line(0, 0, zx, zy, 'zero'),
      label(zx * 1.15, zy * 1.15, '0°', 'mid', size),
    ) +
      el(
        'g',
        { id: 'replay-bit' },
        el('path', { class: 'rod', d: `M-3 ${-R - 60}V${-R - 4}L0 ${-R}L3 ${-R - 4}V${-R - 60}Z` }),
      ),
  );
}
