import type { DryRunContext } from '../dryrun/context.ts';
import { inspect } from '../dryrun/measure.ts';
import type { Removal } from '../dryrun/removal.ts';
import type { DryRunReport } from '../dryrun/report.ts';
import { loadRows, measuredMarks, sectionOf, toolShares, wayPoints } from '../dryrun/views.ts';
import { loadPicture } from '../picture/dryrun-load.ts';
import { pathPicture, removalMap } from '../picture/dryrun-map.ts';
import { sectionPicture, timePicture } from '../picture/dryrun-section.ts';
import { standAlone } from '../picture/style.ts';
import type { MadeFile } from './made.ts';

/** The unrolled map of what is gone, the way of the work, time by tool, and the section of one hole, as SVG files. */
export function dryRunPictures(
  report: DryRunReport,
  removal: Removal,
  context: DryRunContext,
  section?: string,
): MadeFile[] {
  const { layout } = context;
  const holes = report.removed?.holes ?? inspect(removal, layout);
  const chosen = section ?? holes.find((h) => h.entrance !== null)?.id;
  const cut = chosen === undefined ? undefined : sectionOf(removal, holes, chosen, layout);
  return [
    {
      name: 'removal-map.svg',
      data: standAlone(removalMap(layout, measuredMarks(holes))),
      what: 'what is gone, with the planned holes over it',
    },
    {
      name: 'path.svg',
      data: standAlone(pathPicture(layout, wayPoints(report))),
      what: 'the way of the work, in order',
    },
    { name: 'time.svg', data: standAlone(timePicture(toolShares(report, context.tools))), what: 'time by tool' },
    {
      name: 'chip-load.svg',
      data: standAlone(loadPicture(loadRows(report, context.tools), report.chip_load.seconds_each, report.seconds)),
      what: 'chip load over time, against what each bit bears in this wood',
    },
    ...(cut === undefined
      ? []
      : [{ name: `section-${chosen}.svg`, data: standAlone(sectionPicture(cut)), what: `section through ${chosen}` }]),
  ];
}
