import type { Finding } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { PlanHole } from '../model/plan.ts';
import type { RotaryOptions } from '../rotary/types.ts';

export interface MadeFile {
  readonly name: string;
  /** In a few words, what it is for. */
  readonly what: string;
}

/** Something left out of the set, with the reason in plain words. */
interface NotMade {
  readonly what: string;
  readonly why: string;
}

export interface Supply {
  readonly what: string;
  readonly count: number | string;
  readonly why: string;
  /** Keys of the jig file that this rests on and that it leaves out. */
  readonly assumed?: readonly string[];
}

/** A step with the way to see that it went right; `caution` stands beside the step it belongs to. */
interface Step {
  readonly title: string;
  readonly body: readonly string[];
  readonly sure?: string;
  readonly caution?: readonly string[];
}

interface DryRunPage {
  readonly seconds: number;
  /** How many were found in the wood. */
  readonly holes: number;
  readonly findings: readonly Finding[];
}

export interface RotaryPage {
  readonly program: string;
  /** Something says stop: the program is not in the set, and the page only shows why. */
  readonly withheld: boolean;
  readonly datum: 'top' | 'bottom';
  /** +1 when A equals the shell's angle on this machine. */
  readonly signOfA: 1 | -1;
  readonly tools: readonly { readonly id: number; readonly what: string; readonly for: string }[];
  /** Lines of the setup sheet, in order. */
  readonly setup: readonly string[];
}

export interface BudgetPage {
  /** One line a way of working: what it is and how likely everything goes on. */
  readonly lines: readonly { readonly what: string; readonly value: string; readonly why: string }[];
}

/** The jig file, for recomputing and saving: its text, what it says, and where each scalar stands in the text. */
export interface SourcePage {
  readonly text: string;
  readonly object: unknown;
  /** Key path such as `lugs.rows.0.distance` to [from, to) in `text`. */
  readonly spans: Readonly<Record<string, readonly [number, number]>>;
  /** Line of each key path, for findings. */
  readonly lines: Readonly<Record<string, number>>;
  /** Profile files the jig file names, already read. */
  readonly profiles?: Readonly<Record<string, unknown>>;
}

/** A script compressed (raw deflate) in base64; the policy allows it by the hash of its inflated text. */
export interface PackedScript {
  readonly packed: string;
  readonly hash: string;
}

/** What the build makes once: style and scripts with the hashes the page's security policy names. */
export interface PageTemplate {
  readonly style: string;
  /** `sha256-…` of `style`. */
  readonly styleHash: string;
  /** Ticks, picks and the unpacking of the rest. */
  readonly script: string;
  readonly scriptHash: string;
  /** What works numbers out again and replays the program. */
  readonly again: PackedScript;
  /** The 3D library and views. */
  readonly solid?: PackedScript;
}

/** How many sheets the set's parts are nested on. */
interface Sheets {
  readonly wrap: number;
  readonly collar: number;
}

/** What the later stages made. What is null was not made or not asked for, and the page says so. */
export interface MadePart {
  readonly dryRun: DryRunPage | null;
  readonly rotary: RotaryPage | null;
  readonly budget: BudgetPage | null;
  readonly collar: { readonly supplies: readonly Supply[]; readonly steps: readonly Step[] } | null;
  readonly sheets: Sheets;
}

/** Everything on the page. */
export interface PageData extends MadePart {
  readonly jig: Jig;
  readonly layout: Layout;
  readonly plan: { readonly holes: readonly PlanHole[] };
  readonly findings: readonly Finding[];
  /** Those of `findings` that are not worked out again at every key press. */
  readonly later: readonly Finding[];
  readonly files: readonly MadeFile[];
  readonly notMade: readonly NotMade[];
  readonly source: SourcePage;
  /** How the program was asked for: the page writes it the same way. */
  readonly asked: Omit<RotaryOptions, 'digest' | 'version'>;
  readonly version: string;
  /** Of the jig file and tool version: ticks are kept under it. */
  readonly digest: string;
  readonly template: PageTemplate;
}
