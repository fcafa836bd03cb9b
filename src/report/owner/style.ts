/** Type large enough for the kitchen table; fills that differ in lightness; pages that break between things. */
export const OWNER_STYLE = `
:root{--paper:#fff;--card:#f3f1ea;--ink:#1d1b22;--soft:#55535d;--line:#d9d5ca;--load:#b9b6ae;--array:#e7bf52;--battery:#4d8687;--generator:#31203c;--peak:#c0623c;--other:#77707f;--unserved:#b3124f;--daylight:#f6e9c0;color-scheme:light}
*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:17px/1.5 system-ui,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif;text-size-adjust:100%}
main{max-width:760px;margin:0 auto;padding:1.6rem 20px 3rem}
h1{font-size:2.1rem;line-height:1.12;margin:0 0 .2rem;letter-spacing:-.01em}
.subtitle{font-size:1.15rem;margin:0 0 .8rem}
h2{font-size:1.4rem;line-height:1.2;margin:1.9rem 0 .5rem;border-top:3px solid var(--ink);padding-top:.4rem}
h3{font-size:1.1rem;margin:1.1rem 0 .2rem}
p,ul{margin:.45rem 0}
ul{padding-left:1.2rem}
li{margin:.28rem 0}
.asked{font-size:1.15rem}
.soft,.made,footer{color:var(--soft);font-size:.875rem}
.short ul{list-style:none;padding:0;font-size:1.15rem}
.short li{background:var(--card);padding:.5rem .8rem;margin:.35rem 0}
.figure{white-space:nowrap;font-weight:600}
td .figure{font-weight:inherit}
.nobreak{white-space:nowrap}
figure{margin:1rem 0 0;min-width:0}
figcaption{font-weight:600;font-size:.9375rem;margin:.4rem 0}
.chart{display:block;max-width:100%;height:auto;font-variant-numeric:tabular-nums}
.narrow-only{display:none}
.key{list-style:none;display:flex;flex-wrap:wrap;gap:.1rem 1rem;padding:0;margin:.3rem 0;font-size:.875rem}
.key li{display:flex;align-items:center;gap:.4rem;margin:0}
.swatch{flex:none}
.scroll{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-size:.9375rem;line-height:1.3;font-variant-numeric:tabular-nums}
th,td{padding:.4rem 0 .4rem .7rem;text-align:right;vertical-align:baseline;border-bottom:1px solid var(--line)}
th:first-child{text-align:left;padding-left:0;font-weight:400}
thead th{vertical-align:bottom;border-bottom:2px solid var(--ink);font-weight:600}
td small,th small{display:block;color:var(--soft);font-size:.8125rem}
td small{white-space:nowrap}
.care{border:3px solid var(--ink);padding:.2rem 1rem .6rem;margin-top:1.9rem}
.care h2{border:0;margin:.4rem 0}
footer{margin-top:2rem;border-top:1px solid var(--line);padding-top:.6rem}
code{font-size:.95em}
@media (max-width:560px){main{padding:1rem 12px 2rem}.wide-only{display:none}.narrow-only{display:block}h1{font-size:1.7rem}table{min-width:34rem}}
@media print{
@page{size:A4;margin:13mm 16mm 15mm;@bottom-right{content:counter(page) " / " counter(pages);font:8.5pt sans-serif}}
body{font-size:10pt;line-height:1.36}
main{padding:0;max-width:none}
h1{font-size:20pt}h2{font-size:13pt;margin:4mm 0 1.2mm;padding-top:1mm}h3{font-size:10.5pt;margin:1.5mm 0 .5mm}.short ul,.asked,.subtitle{font-size:11pt}.short li{padding:1mm 2.5mm;margin:.8mm 0}li{margin:.6mm 0}p,ul{margin:1mm 0}.key{margin:.6mm 0;font-size:8.5pt}
.wide-only{display:block}.narrow-only{display:none}
h2,h3,figcaption,.lead{break-after:avoid}
figure,tr,li,table,.care,.short,.words{break-inside:avoid}
p{orphans:3;widows:3}
.scroll{overflow:visible}
table{min-width:0;font-size:9pt}
figure{margin-top:1.5mm}
*{print-color-adjust:exact;-webkit-print-color-adjust:exact}
}
`;
