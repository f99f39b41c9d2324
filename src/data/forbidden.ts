/** A material that must never be put into a laser, with the reason workshops publish. */
export interface Forbidden {
  readonly name: string;
  /** Words in a material's name that mean it, small letters. */
  readonly words: readonly string[];
  readonly reason: string;
}

/**
 * Workshop rules as makerspaces and laser services publish them (common practice; the standard behind them, ISO 11553-1,
 * asks the supplier for fume information: from memory). Hydrogen chloride from heated PVC: polymer-degradation literature,
 * from memory.
 */
const FORBIDDEN: readonly Forbidden[] = [
  {
    name: 'PVC and vinyl',
    words: [
      'pvc',
      'vinyl',
      'polyvinyl',
      'leatherette',
      'faux leather',
      'artificial leather',
      'drum wrap',
      'drum covering',
    ],
    reason: 'it gives off hydrogen chloride, which is toxic and eats optics and metal',
  },
  {
    name: 'plastics with fluorine or bromine',
    words: ['ptfe', 'pvdf', 'fluoropolymer', 'brominated', 'flame retardant'],
    reason: 'it gives off halogen gases, which are toxic and corrosive',
  },
  { name: 'ABS', words: ['abs'], reason: 'it melts and catches fire, and its fumes hold hydrogen cyanide' },
  {
    name: 'polycarbonate',
    words: ['polycarbonate', 'pc sheet'],
    reason: 'it absorbs the beam badly, discolours and burns',
  },
  { name: 'HDPE', words: ['hdpe', 'polyethylene'], reason: 'it melts and catches fire' },
  {
    name: 'polystyrene and polypropylene foam',
    words: ['polystyrene', 'styrofoam', 'foam', 'foamboard', 'foam board', 'depron'],
    reason: 'it melts and burns: polystyrene foam is named the commonest cause of laser fires',
  },
  {
    name: 'glass and carbon fibre',
    words: ['fibreglass', 'fiberglass', 'glass fibre', 'carbon fibre', 'carbon fiber', 'fr4', 'gfrp', 'cfrp'],
    reason: 'its epoxy gives off toxic fumes',
  },
  {
    name: 'chrome-tanned leather',
    words: ['chrome-tanned', 'chrome tanned', 'chrome leather'],
    reason: 'it gives off chromium(VI)',
  },
  {
    name: 'sheet bonded with epoxy or phenolic resin',
    words: [
      'phenolic',
      'bakelite',
      'epoxy',
      'exterior ply',
      'exterior plywood',
      'wbp',
      'film-faced',
      'film faced',
      'marine ply',
    ],
    reason: 'its resin gives off fumes and chars badly',
  },
];

/**
 * What forbids this material in a laser, by the words in its name; undefined when nothing does. Words count whole: `abs` is
 * ABS, `absorber` is not.
 */
export function forbiddenInLaser(name: string): Forbidden | undefined {
  const plain = ` ${name.toLowerCase().replace(/[^a-z0-9]+/g, ' ')} `;
  return FORBIDDEN.find((f) => f.words.some((w) => plain.includes(` ${w.replace(/[^a-z0-9]+/g, ' ')} `)));
}
