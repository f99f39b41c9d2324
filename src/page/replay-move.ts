/**
 * One move of the replay: program line, where it ends (X Y Z mm, A deg), seconds from the start at its end, what it is,
 * and the tool. A tuple, for a program has thousands.
 */
export type ReplayMove = readonly [
  line: number,
  x: number,
  y: number,
  z: number,
  a: number,
  until: number,
  kind: ReplayKind,
  tool: number,
];

export const KIND = { rapid: 0, feed: 1, wait: 2 } as const;
type ReplayKind = (typeof KIND)[keyof typeof KIND];
