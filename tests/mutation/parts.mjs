/** The code that is mutated, file by file, and the quick tests in `tests/outside` that meet it by import. */
export const PARTS = {
  geometry: {
    'src/geometry/frames': ['frames'],
    'src/geometry/least-squares': ['least-squares'],
    'src/geometry/moisture': ['moisture'],
    'src/geometry/random': ['random'],
    'src/geometry/statistics': ['statistics'],
    'src/geometry/rigid-quick': ['rigid'],
    'src/geometry/rigid-cone': ['rigid'],
    'src/geometry/rigid': ['rigid'],
  },
  depth: {
    'src/rotary/depth': ['depth'],
    'src/rotary/stroke': ['depth'],
    'src/rotary/bore': ['depth'],
    'src/rotary/edge': ['depth'],
  },
  interpreter: {
    'src/dryrun/codes': ['dryrun-words', 'dryrun-language'],
    'src/dryrun/run': ['dryrun-words', 'dryrun-language'],
    'src/dryrun/state': ['dryrun-words', 'dryrun-language'],
    'src/dryrun/moves': ['dryrun-words', 'dryrun-language'],
    'src/dryrun/execute': ['dryrun-words', 'dryrun-language'],
    'src/dryrun/cycles': ['dryrun-words', 'dryrun-language'],
    'src/dryrun/interpret': ['dryrun-words', 'dryrun-language'],
    'src/dryrun/block': ['dryrun-words', 'dryrun-language'],
    'src/dryrun/program': ['dryrun-words', 'dryrun-language'],
  },
  fit: {
    'src/fit/screw-length': ['fit-screws', 'fit-rods'],
    'src/fit/screws': ['fit-screws', 'fit-rods'],
    'src/fit/rod-ways': ['fit-rods', 'fit-places'],
    'src/fit/rods': ['fit-rods', 'fit-places'],
    'src/fit/rod-line': ['fit-rods', 'fit-places'],
  },
};
