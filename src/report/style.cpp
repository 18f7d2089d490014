// The look of the report: one ink, one hue for utilisation, a margin that carries the headings.
#include "markup.hpp"

namespace underprop::report {

std::string_view style_sheet() {
  // Details hold only their summary; the arithmetic stands in the next element, so that printing
  // shows it whether or not it is open on the screen, without a script.
  return R"CSS(
:root{--ink:#1c2333;--soft:#55607a;--rule:#c9cfdb;--wash:#f2f4f8;--deep:#232f5c}
*{box-sizing:border-box}
html{background:#fff;color:var(--ink)}
body{margin:0 auto;padding:3.5rem 3rem 5rem;max-width:66rem;
 font:16px/1.55 Charter,Cambria,Georgia,serif}
h1,h2,h3,th,caption,figcaption,summary,.label,.meta,svg text{
 font-family:system-ui,sans-serif}
h1{font-size:2.1rem;line-height:1.15;font-weight:500;margin:0 0 .3rem;letter-spacing:-.01em}
.meta{color:var(--soft);margin:0 0 1.8rem;font-size:.95rem}
.notice{border:1.5px solid var(--ink);border-left-width:9px;padding:.9rem 1.3rem;margin:0 0 2.6rem;max-width:none}
.notice h2{font-size:.95rem;margin:0 0 .3rem;font-weight:600}
.notice p{margin:0}
section{display:grid;grid-template-columns:10.5rem minmax(0,1fr);column-gap:2rem;
 border-top:1px solid var(--rule);padding:1.5rem 0 2rem}
section>h2{font-size:1.08rem;line-height:1.3;font-weight:600;margin:.15rem 0 0;color:var(--deep)}
.no{display:block;font-weight:400;color:var(--soft);font-size:.9rem}
h3{font-size:1rem;font-weight:600;margin:1.9rem 0 .5rem}
.body>:first-child{margin-top:0}
p{margin:.5rem 0;max-width:42rem}
ul,ol{padding-left:1.3rem;margin:.5rem 0;max-width:42rem}
li{margin:.3rem 0}
.verdict{font-size:1.75rem;line-height:1.2;margin:0 0 .4rem;color:var(--deep)}
.lead{font-size:1.12rem}
dl{display:grid;grid-template-columns:max-content minmax(0,1fr);gap:.25rem 1.4rem;margin:1rem 0}
dt{color:var(--soft)}dd{margin:0}
table{border-collapse:collapse;width:100%;margin:.9rem 0 1.4rem;font-size:.9rem;line-height:1.4}
caption{text-align:left;color:var(--soft);padding-bottom:.35rem;font-size:.92rem}
th,td{text-align:left;vertical-align:top;padding:.32rem .9rem .32rem 0;border-bottom:1px solid var(--rule)}
th{font-weight:500}
thead th{border-bottom:1.5px solid var(--ink);color:var(--soft);font-size:.86rem;vertical-align:bottom}
.n{text-align:right;font-variant-numeric:tabular-nums lining-nums;white-space:nowrap}
td:last-child,th:last-child{padding-right:0}
figure{margin:0 0 1.2rem}
figure svg{display:block;width:100%;height:auto}
figcaption{color:var(--soft);font-size:.9rem;line-height:1.45;margin-top:.6rem;max-width:46rem}
details{border-bottom:1px solid var(--rule)}
summary{cursor:pointer;padding:.4rem 0;font-size:.95rem}
summary:focus-visible{outline:2px solid var(--deep);outline-offset:2px}
summary b{font-weight:600;font-variant-numeric:tabular-nums}
.sum{background:var(--wash);padding:.7rem 1.1rem 1rem;margin:0 0 1rem;overflow-x:auto}
.sum p{margin:.2rem 0;max-width:none;font-size:.92rem}
.sum table{margin:.5rem 0 .3rem;font-size:.87rem}
.sum th{font-style:italic;font-family:inherit;white-space:nowrap}
.sum thead th{font-style:normal}
.step{margin:.9rem 0}.step ul{font-size:.93rem;margin:.2rem 0}
.foot{border-top:1.5px solid var(--ink);padding-top:1rem;margin-top:1rem;font-size:.92rem}
/* Drawings. u1..u5: utilisation up to 0.50, 0.75, 0.90, 1.00, and over. */
svg text{font-size:12px;fill:#1c2333}
svg .halo{paint-order:stroke;stroke:#fff;stroke-width:3.5px;stroke-linejoin:round}
svg .small{font-size:11px}
svg .dim{fill:none;stroke:#55607a;stroke-width:.8}
svg .dimtext{fill:#3f4960;font-size:11.5px}
svg .outline{fill:#fff;stroke:#1c2333;stroke-width:1.1}
svg .board{stroke:#e3e6ec;stroke-width:.8}
svg .u0{fill:#fff;stroke:#8d96a8;stroke-width:.9}
svg .u1{fill:#e0e4f1;stroke:#7480ad;stroke-width:.9}
svg .u2{fill:#b3bcdc;stroke:#56639a;stroke-width:1.2}
svg .u3{fill:#7d8abd;stroke:#3c4a86;stroke-width:1.6}
svg .u4{fill:#465394;stroke:#27346b;stroke-width:2}
svg .u5{stroke:#141c45;stroke-width:2.8}
svg .absent{fill:#fff;stroke:#1c2333;stroke-width:1;stroke-dasharray:3 3}
svg .wall{fill:#d9dce2;stroke:#6b7487;stroke-width:.9}
svg .load{fill:none;stroke:#1c2333;stroke-width:1.8;stroke-dasharray:9 3 2 3}
svg .patch{fill:none;stroke:#1c2333;stroke-width:.9;stroke-dasharray:2 2}
svg .zone{stroke:#8d96a8;stroke-width:.9;stroke-dasharray:4 3}
svg .ground{fill:none;stroke:#6b7487;stroke-width:1.6;stroke-dasharray:10 4}
svg .axis{fill:none;stroke:#1c2333;stroke-width:1.2}
svg .solid{fill:#1c2333;stroke:none}
svg .old{fill:#fff;stroke:#aeb5c3;stroke-width:.9}
svg .new{fill:#465394;stroke:#27346b;stroke-width:1.4}
svg .newpad{fill:#7d8abd;fill-opacity:.38;stroke:#27346b;stroke-width:1.8}
svg .mark{fill:none;stroke:#27346b;stroke-width:1.8}
svg .tag{fill:#fff;stroke:#1c2333;stroke-width:1.2}
svg .tagtext{font-size:11px;font-weight:600;text-anchor:middle}
svg .sag{fill:none;stroke:#b3bcdc;stroke-width:1.1}
svg .sagworst{fill:none;stroke:#27346b;stroke-width:2.2}
svg .base{stroke:#1c2333;stroke-width:.9;stroke-dasharray:5 3;fill:none}
@media screen{details:not([open])+.sum{display:none}}
@media screen and (max-width:52rem){body{padding:1.6rem 1.1rem 3rem}section{display:block}
 .no{display:inline}section>h2{margin-bottom:.7rem}.body{overflow-x:auto}}
@page{margin:17mm 16mm 19mm}
@media print{html{font-size:10pt}body{padding:0;max-width:none;font-size:1rem}
 section{display:block;padding:.9rem 0 1rem}section>h2{margin-bottom:.5rem}.no{display:inline}
 h2,h3,caption,summary{break-after:avoid}figure,tr,.notice,.step{break-inside:avoid}
 .sum{background:none;padding:0 0 .3rem .8rem;border-left:2px solid var(--rule);overflow:visible}
 thead{display:table-header-group}summary{list-style:none}
 *{-webkit-print-color-adjust:exact;print-color-adjust:exact}}
)CSS";
}

}  // namespace underprop::report
