import type { Group } from './bench.ts';

/** Key paths where a group may keep a value of its hole pattern: its own, or what all lugs share. */
export const patternKeysOf = (group: Group, leaf: string): string[] => [
  `${group.key}.holes.${leaf}`,
  ...(group.row ? [`lugs.holes.${leaf}`, 'lugs.holes'] : []),
  `${group.key}.holes`,
  group.key,
];
