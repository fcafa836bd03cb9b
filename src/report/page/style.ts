/** Light, dark and print colours by what they stand for (see charts/palette.ts). Contrasts hold to 4.5 : 1 for text. */
export const LIGHT = `--paper:#fbfaf6;--card:#f3f1ea;--ink:#1d1b22;--soft:#5b5963;--line:#d9d5ca;--link:#3b3a86;
--load:#b9b6ae;--array:#e7bf52;--battery:#4d8687;--generator:#31203c;--peak:#c0623c;--other:#77707f;--unserved:#b3124f;
--daylight:#f6e9c0;--soc-1:#10262f;--soc-2:#38626c;--soc-3:#74a1a4;--soc-4:#b4d0cd;--soc-5:#e3eeeb;color-scheme:light`;
export const DARK = `--paper:#16151a;--card:#201f26;--ink:#eceae4;--soft:#aba8b2;--line:#3a3842;--link:#b6b3f2;
--load:#6f6c74;--array:#c99f36;--battery:#62a3a3;--generator:#efe3d2;--peak:#dd835a;--other:#938b9c;--unserved:#ff6f9f;
--daylight:#37301c;--soc-1:#dcebe7;--soc-2:#93bab9;--soc-3:#568088;--soc-4:#33545d;--soc-5:#1e2f36;color-scheme:dark`;

export const STYLE = `
:root{${LIGHT}}
@media screen and (prefers-color-scheme:dark){:root{${DARK}}}
*{box-sizing:border-box}
html{scroll-padding-top:1rem}
body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.55 system-ui,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif;
text-size-adjust:100%}
a{color:var(--link)}
.skip{position:absolute;left:-99rem}
.skip:focus{left:.5rem;top:.5rem;background:var(--paper);padding:.5rem;z-index:2}
.sheet{max-width:1040px;margin:0 auto;padding:2.2rem 20px 4rem;display:grid;grid-template-columns:200px minmax(0,720px);gap:0 56px;justify-content:center}
header,footer{grid-column:2}
header p{margin:.2rem 0}
.made{color:var(--soft);font-size:.875rem}
h1{font-size:2.4rem;line-height:1.1;margin:.3rem 0 .5rem;letter-spacing:-.02em}
.question{font-size:1.3rem;line-height:1.35;margin:1.2rem 0 0;padding-top:.9rem;border-top:3px solid var(--ink)}
nav{grid-column:1;grid-row:1/span 3;font-size:.875rem;line-height:1.4}
nav>div{position:sticky;top:1.5rem;max-height:95vh;overflow:auto}
nav h2{font-size:.875rem;margin:0 0 .4rem;padding:0;border:0}
nav ul{list-style:none;margin:0;padding:0}
nav li{margin:0;padding:.22rem 0}
nav li.lower{padding-left:.9rem}
nav a{text-decoration:none;display:inline-block;padding:.1rem 0}
nav a:hover{text-decoration:underline}
main{grid-column:2;min-width:0}
section{margin-top:3.4rem}
h2{font-size:1.6rem;line-height:1.2;margin:0 0 .8rem;padding-top:.6rem;border-top:3px solid var(--ink);letter-spacing:-.01em}
h3{font-size:1.15rem;line-height:1.3;margin:2.2rem 0 .5rem}
h4{font-size:1rem;margin:1.2rem 0 .3rem}
p,ul{margin:.5rem 0}
li{margin:.25rem 0}
.answers h3{margin:1.1rem 0 .1rem}
.answers p{margin:0}
.lead{break-after:avoid}
.soft,.note{color:var(--soft);font-size:.875rem}
.care{background:var(--card);border-left:6px solid var(--unserved);padding:.8rem 1rem;margin:1.4rem 0;break-inside:avoid}
.care p,.care ul{margin:.25rem 0}
.care strong:first-child{display:block}
figure{margin:1.4rem 0 0;min-width:0;break-inside:avoid}
.pair{display:grid;grid-template-columns:repeat(2,minmax(0,1fr));gap:0 24px;align-items:end}
.pair.top{align-items:start}
figcaption{font-weight:600;font-size:.9375rem;line-height:1.35;margin-bottom:.45rem;text-wrap:pretty}
.chart{display:block;max-width:100%;height:auto;font-variant-numeric:tabular-nums}
.chart text,.chart tspan{white-space:pre}
.narrow-only{display:none}
.key{list-style:none;display:flex;flex-wrap:wrap;gap:.1rem 1rem;padding:0;margin:0 0 .5rem;font-size:.8125rem;color:var(--ink)}
.key li{display:flex;align-items:center;gap:.4rem;margin:0}
.swatch{flex:none}
.scroll{overflow-x:auto;margin:.8rem 0}
table{border-collapse:collapse;width:100%;font-size:.875rem;line-height:1.3;font-variant-numeric:tabular-nums}
caption{text-align:left;color:var(--soft);padding:0 0 .4rem}
th,td{padding:.3rem 0 .3rem .8rem;text-align:right;vertical-align:baseline;border-bottom:1px solid var(--line)}
th{font-weight:600}
tbody th{font-weight:400}
th:first-child,td:first-child{text-align:left;padding-left:0}
thead th{vertical-align:bottom;border-bottom:2px solid var(--ink)}
td.text,th.text{text-align:left}
table.side{table-layout:fixed}
table.side th:first-child{width:34%}
table.checks th small,table.verdicts th small{display:block;color:var(--soft);font-size:.8125rem;font-weight:400;margin-top:.15rem}
table.checks thead th:first-child{width:52%;min-width:13.5rem}
table.checks td{vertical-align:top;padding-top:.35rem}table.verdicts{table-layout:auto;font-size:.8125rem}table.verdicts td{vertical-align:top}table.verdicts th:first-child{min-width:9rem}
tr.part th{padding-left:1.1rem;color:var(--soft)}
tr.whole>*{border-top:2px solid var(--ink);font-weight:600}
td b{font-weight:700}
td small{display:block;white-space:nowrap;color:var(--soft);font-size:.8125rem;font-weight:400}
details{margin:.3rem 0;border-bottom:1px solid var(--line)}
summary{cursor:pointer;padding:.35rem 0}
footer{margin-top:3.5rem;border-top:1px solid var(--line);padding-top:.8rem}
.nobreak{white-space:nowrap}
code{font-size:.875em}
pre{font-size:.8125rem;line-height:1.45;overflow-x:auto;background:var(--card);padding:.6rem .8rem;white-space:pre-wrap;overflow-wrap:anywhere}
@media (max-width:1019px){.sheet{grid-template-columns:minmax(0,720px)}nav,header,main,footer{grid-column:1;grid-row:auto}
nav{margin-top:1.6rem}nav>div{position:static;max-height:none}nav li{padding:.35rem 0}}
@media (max-width:640px){.sheet{padding:1.2rem 12px 3rem}.pair{grid-template-columns:minmax(0,1fr)}
.wide-only{display:none}.narrow-only{display:block}h1{font-size:1.9rem}h2{font-size:1.4rem}.question{font-size:1.15rem}
table.side{width:max-content;min-width:100%}table.side th:first-child{position:sticky;left:0;background:var(--paper);width:8.6rem;z-index:1}table.side td,table.side thead th{width:5.3rem}}
@media print{:root{--paper:#fff;--card:#f4f3ef}@page{size:A4;margin:15mm 15mm 18mm;@bottom-right{content:counter(page) " / " counter(pages);font:8pt sans-serif}}body{font-size:10.5pt}.sheet{display:block;padding:0;max-width:none}nav,.skip{display:none}
section.alternative{break-before:page}h2,h3,h4,figcaption,caption{break-after:avoid}tr,li,.answers>div{break-inside:avoid}
table{break-inside:auto}table.short,table.side,.fold{break-inside:avoid}thead{display:table-header-group}.scroll{overflow:visible}a{color:inherit;text-decoration:none}
details>summary{list-style:none}.fold.checks{break-inside:auto}.fold::details-content{content-visibility:visible;block-size:auto}table.side th,table.side td,table.dense th,table.dense td{padding-top:.16rem;padding-bottom:.16rem;font-size:9pt}table.side small{font-size:8pt}#compare{break-before:page}section{margin-top:1.6rem}.care{border-left-width:4px}*{print-color-adjust:exact;-webkit-print-color-adjust:exact}}
`;
