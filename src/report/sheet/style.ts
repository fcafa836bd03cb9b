/** Black on white: for a phone in the sun and for a grey printer. Print: one sheet of paper, both sides. */
export const SHEET_STYLE = `
*{box-sizing:border-box}
:root{color-scheme:light}
body{margin:0;background:#fff;color:#000;font:17px/1.4 system-ui,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif;text-size-adjust:100%}
main{max-width:1240px;margin:0 auto;padding:1rem 16px 3rem}
h1{font-size:1.5rem;line-height:1.15;margin:.2rem 0}
h2{font-size:1.2rem;line-height:1.2;margin:1.6rem 0 .4rem;border-top:3px solid #000;padding-top:.3rem}
p{margin:.3rem 0}
.made,footer{font-size:.875rem}
.care{border:3px solid #000;padding:.5rem .7rem;margin:.8rem 0}
table{border-collapse:collapse;width:100%;font-size:.9375rem;line-height:1.3;font-variant-numeric:tabular-nums}
caption{text-align:left;font-weight:600;padding:.2rem 0}
th,td{border:1px solid #000;padding:.28rem .4rem;text-align:left;vertical-align:top}
thead th{background:#e8e8e8}
tbody th{font-weight:600}
tr.group th{background:#e8e8e8;font-size:1rem}
tr.group small{font-weight:400;font-size:.875rem}
td.value{font-weight:700;font-size:1.05em}
.was{font-weight:400}tr.changed td.value{outline:2px solid #000;outline-offset:-3px}
table.settings{table-layout:fixed}
.settings thead th:nth-child(1){width:14%}.settings thead th:nth-child(2){width:18%}.settings thead th:nth-child(3){width:33%}.settings thead th:nth-child(4){width:21%}
td.blank{min-width:9rem}
.checks td,.checks tbody th{padding-top:.1rem;padding-bottom:.1rem}
.halves{display:grid;grid-template-columns:repeat(2,minmax(0,1fr));gap:0 1rem;align-items:start;margin-top:.5rem}
td.blank span{display:none}
.verdict{font-weight:700}
@media screen and (max-width:760px){
thead{position:absolute;left:-99rem}
.halves{display:block}
table,tbody,tr,th,td{display:block;border:0;padding:.1rem 0}
tr{border:2px solid #000;padding:.5rem .6rem;margin:.5rem 0}
tr.group{border:0;padding:0;margin-top:1.2rem}
tr.group th{padding:.4rem .5rem}
td.value{font-size:1.25rem}
td.blank{border-bottom:1px solid #000;min-height:2.2rem;margin-top:.3rem}
td.blank span{display:inline;font-size:.875rem}
td[data-label]:not(.blank):before{content:attr(data-label) ": ";font-weight:600}
}
@media screen and (min-width:761px),print{.checks td{white-space:nowrap;width:1%}}
@media print{
@page{size:A4 landscape;margin:7mm 9mm 9mm;@bottom-right{content:counter(page) " / " counter(pages);font:7pt sans-serif}}
body{font-size:7.2pt;line-height:1.18}
main{padding:0;max-width:none}
h1{font-size:11pt;margin:0}h2{font-size:9pt;margin:1mm 0 .8mm;padding-top:.4mm;border-top-width:1.5pt}
p{margin:.3mm 0}
table{font-size:6.8pt;line-height:1.14}
th,td{padding:.32mm .9mm}.checks td,.checks tbody th{padding:.16mm .8mm}
td.value{font-size:1em}
tr.group th{font-size:7pt}tr.group small{font-size:6.8pt}
tr.changed td.value{outline-width:1pt;outline-offset:-1pt}.care{border-width:1.2pt;padding:.6mm 1.5mm;margin:.8mm 0}
.made,footer{font-size:6.6pt}.halves{margin-top:1mm;gap:0 3mm}
tr,.care{break-inside:avoid}thead{display:table-header-group}
.back{break-before:page}
h2,caption{break-after:avoid}
td.blank{min-width:32mm}
*{print-color-adjust:exact;-webkit-print-color-adjust:exact}
}
`;
