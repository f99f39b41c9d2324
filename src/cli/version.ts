declare const __VERSION__: string | undefined;

/** From package.json, put in by the build. */
export const VERSION: string = typeof __VERSION__ === 'string' ? __VERSION__ : '0.0.0-source';
