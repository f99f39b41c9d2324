/** What is mutated together, and the quick tests that meet it by import. Globs from the top of the repository. */
export const PARTS = {
  geometry: {
    mutate: ['src/geometry/*.ts'],
    tests: [
      'tests/outside/geometry-stats.test.ts',
      'tests/outside/moisture.test.ts',
      'tests/outside/layout.test.ts',
      'tests/laws/layout.test.ts',
      'tests/outside/least-squares.test.ts',
      'tests/outside/frames.test.ts',
    ],
  },
  depth: {
    mutate: ['src/rotary/{depth,stroke,bore,edge}.ts'],
    tests: ['tests/outside/depth.test.ts'],
  },
  interpreter: {
    mutate: ['src/dryrun/{block,codes,cycles,execute,interpret,moves,program,run,state}.ts'],
    tests: ['tests/outside/dryrun-language.test.ts', 'tests/outside/dryrun-words.test.ts'],
  },
  fit: {
    mutate: ['src/fit/{rods,rod-line,rod-ways,screws,screw-length,holes,outline,sweep}.ts'],
    tests: ['tests/outside/fit-rods.test.ts', 'tests/outside/fit-screws.test.ts', 'tests/outside/fit-places.test.ts'],
  },
};
