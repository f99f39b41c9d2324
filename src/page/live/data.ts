import type { SolidScene } from '../../picture/solid.ts';
import type { Deg, Mm } from '../../units/scalar.ts';
import type { PageData, SourcePage } from '../data.ts';
import type { ReplayMove } from '../replay-move.ts';

/** The replay with what places the bit over the shell. */
export interface LiveReplay {
  readonly moves: readonly ReplayMove[];
  readonly radius: Mm;
  readonly wall: Mm;
  readonly depth: Mm;
  readonly datum: 'top' | 'bottom';
  readonly signOfA: 1 | -1;
  /** Where the unrolled drawing is cut open. */
  readonly from: Deg;
  readonly tools: readonly {
    readonly id: number;
    readonly diameter: Mm;
    /** Point angle of a bit that is all point. */
    readonly cone?: Deg;
  }[];
  readonly holes: readonly { readonly id: string; readonly angle: Deg; readonly height: Mm; readonly radius: Mm }[];
}

/** What the page's script is given as JSON in the element `data`; the text of the page is not repeated. */
export interface LiveData extends Pick<PageData, 'digest' | 'files' | 'collar' | 'rotary' | 'dryRun'> {
  readonly slug: string;
  readonly source: SourcePage | null;
  readonly replay: LiveReplay | null;
  /** For the turning view, when the template has one. */
  readonly scene: SolidScene | null;
}
