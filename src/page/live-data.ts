import type { PageData } from './data.ts';

/** What the page's scripts are given as JSON in the element `data`; the text of the page is not repeated. */
export interface LiveData extends Pick<PageData, 'digest' | 'version' | 'source' | 'asked' | 'later'> {
  readonly slug: string;
}
