import type { Fact } from '../model/finding.ts';
import type { Mm } from '../units/scalar.ts';
import { type Bench, raise } from './bench.ts';

/** Thinnest wall any shell has (sheet metal), and the thickest as a share of the radius: beyond, a unit slipped. */
const THINNEST: Mm = 0.7;
const THICKEST_SHARE = 0.3;

/** The shell as it stands: plausible, round, square, edges cut or not, skin on or not. */
export function checkState(bench: Bench): Fact[] {
  const { shell, batch, slug } = bench.jig;
  const { limits } = bench;
  const found: Fact[] = [];
  const say = (
    level: Fact['level'],
    id: string,
    key: string,
    measured?: number,
    limit?: number,
    facts: Record<string, string | number> = {},
  ) =>
    found.push(
      raise(bench, {
        level,
        id,
        at: 'shell',
        ...(measured === undefined ? {} : { measured }),
        ...(limit === undefined ? {} : { limit }),
        facts: { name: slug, ...facts },
        keys: [key, 'shell'],
      }),
    );

  if (shell.wall < THINNEST)
    say('stop', 'wall-implausible', 'shell.wall', shell.wall, THINNEST, { way: 'thin', inches: shell.wall * 25.4 });
  else if (shell.wall > THICKEST_SHARE * shell.radius)
    say('stop', 'wall-implausible', 'shell.wall', shell.wall, THICKEST_SHARE * shell.radius, { way: 'thick' });

  if (shell.edges === 'uncut') say('care', 'edges-uncut', 'shell.edges');
  if (shell.round !== undefined && shell.round > limits.round)
    say('care', 'out-of-round', 'shell.round', shell.round, limits.round);
  if (shell.square !== undefined && shell.square > limits.square)
    say('care', 'out-of-square', 'shell.square', shell.square, limits.square);
  if (shell.skin && shell.skin.thickness > 0 && shell.skin.when === 'after')
    say('note', 'skin-added', 'shell.skin', shell.skin.thickness, undefined, { diameter: 2 * shell.radius });
  if (batch) {
    const [least, most] = batch.girth;
    if (shell.girth < least - limits.square || shell.girth > most + limits.square)
      say('care', 'shell-outside-batch', 'batch', shell.girth, shell.girth < least ? least : most, { least, most });
  }
  const rings = (shell.rings.top?.width ?? 0) + (shell.rings.bottom?.width ?? 0);
  if (rings > shell.depth && shell.rings.top && shell.rings.bottom)
    found.push(
      raise(bench, {
        level: 'stop',
        id: 'contradiction',
        at: 'shell',
        measured: rings,
        limit: shell.depth,
        facts: {
          what: 'the two reinforcement rings overlap inside the shell',
          one: 'shell.rings',
          other: 'shell.depth',
        },
        keys: ['shell.rings'],
      }),
    );
  return found;
}
