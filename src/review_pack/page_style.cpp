#include "review_pack/page_style.hpp"

namespace crushwright {

std::string_view page_style() {
  return R"css(
:root { --paper: #ffffff; --ink: #1b1d21; --quiet: #5b6068; --rule: #c4c8ce; --shade: #f3f4f6; --line: #1d4f7c;
  --band: #dbe1e8; --limit: #a3261c; --layer: #44546a; color-scheme: light; }
@media screen and (prefers-color-scheme: dark) {
  :root { --paper: #16181c; --ink: #e4e6ea; --quiet: #a2a8b2; --rule: #42474f; --shade: #20242a; --line: #8fbfec;
    --band: #2e3844; --limit: #f08a7e; --layer: #a9b9cf; color-scheme: dark; }
}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0; background: var(--paper); color: var(--ink);
  font: 15px/1.45 system-ui, "Segoe UI", Roboto, "Helvetica Neue", Arial, "Liberation Sans", sans-serif; }
main { max-width: 940px; margin: 0 auto; padding: 28px 20px 60px; }
h1 { font-size: 1.65rem; line-height: 1.2; margin: 0 0 .2em; }
h2 { font-size: 1.2rem; margin: 2.2em 0 .6em; padding-top: .5em; border-top: 2px solid var(--ink); }
h3 { font-size: 1rem; margin: 1.6em 0 .4em; }
h4 { font-size: .92rem; margin: 1.2em 0 .3em; }
p { margin: .5em 0; max-width: 75ch; }
ul { margin: .4em 0; padding-left: 1.3em; max-width: 75ch; }
li { margin: .25em 0; }
a { color: inherit; }
.quiet { color: var(--quiet); }
.small { font-size: .86rem; }
.lead { font-size: 1.08rem; margin: .6em 0; }
.id { font-family: ui-monospace, "DejaVu Sans Mono", Consolas, monospace; font-size: .84em; }
.verdict { border: 2px solid var(--ink); padding: .7em 1em; margin: 1.2em 0; }
.verdict p { max-width: none; }
.word { display: inline-block; border: 1.5px solid currentColor; padding: 0 .45em; font-weight: 600; white-space: nowrap; }
.word.open { border-style: dashed; }
.word.fail { background: var(--ink); color: var(--paper); border-color: var(--ink); }
.verdict > .lead .word { font-size: 1.15rem; text-transform: uppercase; letter-spacing: .06em; margin-right: .5em; }
.wide { overflow-x: auto; margin: .6em 0; }
table { border-collapse: collapse; width: 100%; font-size: .87rem; font-variant-numeric: tabular-nums; }
th { text-align: left; font-weight: 600; border-bottom: 1.5px solid var(--ink); vertical-align: bottom; }
td { border-top: 1px solid var(--rule); vertical-align: top; }
th, td { padding: .32em .6em .32em 0; }
th.n, td.n { text-align: right; white-space: nowrap; }
th.n + th:not(.n), td.n + td:not(.n) { padding-left: .9em; }
th:last-child, td:last-child { padding-right: 0; }
tr.note td { border-top: 0; padding-top: 0; padding-left: 1em; color: var(--quiet); }
tbody tr:first-child td { border-top: 0; }
td.used, .used { font-weight: 600; }
.chosen { border: 1.5px solid var(--ink); padding: 0 .3em; font-weight: 600; white-space: nowrap; }
.differs { font-weight: 600; border-bottom: 1.5px dashed currentColor; }
.evidence + .evidence { margin-top: .5em; }
.evidence .id { overflow-wrap: anywhere; }
.side-by-side td { padding-right: .9em; }
.side-by-side table { min-width: 640px; }
.methods th.n { white-space: normal; max-width: 9em; }
.methods td:first-child { min-width: 9.5em; }
.beside { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 300px), 1fr)); gap: .6em 1.6em;
  align-items: start; }
.cells { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 400px), 1fr)); gap: .6em 1.4em; }
.cells svg, .beside svg.cell-drawing { display: block; width: 100%; height: auto; max-height: 420px; }
figure { margin: 1em 0; min-width: 0; }
figure > b { display: block; font-size: .92rem; margin-bottom: .3em; }
figcaption { font-size: .84rem; color: var(--quiet); max-width: 75ch; margin-top: .2em; }
.charts { display: grid; grid-template-columns: repeat(auto-fit, minmax(270px, 1fr)); gap: .4em 1.4em; align-items: start; }
.charts.two { grid-template-columns: repeat(auto-fit, minmax(min(100%, 360px), 1fr)); }
.charts figure { margin: .6em 0; }
[data-chart] svg { display: block; width: 100%; height: auto; overflow: visible; }
svg.drawing { display: block; max-width: none; height: auto; overflow: visible; }
svg.drawing text { font: 12px system-ui, Arial, "Liberation Sans", sans-serif; fill: var(--ink); paint-order: stroke;
  stroke: var(--paper); stroke-width: 3px; stroke-linejoin: round; }
.layer { fill: var(--layer); }
.framed { stroke: var(--ink); stroke-width: .7; }
.outline { fill: none; stroke: var(--ink); stroke-width: 1.4; }
.outline.skin { stroke-width: 2.6; }
.part { stroke: var(--ink); stroke-width: 1.2; stroke-dasharray: 6 3; }
.axis { stroke: var(--quiet); stroke-width: .8; stroke-dasharray: 12 3 2 3; }
.dimension, .hatch { stroke: var(--quiet); stroke-width: .9; }
.ground { stroke: var(--ink); stroke-width: 2; }
.ring { fill: none; stroke: var(--rule); stroke-width: .9; }
.curve { fill: none; stroke: var(--line); stroke-width: 2; }
.curve.other { stroke: var(--ink); stroke-width: 1.4; stroke-dasharray: 6 4; }
details pre { white-space: pre-wrap; font-size: .74rem; }
summary { cursor: pointer; }
@media (max-width: 560px) {
  main { padding: 18px 14px 40px; }
  body { font-size: 14.5px; }
  h1 { font-size: 1.35rem; }
}
@page { size: A4; margin: 15mm 14mm 16mm; }
@media print {
  html { font-size: 9.6pt; }
  body { font-size: 1rem; line-height: 1.36; }
  main { max-width: none; padding: 0; }
  h2, h3, h4 { break-after: avoid; break-inside: avoid; }
  .keep > p { break-inside: avoid; }
  .keep > p:not(:last-child) { break-after: avoid; }
  .keep tr:first-child { break-after: avoid; }
  h2 { margin: 1.5em 0 .4em; }
  h3 { margin: 1em 0 .3em; }
  figure { margin: .6em 0; }
  figure, tr, .verdict, svg, li { break-inside: avoid; }
  p { orphans: 3; widows: 3; }
  tr.note { break-before: avoid; }
  thead { display: table-header-group; }
  table { font-size: 8pt; line-height: 1.25; }
  th, td { padding-top: .16em; padding-bottom: .16em; }
  #inputs td:first-child { width: 43%; }
  #inputs .id { font-size: .84em; }
  .wide { overflow: visible; }
  .id { font-size: .92em; overflow-wrap: anywhere; }
  svg.drawing { max-width: 100%; max-height: 80mm; width: auto; }
  h3 + .wide svg.drawing { max-height: 46mm; }
  .side-by-side table { min-width: 0; }
  .beside { grid-template-columns: 1fr 1fr; }
  .cells { grid-template-columns: repeat(2, 1fr); }
  .cells svg, .beside svg.cell-drawing { max-height: 70mm; }
  .charts { grid-template-columns: repeat(3, 1fr); gap: .2em 1em; }
  .charts.two { grid-template-columns: repeat(2, 1fr); }
  a { text-decoration: none; }
}
)css";
}

std::string_view page_script() {
  return R"js(
"use strict";
(function () {
  var specs = JSON.parse(document.getElementById("chart-specs").textContent);
  var views = [];
  var look = {
    background: null, font: "system-ui, Arial, 'Liberation Sans', sans-serif", padding: 2,
    view: { stroke: "var(--rule)" },
    axis: { labelColor: "var(--ink)", titleColor: "var(--ink)", domainColor: "var(--ink)", tickColor: "var(--ink)",
      gridColor: "var(--rule)", gridOpacity: 0.55, labelFontSize: 11, titleFontSize: 11.5, titleFontWeight: 400,
      titlePadding: 6, labelOverlap: true },
    axisX: { tickCount: 6 }, axisY: { tickCount: 5 },
    text: { fontSize: 11 }, legend: { labelColor: "var(--ink)", labelFontSize: 11.5, symbolFillColor: "var(--ink)",
      symbolStrokeColor: "var(--ink)" }
  };
  // Three or two charts beside each other or one across an A4 page; the window's own width means nothing on paper.
  var onPaper = { third: 264, half: 360, whole: 850 };
  function widthOf(place, paper) {
    if (paper) {
      return place.closest(".two") ? onPaper.half : place.closest(".charts") ? onPaper.third : onPaper.whole;
    }
    return Math.max(240, Math.floor(place.clientWidth));
  }
  function draw(paper) {
    views.forEach(function (view) { view.finalize(); });
    views = [];
    document.querySelectorAll("[data-chart]").forEach(function (place) {
      var spec = Object.assign({ config: look, autosize: { type: "fit-x", contains: "padding" } },
        specs[place.dataset.chart]);
      spec.width = widthOf(place, paper);
      var view = new vega.View(vega.parse(vegaLite.compile(spec).spec), { renderer: "svg" });
      place.textContent = "";
      view.initialize(place).run();
      views.push(view);
    });
  }
  var drawn = 0, pending = 0;
  function drawIfWidthChanged() {
    var width = document.documentElement.clientWidth;
    if (width !== drawn) { drawn = width; draw(false); }
  }
  window.addEventListener("resize", function () {
    clearTimeout(pending);
    pending = setTimeout(drawIfWidthChanged, 150);
  });
  window.addEventListener("beforeprint", function () { draw(true); });
  window.addEventListener("afterprint", function () { draw(false); });
  drawIfWidthChanged();
})();
)js";
}

} // namespace crushwright
