import type { Finding } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { PlanHole } from '../model/plan.ts';
import type { Deg, Mm } from '../units/scalar.ts';

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
  readonly holes: readonly {
    readonly id: string | null;
    readonly angle_deg: Deg;
    readonly height_mm: Mm;
    readonly diameter_mm: Mm;
  }[];
  readonly findings: readonly Finding[];
}

export interface RotaryPage {
  /** The program's text; null when it is withheld. */
  readonly program: string | null;
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
  readonly lines?: Readonly<Record<string, number>>;
  /** Profile files the jig file names, already read. */
  readonly profiles?: Readonly<Record<string, unknown>>;
}

/** What the build makes once: style and script with the hashes the page's security policy names. */
export interface PageTemplate {
  readonly style: string;
  /** `sha256-…` of `style`. */
  readonly styleHash: string;
  readonly script: string;
  readonly scriptHash: string;
  /** The 3D library and view, compressed (raw deflate) and base64; allowed by the hash of its inflated text. */
  readonly solid?: { readonly packed: string; readonly hash: string };
}

/** Everything on the page. What is null was not made or not asked for, and the page says so. */
export interface PageData {
  readonly jig: Jig;
  readonly layout: Layout;
  readonly plan: { readonly holes: readonly PlanHole[] };
  readonly findings: readonly Finding[];
  readonly files: readonly MadeFile[];
  readonly notMade: readonly NotMade[];
  readonly dryRun: DryRunPage | null;
  readonly rotary: RotaryPage | null;
  readonly budget: BudgetPage | null;
  readonly collar: { readonly supplies: readonly Supply[]; readonly steps: readonly Step[] } | null;
  readonly source: SourcePage | null;
  readonly version: string;
  /** Of the jig file and tool version: ticks are kept under it. */
  readonly digest: string;
  readonly template: PageTemplate;
}
