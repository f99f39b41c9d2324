import { CHIP_LOADS, HELIX_PITCH, LIGHT_MACHINE, MILL_SPEED, type MillColumn, THINNEST_CHIP } from '../data/cutting.ts';
import type { Mm } from '../units/scalar.ts';
import type { CutTool, Draft } from './advice.ts';
import type { Stock } from './stock.ts';

/** The chart's speed and feed for an end mill that bores a hole by a helix, before any machine is asked. */
export function baseMill(tool: CutTool, stock: Stock): Draft {
  const lips = tool.lips ?? 2;
  const low = lowChipLoad(tool.diameter, stock.column);
  const light = low * LIGHT_MACHINE;
  const perLip = Math.max(light, THINNEST_CHIP);
  const pitch = HELIX_PITCH * tool.diameter;
  return {
    speed: MILL_SPEED,
    feedPerRev: perLip * lips,
    lips,
    // Cuts full width on its way round: the thickest chip is the feed per tooth.
    point: 180,
    pitch,
    limits: perLip > light ? ['thinnest-chip'] : [],
    reasons: [
      {
        what: 'speed',
        value: `${MILL_SPEED} rev/min`,
        because: 'small spiral cutters in wood turn at 12000 to 18000',
        source: 'common practice, no source',
      },
      {
        what: 'feed per tooth',
        value: `${perLip.toFixed(3)} mm`,
        because: `low end of the chart for ${stock.column}, ${low.toFixed(3)} mm, times ${LIGHT_MACHINE} for a light rotary set-up`,
        source: 'common practice, no source: envelope of three chip-load charts',
      },
      {
        what: 'helix',
        value: `${pitch.toFixed(2)} mm a turn`,
        because: 'half the cutter a turn',
        source: 'common practice, no source',
      },
    ],
  };
}

/** Low end of the chart, straight between its sizes, in proportion to the diameter below the smallest. */
export function lowChipLoad(diameter: Mm, column: MillColumn): Mm {
  const first = CHIP_LOADS[0]!;
  if (diameter <= first.diameter) return (first[column][0] * diameter) / first.diameter;
  for (let i = 1; i < CHIP_LOADS.length; i++) {
    const a = CHIP_LOADS[i - 1]!;
    const b = CHIP_LOADS[i]!;
    if (diameter <= b.diameter) {
      const part = (diameter - a.diameter) / (b.diameter - a.diameter);
      return a[column][0] + part * (b[column][0] - a[column][0]);
    }
  }
  return CHIP_LOADS[CHIP_LOADS.length - 1]![column][0];
}
