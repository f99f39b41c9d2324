import { DRILL_FEED, DRILL_SPEEDS, THINNEST_CHIP } from '../data/cutting.ts';
import { POINTS } from '../data/tools.ts';
import { toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { CutTool, Draft } from './advice.ts';
import type { Stock } from './stock.ts';

/** The chart's speed and feed for a drill, before any machine is asked. */
export function baseDrill(tool: CutTool, stock: Stock): Draft {
  const kind = tool.kind === 'end-mill' ? 'twist' : tool.kind;
  const rows = DRILL_SPEEDS[kind];
  const row = rows.find((r) => tool.diameter <= r.upTo + tolerance.noise) ?? rows[rows.length - 1]!;
  const speed = stock.soft ? row.soft : row.hard;
  const lips = tool.lips ?? 2;
  // Brad-point and spur bits cut square to their axis; a V bit's chip is not worth reckoning.
  const point = kind === 'twist' || kind === 'stepped' ? (tool.point ?? POINTS[kind]) : 180;
  const scaled = sizeFeed(tool.diameter) * (DRILL_FEED.gravity / stock.cutsLike) ** DRILL_FEED.power;
  const least = (lips * THINNEST_CHIP) / Math.sin(toRad(point) / 2);
  const feedPerRev = Math.min(DRILL_FEED.most, Math.max(scaled, least));
  const chart = 'common practice, no source: drill-press chart';
  return {
    speed,
    feedPerRev,
    lips,
    point,
    pitch: null,
    limits: feedPerRev === DRILL_FEED.most ? ['greatest-feed'] : feedPerRev > scaled ? ['thinnest-chip'] : [],
    reasons: [
      {
        what: 'speed',
        value: `${speed} rev/min`,
        because: `${kind} up to ${row.upTo} mm in ${stock.soft ? 'soft' : 'hard'} wood`,
        source: chart,
      },
      {
        what: 'feed per revolution',
        value: `${feedPerRev.toFixed(3)} mm`,
        because: `${sizeFeed(tool.diameter).toFixed(2)} mm by size, times (0.60 / ${stock.cutsLike.toFixed(2)})^1.1 for ${stock.name}${hardnessWords(stock)}`,
        source: `common practice, no source; specific gravity: ${stock.source}`,
      },
    ],
  };
}

const hardnessWords = ({ gravity, hardness }: Stock): string =>
  hardness === undefined
    ? ''
    : `, between its gravity, ${gravity.toFixed(2)}, and what its side hardness, ${hardness} N, is usual at`;

/** Feed by size at specific gravity 0.60: straight from 0.1 at 3 mm to 0.3 at 13 mm. */
function sizeFeed(diameter: number): number {
  const { small, large, smallAt, largeAt } = DRILL_FEED;
  const part = Math.min(1, Math.max(0, (diameter - smallAt) / (largeAt - smallAt)));
  return small + part * (large - small);
}
