import { chartColours } from "../charts/chartColours.js";

const variables = (shade: "light" | "dark") =>
  Object.values(chartColours)
    .map((colour) => `${colour.variable}:${colour[shade]}`)
    .join(";");

/** The look of a page: one column, large type, both shades, and A4 or letter when printed. */
export const pageStyle = `
:root{color-scheme:light dark;${variables("light")}}
@media (prefers-color-scheme:dark){:root{${variables("dark")}}}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);overflow-wrap:anywhere;font:1.0625rem/1.55 Charter,"Bitstream Charter","Source Serif 4",Georgia,serif}
main,header,footer{max-width:50rem;margin:0 auto;padding:0 1.125rem}
header{padding-top:2.25rem}
h1{font-size:1.75rem;line-height:1.2;margin:0 0 .35rem}
h1,h2,caption{text-wrap:balance}
h2{font-size:1.25rem;line-height:1.3;margin:2.6rem 0 .7rem;padding-top:.9rem;border-top:1px solid var(--rule);break-after:avoid}
p,ul,ol{margin:.55rem 0}
ul,ol{padding-left:1.35rem}
.about{color:var(--faint);font-size:.95rem}
.answer{margin:1.4rem 0 0;padding:.25rem 0 .25rem 1.1rem;border-left:.35rem solid var(--accent);font-size:1.22rem;line-height:1.45}
.answer p{margin:.3rem 0}
.scroll{overflow-x:auto;margin:1rem 0}
.scroll:focus-visible{outline:2px solid var(--accent);outline-offset:2px}
table{border-collapse:collapse;width:100%;overflow-wrap:normal;font:.875rem/1.35 system-ui,sans-serif;font-variant-numeric:tabular-nums}
caption{text-align:left;color:var(--faint);padding:0 0 .45rem;font-size:.9rem;overflow-wrap:anywhere}
th,td{padding:.34rem .5rem;text-align:left;vertical-align:bottom;border-bottom:1px solid var(--rule)}
td{vertical-align:top}
th{font-weight:600;color:var(--faint)}
th:first-child,td:first-child{padding-left:0}
tbody th{color:var(--ink);vertical-align:top}
.number{text-align:right}
td.number{white-space:nowrap}
tbody th:not(.number){min-width:6.5rem;overflow-wrap:anywhere}
tr{break-inside:avoid}
thead{display:table-header-group}
figure{margin:1.3rem 0;break-inside:avoid}
figure svg{display:block;width:100%;height:auto;font-family:system-ui,sans-serif}
figure .narrow{display:none}
figcaption{font-size:.95rem;margin-top:.4rem;color:var(--faint)}
figcaption b{color:var(--ink)}
.finding{margin:.6rem 0;padding-left:.9rem;border-left:.2rem solid var(--rule)}
.finding.warning{border-left-color:var(--c5)}
.finding.problem{border-left-color:var(--c2)}
.finding b{font-variant-caps:all-small-caps;letter-spacing:.04em}
footer{margin-top:3rem;padding-top:1rem;padding-bottom:2.5rem;color:var(--faint);font-size:.9rem}
code{font:.9em ui-monospace,monospace}
@media (max-width:40rem){
body{font-size:1rem}
h1{font-size:1.45rem}
.answer{font-size:1.1rem}
caption span{display:block;position:sticky;left:0;max-width:calc(100vw - 2.25rem)}
figure .wide{display:none}
figure .narrow{display:block}
table{font-size:.8rem}
th,td{padding-left:.22rem;padding-right:.22rem}
tbody th:not(.number){min-width:4rem}
}
@media screen and (max-width:40rem){
.cards,.cards caption,.cards tbody{display:block}
.cards thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.cards tr{display:grid;grid-template-columns:repeat(3,1fr);gap:.2rem .6rem;padding:.5rem 0 .6rem;border-bottom:1px solid var(--rule)}
.cards{font-size:.875rem}
.cards th,.cards td{align-self:end;padding:0;border:0;text-align:left;white-space:normal;min-width:0}
.cards tbody th{grid-column:1/-1}
.cards .two{grid-column:span 2}
.cards .whole{grid-column:1/-1}
.cards td:empty{display:none}
.cards [data-label]::before{content:attr(data-label);content:attr(data-label) / "";display:block;color:var(--faint);font-size:.78rem;font-weight:400}
.cards th[data-label]::before{display:none}
.cards th.number[data-label]::before{display:inline;margin-right:.4em}
}
@media print{
:root{${variables("light")};color-scheme:light}
@page{margin:16mm 14mm}
body{background:none;font-size:10.5pt}
main,header,footer{max-width:none;padding:0}
figure .wide{display:block}
figure .narrow{display:none}
figure svg{max-height:220mm}
.scroll{overflow:visible;break-inside:avoid}
caption,thead{break-after:avoid}
h2{margin-top:1.6rem}
table{font-size:9pt}
th,td{padding:.25rem .4rem}
}
`.trim();
