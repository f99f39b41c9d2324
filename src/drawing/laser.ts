import { forbiddenInLaser } from '../data/forbidden.ts';
import type { Fact } from '../model/finding.ts';

/** A stop fact `forbidden-in-laser` when the material must never be cut by a laser, by its name. */
export function laserFacts(material: string, at: string): Fact[] {
  const found = forbiddenInLaser(material);
  if (found === undefined) return [];
  const facts = { material, kind: found.name, reason: found.reason };
  return [{ level: 'stop', id: 'forbidden-in-laser', at, measured: null, limit: null, unit: '', facts }];
}

/** Whether a sheet's name says that it is slotted to bend: it stretches at every slot. */
export const isSlotted = (material: string): boolean =>
  /\b(slotted|slot|kerf[- ]?(bent|bend|bending)|living[- ]?hinge|lattice|flex[- ]?cut)\b/i.test(material);
