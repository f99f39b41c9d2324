import type { SolidScene } from '../../picture/solid.ts';
import type { PageData, SourcePage } from '../data.ts';

/** What the page's script is given as JSON in the element `data`; the text of the page is not repeated. */
export interface LiveData extends Pick<PageData, 'digest' | 'files' | 'collar' | 'rotary' | 'dryRun'> {
  readonly slug: string;
  readonly source: SourcePage | null;
  /** For the turning view, when the template has one. */
  readonly scene: SolidScene | null;
}
