/**
 * One look for every picture, by class. Line widths are screen pixels whatever the scale. Colours are variables with light-paper fallbacks, so that a picture saved alone
 * looks right. Nothing is told by colour only: levels have words and shapes, rows and roles have line styles.
 */
export const pictureCss = `
.picture :is(path,rect,circle){vector-effect:non-scaling-stroke}
.picture{display:block;font-family:system-ui,"Segoe UI","Noto Sans",sans-serif}
.picture text{fill:var(--ink,#20262c)}
.picture .soft{fill:var(--soft,#58626b)}
.picture .mid{text-anchor:middle}
.picture .end{text-anchor:end}
.picture .bold{font-weight:700}
.picture .no{paint-order:stroke;stroke:var(--wood,#f3e7d2);stroke-width:.25em;stroke-linejoin:round}
.picture .skin{fill:var(--wood,#f3e7d2)}
.picture .cut{fill:var(--wood2,#dcc39a);stroke:var(--ink,#20262c);stroke-width:1}
.picture .edge{fill:none;stroke:var(--ink,#20262c);stroke-width:2.4}
.picture .tear{fill:none;stroke:var(--soft,#58626b);stroke-width:1.3;stroke-dasharray:2 2}
.picture .zero{fill:none;stroke:var(--plan,#12548f);stroke-width:1.6;stroke-dasharray:8 2 2 2}
.picture .lugline{fill:none;stroke:var(--plan,#12548f);stroke-width:.8}
.picture .joint{fill:none;stroke:var(--soft,#58626b);stroke-width:1;stroke-dasharray:1 2}
.picture .ring{fill:var(--ring,#b98d4a);fill-opacity:.22;stroke:var(--soft,#58626b);stroke-width:.8;stroke-dasharray:4 2}
.picture .bed{fill:var(--paper,#fffdf8);stroke:var(--stop,#a8320a);stroke-width:1.3}
.picture .foot{fill:var(--foot,#7d93a6);fill-opacity:.28;stroke:var(--ink,#20262c);stroke-width:1}
.picture .lever{fill:none;stroke:var(--ink,#20262c);stroke-width:1;stroke-dasharray:3 2}
.picture .drill{fill:var(--paper,#fffdf8);stroke:var(--plan,#12548f);stroke-width:1.3}
.picture .cross{fill:none;stroke:var(--plan,#12548f);stroke-width:.8}
.picture .old{fill:none;stroke:var(--stop,#a8320a);stroke-width:1.6;stroke-dasharray:2 1.2}
.picture .hit{fill:transparent;stroke:none}
.picture .chord{fill:none;stroke:var(--plan,#12548f);stroke-width:1}
.picture .chord2{fill:none;stroke:var(--plan,#12548f);stroke-width:1;stroke-dasharray:4 2}
.picture .lead{fill:none;stroke:var(--soft,#58626b);stroke-width:.7}
.picture .metal{fill:var(--metal,#c3ccd3);stroke:var(--ink,#20262c);stroke-width:1}
.picture .bore{fill:var(--paper,#fffdf8);stroke:var(--ink,#20262c);stroke-width:.7}
.picture .rod{fill:var(--rod,#7d93a6);stroke:var(--ink,#20262c);stroke-width:.8}
.picture .thread{fill:none;stroke:var(--ink,#20262c);stroke-width:.7}
.picture .head{fill:none;stroke:var(--plan,#12548f);stroke-width:1.6}
.picture .limit{fill:none;stroke:var(--stop,#a8320a);stroke-width:1.3;stroke-dasharray:2 1}
.picture .good{fill:var(--good,#12548f);fill-opacity:.2;stroke:none}
.picture .bad{fill:var(--stop,#a8320a);fill-opacity:.85;stroke:none}
.picture .lit .foot,.picture .foot.lit{stroke:var(--lit,#a8320a);stroke-width:1.6}
.picture .lit .drill{fill:var(--lit,#a8320a);stroke:var(--lit,#a8320a)}
.picture .hole.lit .hit{stroke:var(--lit,#a8320a);stroke-width:2}
.picture .lit .no{font-weight:700}
.picture .aim{fill:none;stroke:var(--lit,#a8320a);stroke-width:2}
`;

/** Colours as they are, for viewers that know no CSS variables. */
export const plainCss: string = pictureCss.replace(/var\(--[\w-]+,([^)]*)\)/g, '$1');

/** A picture as a file of its own: its style inside, readable by any viewer. */
export const standAlone = (svg: string): string => svg.replace('>', `><style>${plainCss}</style>`);
