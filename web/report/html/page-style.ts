import type { ReportDocument } from '../document.ts'

/** A text as CSS writes it between quotes: what could end it by its number. */
const quoted = (text: string): string =>
  `"${text.replace(/[^\p{L}\p{N} .,:;()%±–−°/-]/gu, (sign) => `\\${(sign.codePointAt(0) ?? 0).toString(16)} `)}"`

/** The page's own style sheet: light, of one column, printed on the report's paper with its head and foot. */
export function pageStyle({ paper, facts }: ReportDocument): string {
  const widths = Array.from({ length: 25 }, (_, digits) => `.n${digits}{min-width:${digits}ch}`).join('')
  return `
:root{color-scheme:light;--ink:#1d2730;--soft:#4a5761;--rule:#b8b2a4;--accent:#1f5468}
*{box-sizing:border-box}
body{margin:0 auto;max-width:64rem;padding:1rem 1.5rem 3rem;background:#fff;color:var(--ink);font:1rem/1.5 "DejaVu Sans Condensed","DejaVu Sans",Verdana,sans-serif;font-variant-numeric:tabular-nums;overflow-wrap:anywhere}
.skip{position:absolute;left:-99rem}
.skip:focus{left:1rem;top:1rem;padding:.7rem 1rem;background:#fff;outline:3px solid var(--accent)}
.watermark{max-width:none;position:sticky;top:0;z-index:1;margin:0 -1.5rem 1rem;padding:.3rem 1.5rem;background:#f1efe9;font-weight:700;letter-spacing:.06em}
h1,h2,h3,h4{line-height:1.25;text-wrap:balance}
h1{margin:.1rem 0 1rem;color:var(--accent);font-size:2.1rem}
h2{margin:2.4rem 0 .6rem;color:var(--accent);font-size:1.5rem}
h3{margin:1.8rem 0 .5rem;font-size:1.2rem}
h4{margin:1.3rem 0 .4rem;font-size:1rem}
.number{margin-right:.6em}
.site{margin:1.5rem 0 0;color:var(--soft);font-size:1.2rem}
p,ul,ol{margin:.6rem 0;max-width:46rem}
dl.facts{display:grid;grid-template-columns:max-content 1fr;margin:0 0 1rem;border-bottom:1px solid var(--rule)}
.facts :is(dt,dd){margin:0;padding:.25rem 1rem .25rem 0;border-top:1px solid var(--rule)}
.facts dt{color:var(--soft);font-weight:700}
a{color:var(--accent)}
.contents ol{max-width:46rem;padding:0;list-style:none}
.contents li{padding:.15rem 0}
.contents .level-2{padding-left:2rem}
.caution{margin:1rem 0;padding:.6rem 1rem;border-left:4px solid #8a5a00;background:#f8edcf}
.caution p{margin:.2rem 0}
figure{margin:1.6rem 0}
figcaption,caption{padding:.4rem 0;text-align:left;font-size:.92rem}
figcaption{border-top:1px solid var(--rule)}
.pair{display:flex;flex-wrap:wrap;gap:1.5rem}
.pair figure{flex:1 1 24rem;min-width:0}
.drawing{display:block;width:100%;height:auto;font-family:inherit}
.table{margin:1.6rem 0;overflow-x:auto}
.table:focus-visible{outline:3px solid var(--accent)}
table{min-width:60%;border-collapse:collapse;font-size:.875rem;line-height:1.35}
th,td{padding:.25rem .7rem .25rem .3rem;border-bottom:1px solid var(--rule);text-align:left;vertical-align:top;font-weight:400;overflow-wrap:break-word}
thead th{border-top:2px solid var(--ink);border-bottom:1px solid var(--ink);vertical-align:bottom;font-weight:700}
.over th{background:#f1eee5;font-weight:700}
.unit{font-weight:400}
.middle{text-align:center}
.short{white-space:nowrap}
.whole,.part{display:inline-block}
.whole{text-align:right}
.part{text-align:left}
${widths}
.note{margin:.3rem 0 0;color:var(--soft);font-size:.85rem}
footer{margin-top:3rem;padding-top:.5rem;border-top:1px solid var(--rule);color:var(--soft);font-size:.875rem}
@page{size:${paper === 'A4' ? 'A4' : 'A3 landscape'};margin:22mm 18mm 20mm 22mm;
@top-left{content:${quoted(facts.site)};font:8pt sans-serif}
@top-center{content:${quoted(facts.watermark ?? '')};font:700 8pt sans-serif}
@top-right{content:${quoted(facts.number)};font:8pt sans-serif}
@bottom-left{content:${quoted(`${facts.cutOff}. ${facts.provisionalShare}.`)};font:8pt sans-serif;width:80%}
@bottom-right{content:"Page " counter(page) " of " counter(pages);font:8pt sans-serif;white-space:nowrap}}
@media print{
html{font-size:9.5pt}
body{max-width:none;padding:0}
.skip{display:none}
.watermark{position:static;margin:0}
h2,h3,h4,caption,figcaption{break-after:avoid}
figure,.caution,tr,.pair{break-inside:avoid}
thead{display:table-header-group}
.table{overflow:visible}
.turn{break-before:page}
a{color:inherit;text-decoration:none}
}`
}
