/** Made for paper: one or two sheets of A4 or Letter, black on white, nothing told by colour alone. */
export const sheetStyle = `
@page { size: auto; margin: 11mm 12mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 190mm; padding: 4mm; color: #000; background: #fff; font: 8pt/1.25 system-ui, "Liberation Sans", Arial, sans-serif; }
h1 { margin: 0; font-size: 14pt; line-height: 1.15; }
h2 { margin: 3.2mm 0 1mm; font-size: 9.6pt; break-after: avoid; }
p { margin: 0 0 1mm; }
header { display: flex; justify-content: space-between; gap: 6mm; border-bottom: 0.5mm solid #000; padding-bottom: 1.5mm; }
header p { margin: 0.4mm 0 0; }
.state { flex: none; align-self: flex-start; border: 0.5mm solid #000; padding: 1mm 2.5mm; font-size: 11pt; font-weight: 700; text-align: center; }
.state small { display: block; font-size: 7.4pt; font-weight: 400; }
dl { display: grid; grid-template-columns: repeat(3, auto 1fr); gap: 0.4mm 2mm; margin: 1.8mm 0 0; }
dt { color: #333; }
dd { margin: 0; font-weight: 600; overflow-wrap: anywhere; }
table { width: 100%; border-collapse: collapse; }
thead { display: table-header-group; }
th, td { border: 0.2mm solid #777; padding: 0.35mm 1.1mm; text-align: left; vertical-align: top; overflow-wrap: break-word; }
th { background: #eee; font-weight: 600; -webkit-print-color-adjust: exact; print-color-adjust: exact; }
tr { break-inside: avoid; }
.narrow { width: 1%; white-space: nowrap; }
.number { text-align: right; white-space: nowrap; }
.mark { font-weight: 700; }
ul { margin: 0; padding-left: 4mm; }
li { break-inside: avoid; }
.columns { columns: 2; column-gap: 7mm; }
.warn { border: 0.5mm solid #000; padding: 1mm 2mm; margin-top: 2mm; font-weight: 600; }
.signatures { display: grid; grid-template-columns: 1fr 1fr; gap: 8mm; margin-top: 3mm; break-inside: avoid; }
.signatures div { border-top: 0.3mm solid #000; padding-top: 0.6mm; margin-top: 9mm; }
.signatures div.signed { margin-top: 0; border-top: 0; }
footer { margin-top: 3mm; border-top: 0.2mm solid #777; padding-top: 1mm; font-size: 7.2pt; color: #222; overflow-wrap: anywhere; }
@media print { body { padding: 0 0.3mm; max-width: none; } }
@media screen and (max-width: 36rem) { body { font-size: 10pt; } dl { grid-template-columns: auto 1fr; } table { display: block; overflow-x: auto; } }
`;
