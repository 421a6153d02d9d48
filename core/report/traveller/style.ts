import { cssString, type Html, raw } from '../html.js';

/**
 * The traveller's look: black on white, ruled like a job card, nothing that depends on printed backgrounds.
 * Sizes are for reading at arm's length on A4 and US Letter; boxes to write in are at least 9 mm high.
 */
export const travellerStyle = (jobName: string): Html =>
  raw(`
@page{margin:13mm 12mm 15mm 12mm;@bottom-left{content:${cssString(`Traveller: ${jobName}`)};font:8pt Arial,"Liberation Sans",sans-serif}@bottom-center{content:"Computed advice, not a guarantee";font:8pt Arial,"Liberation Sans",sans-serif}@bottom-right{content:"page " counter(page) " of " counter(pages);font:8pt Arial,"Liberation Sans",sans-serif}}
*{box-sizing:border-box}
html{background:#fff;color:#000;font:10.5pt/1.32 Arial,"Liberation Sans","DejaVu Sans",sans-serif;-webkit-text-size-adjust:100%}
body{margin:0}
main{max-width:192mm;margin:0 auto;padding:0 .5mm}
@media screen{main{padding:8mm 4mm}}
p,ul,dl,table,h1,h2,h3,h4{margin:0}
ul{padding:0;list-style:none}
bdi,td,th,li,h1,h2,h3,dd,p{overflow-wrap:break-word}
.part,.part bdi,.facts bdi{overflow-wrap:anywhere}
h1{font-size:22pt;line-height:1.12;margin:1mm 0 2mm}
h2{font-size:16pt;line-height:1.1}
h3{font-size:11.5pt;margin:4mm 0 1.2mm}
h4{font-size:10.5pt;margin:2mm 0 .6mm}
h1,h2,h3,h4,caption,.caution,.caution-head,.at-step{break-after:avoid}
p{orphans:2;widows:2}
.light{font-weight:normal;color:#333}
.small,.method,.above{font-size:8.5pt;line-height:1.25}
.small{margin:1.5mm 0}
.method{display:block;font-weight:normal;color:#333}
.symbol{font-family:"Times New Roman","Liberation Serif",serif;font-size:1.08em;font-weight:normal;white-space:nowrap}
sub{font-size:.75em;line-height:0}
code{font:8pt "Courier New","Liberation Mono",monospace}
.keep,tbody.keep,.card,.plate,.write,.caution,.chart,tr,.step>header{break-inside:avoid}
.ruled p,.rule:first-of-type{break-after:avoid}
.overview>header{border-bottom:2.5pt solid #000;padding-bottom:2.5mm}
.kind{font-size:11pt;letter-spacing:.14em;text-transform:uppercase}
.notes{margin:2mm 0;padding-left:4.5mm;list-style:square}
.keys{display:grid;grid-template-columns:repeat(4,1fr);border:1pt solid #000;border-width:1pt 0 0 1pt;margin:3mm 0;break-inside:avoid}
.keys.three{grid-template-columns:repeat(3,1fr);margin:1.5mm 0 2mm}
.keys>div{border:1pt solid #000;border-width:0 1pt 1pt 0;padding:1mm 1.8mm 1.4mm}
.keys dt{font-size:8.5pt}
.keys dd{margin:0;font-weight:bold;font-size:11pt;line-height:1.2}
.keys dd.sub{font-weight:normal;font-size:8.5pt}
.findings,.caution{-webkit-box-decoration-break:clone;box-decoration-break:clone}
.findings{border:2pt solid #000;padding:2mm 3mm 2.5mm;margin:3mm 0}
.findings h2{font-size:11.5pt;margin:0 0 1mm}
.findings h3{font-size:10.5pt;margin:2mm 0 .6mm}
.findings .tally{font-weight:normal}
.findings li,.checklist li{display:flex;gap:2.2mm;break-inside:avoid;margin:.9mm 0}
.findings .tag{flex:0 0 13mm;height:5mm;font-size:9pt;line-height:4.4mm;font-weight:bold;text-align:center;border:1pt solid #000}
.findings .stop .tag{border-width:2.4pt;line-height:3.6mm}
.findings .note .tag{font-weight:normal;border-style:dotted}
.findings.notes-box{border-width:.8pt}
.findings.at-step{border-width:1.2pt;padding:1mm 2.5mm}
.halt{font-weight:bold;font-size:13pt;border:3pt solid #000;padding:1.5mm 2.5mm;margin:1mm 0 2mm}
.cards{display:grid;grid-template-columns:1fr 1fr;gap:2mm}
.card{display:flex;gap:2.5mm;border:.6pt solid #000;padding:1.2mm 2mm;min-width:0}
.card .picture{flex:0 0 28mm}
.card .picture img{display:block;width:28mm;max-height:23mm;object-fit:contain}
.quantity{font-weight:bold;font-size:13pt;line-height:1.1;text-align:center}
.facts{flex:1;min-width:0}
.facts h3{margin:0 0 .4mm;font-size:11pt;line-height:1.15}
.facts p{font-size:9.5pt;line-height:1.25}
.card .members{margin:0;padding-left:3.5mm;font-size:8.5pt}
.card .facts p{font-size:8.5pt}
.notes-box li{font-size:9.5pt;line-height:1.25}
table{border-collapse:collapse}
.facts table:not(.list){font-size:9.5pt;margin-top:1mm}
.facts table:not(.list) th{font-weight:normal;text-align:left;vertical-align:top;padding:.2mm 2.5mm .2mm 0;color:#333;white-space:nowrap}
.facts table:not(.list) td{vertical-align:top;padding:.2mm 0}
.list{width:100%;margin:2mm 0}
.list caption{text-align:left;font-weight:bold;padding:1mm 0;caption-side:top}
.list thead{display:table-header-group;break-after:avoid}
.list thead tr{break-after:avoid}
.list th,.list td{border:.5pt solid #000;padding:.9mm 1.6mm;text-align:left;vertical-align:middle}
.list thead th{font-size:8.5pt;line-height:1.15;font-weight:normal;vertical-align:bottom;border-bottom-width:1.6pt}
.list thead th.strong{font-weight:bold}
.list tbody th{font-weight:normal}
.list .part{font-weight:bold}
.list td.n{white-space:nowrap}
.list td.n .method{white-space:normal}
.list td.see .method{white-space:nowrap}
.by-part thead th:first-child{width:20%}
.close tbody th,.close tbody td{padding-top:.45mm;padding-bottom:.45mm}
.brief .method{display:inline;margin-left:1.5mm}
.brief .part .method{display:block;margin-left:0}
.list .n{text-align:right;font-variant-numeric:tabular-nums}
.list tbody .strong{font-weight:bold}
.list .tall{height:9.5mm}
.list .blank{min-width:19mm;border-width:1.2pt}
.list .done .tick{display:block;margin:0 auto}
.list .total td{border-top-width:1.6pt;font-weight:bold}
.total,tbody:has(>.total){break-before:avoid}
.list .times{white-space:nowrap}
.gating td:nth-child(2){width:19%}
.gating td:nth-child(4){width:15%}
.gating td:last-child{white-space:normal;width:14%}
.inspect{margin:3mm 0 4mm}
.inspect.pair .blank{min-width:14mm}
.inspect.pair .method{font-size:8pt}
.inspect .no-box{text-align:center}
.inspect .reference .method{display:inline;margin-left:1.5mm}
.inspect .plus-minus{display:block;font-size:8.5pt;line-height:1.1}
.inspect .piece{text-align:center!important}
.inspect .sheet-head{font-size:11.5pt!important;font-weight:bold!important;border-width:0 0 .5pt!important;padding-left:0}
.log .blank{min-width:15mm}
.log .wide{width:28%}
.log .alloy{white-space:nowrap;font-size:9pt}
.keys.three{break-after:avoid}
.step{margin-top:8mm}
.step>header{display:flex;align-items:stretch;gap:3mm;border-top:2.5pt solid #000;padding-top:2mm;margin-bottom:2mm;break-after:avoid}
.step .number{flex:0 0 11mm;height:11mm;border:1.6pt solid #000;border-radius:50%;font-size:16pt;font-weight:bold;line-height:10mm;text-align:center}
.step .title{flex:1;min-width:0}
.step .title p{margin-top:.8mm}
.signoff{flex:0 0 50mm;display:flex}
.signoff span,.write span{flex:1;border:.8pt solid #000;font-size:7.5pt;line-height:1;padding:1mm 1.2mm;min-height:12mm}
.signoff span+span,.write span+span{border-left:0}
.write{display:flex;margin:2mm 0}
.caution{border:1.2pt solid #000;border-left-width:5pt;padding:1.5mm 3mm 2mm;margin:2mm 0}
.caution-head{font-weight:bold;font-size:11.5pt}
.caution .sign{width:5.4mm;height:5mm;vertical-align:-.9mm;margin-right:1mm}
.caution li{font-size:10pt;line-height:1.25;margin:.7mm 0;break-inside:avoid}
.above{margin-top:1mm;font-style:italic}
.checklist{margin:2mm 0}
.tick{flex:0 0 4mm;width:4mm;height:4mm;border:.9pt solid #000;margin-top:.3mm}
.plate{display:flex;gap:3mm;border:.6pt solid #000;padding:2mm;margin:2.5mm 0}
.plate .write{display:block}
.plate .write span{display:block;min-height:10mm}
.plate .write span+span{border-left:.8pt solid #000;border-top:0}
.plate .plan{flex:0 0 100mm}
.plate .plan img{display:block;width:100mm;max-height:118mm;object-fit:contain;object-position:left top}
.drawing{break-inside:avoid;margin:3mm 0}
.drawing img{display:block;margin:0 auto}
.chart{display:block;width:100%;height:auto}
.freeze{margin-top:8mm;break-before:page}
.freeze>header{border-top:2.5pt solid #000;padding-top:2mm;margin-bottom:1mm}
.freeze>header p{margin-top:1.5mm}
.freeze-part{margin-bottom:6mm}
.freeze-part h3{border-bottom:.5pt solid #000;padding-bottom:.6mm}
.keys.freeze-keys{margin:1.5mm 0 2mm;break-after:avoid}
.freeze-keys dt,.freeze-keys dd.sub{font-size:8pt;line-height:1.2}
.freeze-pair{display:grid;grid-template-columns:1fr 1fr;gap:2mm;break-inside:avoid}
.freeze-pair figure{margin:0;min-width:0}
.freeze-pair img{display:block;width:100%}
.freeze-pair figcaption{font-size:8.5pt;line-height:1.25;margin-top:.5mm}
.level-chart{margin-top:1mm}
.level-chart text{font-family:inherit;font-size:9.5px}
.level-chart .grid{fill:none;stroke:#bbb;stroke-width:.5}
.level-chart .line{fill:none;stroke:#000;stroke-width:1.8;stroke-linejoin:round}
.level-chart .full{fill:none;stroke:#000;stroke-width:1.1;stroke-dasharray:4 3}
.freeze .list td{font-size:9pt;line-height:1.2}
.freeze .none{margin:2mm 0}
.freeze .mark{width:8mm;text-align:center}
.ring,.square{display:inline-block;width:4.6mm;height:4.6mm;border:.9pt solid #000;font-weight:bold;font-size:8.5pt;line-height:4.1mm;text-align:center}
.ring{border-radius:50%}
.basis{font-size:7.5pt;line-height:1.25;margin:2mm 0 0;border-top:.4pt solid #000;padding-top:1mm}
.basis ul{columns:2;column-gap:5mm}
.basis li{break-inside:avoid;margin-bottom:.5mm}
.basis.short{break-inside:avoid}
.basis p{break-after:avoid}
.ruled{margin-top:3mm;break-inside:avoid}
.rule{height:9.5mm;border-bottom:.5pt solid #000}
.about{margin-top:2.5mm;break-inside:avoid}
.about p{font-size:8.5pt;line-height:1.3;margin-bottom:1mm}
.bench-copy{break-before:page}
.bench{break-inside:avoid;margin-bottom:10mm;font-size:20pt;line-height:1.12}
.bench h2{font-size:28pt;border-bottom:3pt solid #000;padding-bottom:1.5mm;margin-bottom:2.5mm}
.bench p{margin-bottom:2.5mm}
.bench .big{font-size:27pt;font-weight:bold;line-height:1.2}
.bench table{width:100%}
.bench thead{display:table-header-group}
.bench th,.bench td{border-bottom:1pt solid #000;padding:1.3mm 1.2mm;text-align:left;vertical-align:baseline;font-weight:normal;overflow-wrap:anywhere}
.bench td:first-child,.bench tbody th{font-weight:bold}
.bench .n{text-align:right;white-space:nowrap;font-variant-numeric:tabular-nums}
.bench thead th{overflow-wrap:normal}
.bench thead th.n{white-space:normal}
.bench .turn td{font-weight:bold;border-bottom:0;padding-bottom:0}
.bench td+td,.bench th+td,.bench th+th{padding-left:2mm}
.bench .turn{break-after:avoid}
.bench .times,.bench .flask{white-space:nowrap}
.bench tr{break-inside:avoid}
`);
