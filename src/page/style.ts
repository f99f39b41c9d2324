import { pictureCss } from '../picture/style.ts';

/**
 * The look of the page: paper and ink, large enough for arm's length, boxes a gloved finger hits. Levels are told by word
 * and border as well as by colour; blue and rust stay apart for every common kind of colour blindness.
 */
const colours = `
:root{color-scheme:light dark;--paper:#fffdf8;--sheet:#f6f1e6;--ink:#20262c;--soft:#58626b;--rule:#cfc6b4;--plan:#12548f;--stop:#a8320a;--care:#775000;--lit:#a8320a;--wood:#f3e7d2;--wood2:#dcc39a;--ring:#b98d4a;--foot:#7d93a6;--metal:#c3ccd3;--rod:#7d93a6;--good:#12548f;--onstop:#fff}
@media screen and (prefers-color-scheme:dark){:root{--paper:#171b1f;--sheet:#20262c;--ink:#eeebe4;--soft:#b3bcc4;--rule:#46505a;--plan:#8fc4f6;--stop:#ff9c73;--care:#efc25a;--lit:#ff9c73;--wood:#332c22;--wood2:#5d4e37;--ring:#b98d4a;--foot:#8fa7bb;--metal:#4d5963;--rod:#93a7b8;--good:#8fc4f6;--onstop:#171b1f}}
`;

const layout = `
*{box-sizing:border-box}
html{font:100%/1.5 system-ui,"Segoe UI","Noto Sans",sans-serif;scroll-padding-top:4.5rem;-webkit-text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font-size:1.0625rem;overflow-wrap:anywhere}
header,main{max-width:76rem;margin:0 auto;padding:0 clamp(.75rem,3vw,2rem)}
header{padding-top:1rem}
h1{font-size:clamp(1.5rem,5vw,2.4rem);line-height:1.15;margin:0 0 .75rem}
h2{font-size:1.5rem;line-height:1.2;margin:2.5rem 0 .75rem;padding-top:.5rem;border-top:3px solid var(--ink)}
h3{font-size:1.125rem;margin:1rem 0 .25rem}
p{margin:.35rem 0}
ul,ol{padding-left:1.25rem}
a{color:var(--plan)}
a:focus-visible,button:focus-visible,input:focus-visible,select:focus-visible,summary:focus-visible,[tabindex]:focus-visible{outline:3px solid var(--plan);outline-offset:2px}
.kind{margin:0;color:var(--soft);letter-spacing:.08em;text-transform:uppercase;font-size:.8125rem}
.fine{color:var(--soft);font-size:.9375rem}
.skip{position:absolute;left:-99rem}
.skip:focus{left:.5rem;top:.5rem;background:var(--paper);padding:.5rem;z-index:9}
nav{position:sticky;top:0;z-index:5;background:var(--paper);border-bottom:1px solid var(--rule);margin-top:1rem}
nav ul{display:flex;gap:.25rem;overflow-x:auto;list-style:none;margin:0 auto;max-width:76rem;padding:.25rem clamp(.75rem,3vw,2rem)}
nav a{display:block;padding:.6rem .7rem;white-space:nowrap;text-decoration:none}
nav a:hover{text-decoration:underline}
.verdict{border:2px solid var(--plan);border-left-width:.75rem;padding:.6rem .9rem;background:var(--sheet)}
.verdict.stop{border-color:var(--stop)}
.verdict.stop strong{font-size:1.35rem;color:var(--stop)}
.verdict ul{margin:.25rem 0}
figure{margin:1rem 0;background:var(--sheet);border:1px solid var(--rule);padding:.5rem}
figcaption{font-size:.9375rem;color:var(--soft);padding:.4rem .25rem 0}
.picture:not(.true){width:100%;height:auto;max-height:80vh}
.strips{display:flex;flex-wrap:wrap;gap:8mm;align-items:flex-start;overflow-x:auto}
.picture:is(.side,.rod){max-height:24rem}
.picture:is(.threads,.screw){max-height:15rem}
.scroll{overflow-x:auto;max-width:100%}
.wide .picture{min-width:56rem}
.replay{display:grid;grid-template-columns:minmax(0,3fr) minmax(0,2fr);gap:1rem;align-items:start}
@media (max-width:52rem){.replay{grid-template-columns:minmax(0,1fr)}}
.replay figure,.replay pre{margin:0 0 1rem}
.replay .replay-cut{max-height:14rem}
.replay .replay-end{max-height:26rem}
.pair{columns:2 24rem;column-gap:1rem}
.pair figure{margin:0 0 1rem;break-inside:avoid}
.findings{list-style:none;padding:0;margin:0}
.finding{display:grid;grid-template-columns:5.5rem minmax(0,1fr);gap:0 .9rem;padding:.7rem 0;border-top:1px solid var(--rule)}
.finding .picture{max-width:34rem;max-height:24rem}
.finding figure{display:inline-block;max-width:100%;width:36rem}
.level{font-weight:800;text-align:center;margin:.3rem 0;padding:.1rem .25rem;height:fit-content;border:2px dashed var(--soft);color:var(--soft)}
.care .level{border:4px double var(--care);color:var(--care)}
.stop .level{border:2px solid var(--stop);background:var(--stop);color:var(--onstop)}
.said{font-size:1.125rem}
.note :is(.said,.try){font-size:1rem}
.notes{border-top:1px solid var(--rule);padding:.35rem 0}
.notes summary{padding:.6rem 0;min-height:2.75rem;cursor:pointer;font-weight:600}
.notes ul{list-style:none;padding:0 0 0 1rem;margin:0;border-left:.25rem solid var(--rule);columns:2 26rem;column-gap:2rem}
.note.finding{display:block;break-inside:avoid;border-top:0;padding:.3rem 0 .6rem}
.before{border-left:.4rem solid var(--care);padding:.2rem .6rem;background:var(--sheet)}
.where{color:var(--soft);font-size:.9375rem;margin:0}
table{border-collapse:collapse;font-variant-numeric:tabular-nums;min-width:100%}
caption{text-align:left;color:var(--soft);font-size:.9375rem;padding:.25rem 0}
th,td{overflow-wrap:normal;padding:.4rem .55rem;border-bottom:1px solid var(--rule);text-align:left;vertical-align:top}
thead th{border-bottom:2px solid var(--ink);font-size:.9375rem;vertical-align:bottom;overflow-wrap:normal}
.num{text-align:right}
tbody th{font-weight:400;position:sticky;left:0;background:var(--paper)}
td .in{display:block;color:var(--soft);font-size:.875rem}
td .to{display:block;color:var(--soft);font-size:.875rem}
.pick .fine{overflow-wrap:anywhere}
.pick{font:inherit;color:inherit;background:none;border:1px solid var(--rule);border-radius:.3rem;padding:.35rem .6rem;min-height:2.75rem;text-align:left;cursor:pointer;white-space:nowrap}
.steps{list-style:none;counter-reset:step;padding:0}
.step{counter-increment:step;border-left:.4rem solid var(--rule);padding:.25rem 0 .75rem 1rem;margin:0 0 1.25rem;break-inside:avoid}
.step h3{font-size:1.25rem;margin:0}
.step h3 .tick span::before{content:counter(step) ". "}
.step:has(h3 input:checked){border-left-color:var(--plan)}
.caution{border:4px double var(--care);padding:.4rem .7rem;margin:.5rem 0}
.caution b{color:var(--care)}
.sure{border-top:1px dashed var(--rule);padding-top:.35rem;margin-top:.5rem}
.tick{display:flex;gap:.7rem;align-items:flex-start;padding:.35rem 0;min-height:2.75rem;cursor:pointer}
.tick input{flex:none;width:1.75rem;height:1.75rem;margin:0;accent-color:var(--plan)}
.tick span{padding-top:.1rem}
.tick:has(:checked)>span{text-decoration:line-through;text-decoration-thickness:1px;color:var(--soft)}
.boxes{display:flex;flex-wrap:wrap;gap:0 1.25rem}
.boxes .tick{flex:1 1 100%}
.boxes .tick.hole{flex:0 1 11.5rem}
pre{white-space:pre-wrap;background:var(--sheet);padding:.75rem;max-height:32rem;overflow:auto}
code{font-size:.95em}
:is(.live-only,.able-only){display:none}
.live .live-only,.able .able-only{display:block}
[hidden]{display:none!important}
button{font:inherit;color:var(--ink);background:var(--sheet);border:1px solid var(--soft);border-radius:.3rem;min-height:2.75rem;padding:.35rem .9rem;cursor:pointer}
button:disabled{color:var(--soft);border-color:var(--rule);cursor:default}
.pick[aria-pressed=true]{border-color:var(--lit);outline:2px solid var(--lit)}
.fields{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,15rem),1fr));gap:.75rem 1rem}
.field label{display:block;font-size:.9375rem}
.field input{font:inherit;width:100%;min-height:2.75rem;padding:.3rem .6rem;border:1px solid var(--soft);border-radius:.3rem;background:var(--paper);color:var(--ink)}
.field input[aria-invalid]{border:2px solid var(--stop)}
.wrong{color:var(--stop);font-size:.9375rem;margin:.15rem 0 0}
#solid-canvas,#replay-solid{display:block;width:100%;height:min(70vh,32rem);background:var(--sheet);border:1px solid var(--rule);touch-action:pan-y;cursor:grab}
.supplies{list-style:none;padding:0;margin:0;columns:2 24rem;column-gap:2rem}
.supplies li{break-inside:avoid}
.supplies .fine{display:block}
.guess{display:block;color:var(--care);font-size:.9375rem}
.controls{display:flex;flex-wrap:wrap;gap:.5rem 1rem;align-items:center}
select{font:inherit;min-height:2.75rem;color:var(--ink);background:var(--paper);border:1px solid var(--soft);border-radius:.3rem;padding:.3rem}
.slide{display:block;margin-top:.5rem}
.slide input{width:100%;height:2rem;accent-color:var(--plan)}
#replay-marks{position:relative;height:.9rem}
.spot{position:absolute;width:.35rem;height:.9rem;background:var(--soft)}
.spot.stop{background:var(--stop)}
.spot.care{background:var(--care)}
#replay-lines{max-height:none;min-height:11em;overflow-x:auto;white-space:pre}
#replay-lines b{color:var(--plan)}
.bore-line{stroke:var(--plan);stroke-width:2;stroke-dasharray:2 2}
.done .bore-line{stroke:var(--ink);stroke-width:5;stroke-dasharray:none}
.replay-sheet .done .drill{fill:var(--ink);stroke:var(--ink)}
#picked{position:sticky;bottom:0;z-index:6;background:var(--sheet);border-top:3px solid var(--lit);padding:.5rem clamp(.75rem,3vw,2rem);max-height:60vh;overflow:auto}
#picked .which{font-size:1.25rem;font-weight:700}
#picked dl{display:grid;grid-template-columns:repeat(auto-fill,minmax(6.75rem,1fr));gap:.3rem .9rem;margin:.3rem 0}
#picked dt{font-size:.8125rem;line-height:1.2;color:var(--soft)}
#picked dd{margin:0;font-size:1.1875rem;line-height:1.3;font-variant-numeric:tabular-nums}
#picked .mm::after{content:' mm';font-size:.75em}
#picked .in::after{content:' in'}
#picked .in{display:block;font-size:.875rem;color:var(--soft)}
#picked .to{display:block;font-size:.8125rem;line-height:1.2;color:var(--soft)}
tr.lit>*{background:var(--sheet)}
tr.lit>th{box-shadow:inset .4rem 0 var(--lit)}
.tick.lit{outline:2px solid var(--lit)}
@media (max-width:34rem){tbody th .pick{white-space:normal;max-width:6.5rem}.finding{grid-template-columns:minmax(0,1fr)}.level{justify-self:start;padding:.1rem .8rem}.boxes .tick.hole{flex-basis:8rem}}
`;

const paper = `
@page{margin:12mm}
@media print{
html{font-size:9pt}
body{background:#fff}
nav,.skip,.screen{display:none!important}
h2{break-after:avoid;margin-top:1.2rem;border-top-width:2px}
figure,.finding,tr{break-inside:avoid}
.scroll{overflow:visible}
.wide .picture{min-width:0}
.picture:not(.true){max-height:150mm}
.picture:is(.setup){max-height:64mm}
#rotary figure{margin:2mm 0;padding:1mm}
#rotary .pair{columns:1}
#rotary .pair .picture{max-height:32mm}
#rotary table{font-size:.85em}
.pair{display:block;columns:2}
.pair figure{margin-bottom:4mm}
th,td{padding:.12rem .3rem}
table{font-size:.9em}
td .in{font-size:.85em;line-height:1.1}
td .to{display:none}
#holes :is(th,td):nth-child(8){display:none}
.level{padding:0}
.finding{padding:.25rem 0}
.said{font-size:1em}
.pick{border:0;padding:0;min-height:0}
.tick{min-height:0;padding:.1rem 0}
.tick input{width:4mm;height:4mm}
.step{break-inside:auto}
.step h3{break-after:avoid}
.step :is(.tick,.caution,.sure){break-inside:avoid}
.notes ul{columns:2;column-gap:6mm}
#holes,#work,#rotary,#gauge{break-before:page}
#rotary{break-after:page}
.caution{border-width:2px;border-style:solid}
pre{max-height:none}
.notes::details-content{content-visibility:visible;display:block;height:auto}
.notes summary{list-style:none;padding:0;min-height:0}
a{color:inherit;text-decoration:none}
}
`;

export const pageCss = colours + layout + pictureCss + paper;
