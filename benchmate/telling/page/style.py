"""How the page looks: on a phone, on a wide screen, on A4. No fill that costs ink, nothing fetched."""

STYLE = """
:root { color-scheme: light; }
* { box-sizing: border-box; }
body {
  margin: 0 auto; max-width: 46rem; padding: 1rem; background: #ffffff; color: #1a1a1a;
  font: 1rem/1.45 system-ui, "Segoe UI", Roboto, "DejaVu Sans", Arial, sans-serif; overflow-wrap: anywhere;
}
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0; }
h2 { font-size: 1.15rem; line-height: 1.3; margin: 1.6rem 0 0.5rem; border-bottom: 1px solid #595959; }
p { margin: 0.3rem 0; }
.kind { font-size: 1.1rem; margin: 0.1rem 0 0.8rem; }
.aside { color: #595959; font-size: 0.875rem; }
dl.who { display: grid; grid-template-columns: repeat(auto-fill, minmax(9.5rem, 1fr)); gap: 0.4rem 1rem; margin: 0; }
dl.who dt { color: #595959; font-size: 0.8125rem; }
dl.who dd { margin: 0; }
ul, ol { margin: 0.3rem 0; padding-left: 1.2rem; }
li { margin: 0.25rem 0; }
ul.legend { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: 0.1rem 1rem; font-size: 0.875rem; }
ul.legend svg { display: inline-block; vertical-align: -0.1em; }
ol.decisions { list-style: none; padding: 0; }
ol.decisions > li { margin: 0.6rem 0; padding-left: 0.7rem; border-left: 2px solid #cccccc; }
table { border-collapse: collapse; width: 100%; margin: 0.3rem 0; }
caption { text-align: left; color: #595959; font-size: 0.875rem; padding-bottom: 0.2rem; }
th { text-align: left; vertical-align: top; font-weight: 600; padding: 0.3rem 0.6rem 0.3rem 0; }
td { vertical-align: top; padding: 0.3rem 0; }
tbody tr { border-top: 1px solid #cccccc; }
th { overflow-wrap: normal; }
th[scope=row] { width: 5rem; }
table.sizes { width: auto; }
table.sizes th[scope=row] { width: auto; white-space: nowrap; font-weight: 400; }
table.sizes td { text-align: right; padding-left: 1.5rem; font-variant-numeric: tabular-nums; }
.beside { display: flex; flex-wrap: wrap; align-items: flex-start; gap: 0.2rem 1rem; }
.beside > svg { flex: none; }
.beside > div { flex: 1 1 13rem; min-width: 0; }
svg { display: block; max-width: 100%; height: auto; font-family: inherit; }
.quiet { color: #595959; }
footer { margin-top: 1.6rem; border-top: 1px solid #595959; padding-top: 0.4rem; }
@page { size: A4; margin: 14mm 15mm; }
@media print {
  html { font-size: 10pt; }
  body { max-width: none; padding: 0; line-height: 1.35; }
  h2 { margin-top: 4.5mm; }
  h2, caption, thead { break-after: avoid; }
  tr, li, svg, dl.who > div, .whole { break-inside: avoid; }
  table.sizes th, table.sizes td { padding-top: 0.05rem; padding-bottom: 0.05rem; }
  p { orphans: 3; widows: 3; }
}
"""
