import type { RotaryFrame } from '../geometry/frames.ts';
import type { Shell } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Machine, Tool } from '../model/machine.ts';
import type { Mm } from '../units/scalar.ts';
import type { InterpretOptions } from './options.ts';

/** The shell as it hangs on the machine, and the bits: all that taking wood away needs. */
export interface HungShell {
  readonly shell: Pick<Shell, 'radius' | 'inside' | 'wall' | 'depth'> &
    Partial<Pick<Shell, 'wood' | 'rings' | 'holes'>>;
  /** Which way A turns. */
  readonly machine: Pick<Machine, 'a'>;
  readonly tools: readonly Tool[];
  /** Edge at X0. */
  readonly datum: 'top' | 'bottom';
  /** Thickness of the backing block inside the shell; 0 or left out = none. */
  readonly backing?: Mm;
}

/** What a program is judged against: the plan, the shell as it hangs on the machine, and what the machine can do. */
export interface DryRunContext extends HungShell {
  readonly layout: Layout;
  readonly machine: Machine;
  /** Thickness of the backing block inside the shell; 0 = none. */
  readonly backing: Mm;
  /** Largest minus smallest skin height while turning; Z0 is the high spot. */
  readonly runout: Mm;
  /** The program is known to be a rehearsal: nothing should touch the wood. */
  readonly rehearse?: boolean;
  /** The program is known to drill only part of the plan (a restart, one fitting): holes left out are no fault. */
  readonly partial?: boolean;
  /** Also take the wood away and measure what is left: slower, fuller. */
  readonly removal?: boolean;
  /** A program of more lines is read no further; default 100 million. */
  readonly mostLines?: number;
  readonly interpret?: InterpretOptions;
}

/** The context with what follows from it. */
export interface Bench<C extends HungShell = DryRunContext> {
  readonly context: C;
  readonly radius: Mm;
  readonly inside: Mm;
  readonly depth: Mm;
  readonly frame: RotaryFrame;
  readonly tools: ReadonlyMap<number, Tool>;
  /** Inside radius that a bit of radius `r` must pass at X: less where a reinforcement ring is glued in. */
  readonly insideAt: (x: Mm, r: Mm) => Mm;
}

export function benchOf<C extends HungShell>(context: C): Bench<C> {
  const { radius, inside, depth, rings } = context.shell;
  const near = context.datum === 'bottom' ? rings?.bottom : rings?.top;
  const far = context.datum === 'bottom' ? rings?.top : rings?.bottom;
  return {
    context,
    radius,
    inside,
    depth,
    frame: { datum: context.datum, depth, a: context.machine.a },
    tools: new Map(context.tools.map((t) => [t.id, t])),
    insideAt: (x, r) =>
      inside -
      Math.max(
        near !== undefined && x - r < near.width ? near.thickness : 0,
        far !== undefined && x + r > depth - far.width ? far.thickness : 0,
      ),
  };
}
