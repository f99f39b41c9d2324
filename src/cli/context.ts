import type { Terminal } from './terminal.ts';

/** What every command is given, beside its own arguments. */
export interface Context {
  readonly terminal: Terminal;
  readonly json: boolean;
}
