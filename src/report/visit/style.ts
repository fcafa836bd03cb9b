/** Two sheets of paper, upright: the owner's and the technician's, each on one side. */
export const VISIT_STYLE = `
.lead{font-size:1.15rem;line-height:1.35;font-weight:600}
.for{font-size:.875rem;color:var(--soft);margin:.2rem 0}
table.compact th,table.compact td{padding-top:.2rem;padding-bottom:.2rem;vertical-align:middle}
table.compact td.text{vertical-align:middle}
table.compact tr.apart th,table.compact tr.apart td:nth-child(2){font-weight:700}
td.drawing{width:158px;padding-left:.8rem}
td.drawing .chart,td.drawing svg{display:block;margin-left:auto}
dl.faults{margin:.5rem 0}
dl.faults dt{font-weight:600;margin-top:.5rem}
dl.faults dd{margin:0}
@media screen{.paper-only{display:none}table.compact th.nobreak,table.compact td.text.nobreak{white-space:normal}td.drawing+td.text{min-width:6.5rem}}
@media print{
@page{size:A4;margin:9mm 13mm 10mm}
body{font-size:8.8pt;line-height:1.28}
header .made,.made,.note,.soft,.for{font-size:7.6pt;line-height:1.25}
h1{font-size:17pt;margin:.5mm 0}
.question{font-size:10.5pt;margin:1mm 0 0;padding-top:1mm;border-top-width:1.5pt}
h2{font-size:12.5pt;margin:0 0 1mm;padding-top:.8mm;border-top-width:1.5pt}
h3{font-size:10pt;margin:2.2mm 0 .6mm}
section{margin-top:2.4mm}p,ul{margin:.8mm 0}li{margin:.3mm 0}ul{padding-left:4.5mm}
figure{margin:1.4mm 0 0}figure.full{display:grid;grid-template-columns:minmax(0,1fr) auto;gap:0 5mm}figure.full>*{grid-column:1/-1}figure.full>figcaption{grid-column:1}figure.full>.key{grid-column:2;grid-row:1;align-self:end;margin-bottom:.8mm}figure.full .chart{width:82%}table.compact th,table.compact td{padding-top:.45mm;padding-bottom:.45mm}figcaption{font-size:8.8pt;margin-bottom:.8mm}.key{font-size:7.6pt;margin:0 0 .6mm}
.scroll{margin:.8mm 0}table{font-size:8pt;line-height:1.18}
.care{padding:1mm 2mm;margin:1.6mm 0}
.lead{font-size:10.5pt}
#technician{break-before:page;font-size:7.4pt;line-height:1.2;margin-top:0}
#technician h2{font-size:11pt}#technician h3{font-size:8.6pt;margin:1.5mm 0 .4mm}
#technician table{font-size:7.1pt;line-height:1.1}
#technician table.compact th,#technician table.compact td{padding-top:.22mm;padding-bottom:.22mm}
#technician .note,#technician .for,#technician .made{font-size:6.8pt}
#technician .care{font-size:6.8pt;line-height:1.16}#technician .care li{margin:0;break-inside:avoid}#technician .care ul{columns:2;column-gap:6mm}
#technician figure{margin:1mm 0 0}#technician figure.full .chart{width:70%}#technician figcaption{font-size:7.6pt}
#technician td.drawing svg{height:9.5px}#technician td.text{white-space:nowrap}#technician .scroll{margin:.4mm 0}#technician #care h2{font-size:8.6pt;border-top-width:.8pt}#technician #care{margin-top:1.2mm}#technician .care{margin:.8mm 0;padding:.6mm 2mm}
#technician .two{display:grid;grid-template-columns:repeat(2,minmax(0,1fr));gap:0 6mm;align-items:start}
#technician dl.faults{margin:.4mm 0}#technician dl.faults dt{margin-top:.5mm}
.screen-only{display:none}
footer{margin-top:1mm;padding-top:.6mm}
}
`;
