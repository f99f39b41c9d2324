import type { Mm } from '../units/scalar.ts';
import type { Gatherer } from './gather.ts';
import type { Reached } from './hindrances.ts';
import type { Step } from './step.ts';

/** Says each fault once: for one stay of the bit in the wood, or for one bit where one cure heals all. */
export interface TellOnce {
  /** Another bit is in. */
  readonly tool: (id: number, kind: string | undefined) => void;
  /** The bit has left the wood. */
  readonly left: () => void;
  readonly stop: (id: string, step: Step, measured?: Mm) => void;
  readonly stopOfTool: (id: string, step: Step) => void;
  readonly careOfTool: (id: string, step: Step, measured: Mm, limit: Mm) => void;
  /** What the bit reaches in this step that it must not. */
  readonly reached: (step: Step) => Reached;
}

export function tellOnce(g: Gatherer): TellOnce {
  let tool = -1;
  let kind = 'unknown';
  const ofStay = new Set<string>();
  const ofTool = new Set<string>();
  const isNew = (told: Set<string>, id: string): boolean => !told.has(id) && told.add(id).size > 0;
  const at = ({ line }: Step) => ({ at: `line ${line}`, line });
  const plain = (id: string, step: Step, measured: Mm | null): void =>
    g.raise('stop', id, { ...at(step), measured, unit: measured === null ? '' : 'mm', facts: { tool, kind } });
  return {
    tool(id, kindOf) {
      tool = id;
      kind = kindOf ?? 'unknown';
      ofStay.clear();
      ofTool.clear();
    },
    left: () => ofStay.clear(),
    stop(id, step, measured) {
      if (isNew(ofStay, id)) plain(id, step, measured ?? null);
    },
    stopOfTool(id, step) {
      if (isNew(ofTool, id)) plain(id, step, null);
    },
    careOfTool(id, step, measured, limit) {
      if (isNew(ofTool, id)) g.raise('care', id, { ...at(step), measured, limit, unit: 'mm' });
    },
    reached: (step) => (id, measured, limit) => {
      if (isNew(ofStay, id)) g.raise('stop', id, { ...at(step), measured, limit, unit: 'mm', facts: { tool } });
    },
  };
}
