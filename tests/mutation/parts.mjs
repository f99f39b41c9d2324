/** The code that is mutated, and the quick tests that meet it by import. */
export const PARTS = {
  geometry: {
    folder: 'src/geometry',
    files: ['frames', 'least-squares', 'moisture', 'random', 'rigid', 'rigid-cone', 'rigid-quick', 'statistics'],
    tests: ['geometry-stats', 'moisture', 'least-squares', 'frames'],
  },
  depth: {
    folder: 'src/rotary',
    files: ['depth', 'stroke', 'bore', 'edge'],
    tests: ['depth'],
  },
  interpreter: {
    folder: 'src/dryrun',
    files: ['codes', 'run', 'state', 'moves', 'interpret', 'execute', 'cycles', 'block', 'program'],
    tests: ['dryrun-language', 'dryrun-words'],
  },
  fit: {
    folder: 'src/fit',
    files: ['rod-ways', 'screw-length', 'rod-line', 'screws', 'rods'],
    tests: ['fit-rods', 'fit-screws', 'fit-places'],
  },
};
