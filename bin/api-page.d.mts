/** One thing that the library exports, with the comment above it. */
export interface Thing {
  readonly name: string;
  readonly file: string;
  readonly isFunction: boolean;
  readonly parameters: readonly string[];
  readonly signature: string;
  readonly lead: string;
  readonly tags: readonly { readonly name: string; readonly text: string }[];
}

export function publicThings(index?: string): Thing[];
export function apiPage(things: readonly Thing[], example: string): string;
