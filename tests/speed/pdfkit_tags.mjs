// What the tags cost a scripting program: PDFKit and a QR encoder from npm, one PDF document an order. The speed
// comparison (run.sh) sets it beside Blankwright; nothing of Blankwright is used.
//
//   node pdfkit_tags.mjs ORDERS TAGS_AN_ORDER OUTPUT_FOLDER FONT_FOLDER
//
// plain_libharu.cpp puts the same marks at the same places: a change to one is a change to both.

import { createWriteStream, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { finished } from 'node:stream/promises';
import PDFDocument from 'pdfkit';
import QRCode from 'qrcode';

const mm = 72 / 25.4;
const dot = 72 / 300; // of a 300 dpi printer, in points
const module = 9 * dot; // 0.762 mm
const columns = 3;
const rows = 8;
const label = { width: 70, height: 37, left: 0, top: 0.5 }; // mm
const species = ['European beech', 'Black walnut', 'Yellow-poplar', 'Sugar maple'];

/** Seven symbols, the last a check symbol: weights 5^1 … 5^6 and 1, the sum is 0 modulo 23. */
function tagId(number) {
  const alphabet = '23456789BCDFGHJKNPRSTVX';
  const weights = [5, 2, 10, 4, 20, 8];
  let rest = (number * 99991) % 148035889;
  let sum = 0;
  let id = '';
  for (let i = 5; i >= 0; i -= 1) {
    const digit = rest % 23;
    rest = Math.floor(rest / 23);
    id = alphabet[digit] + id;
    sum += weights[i] * digit;
  }
  return id + alphabet[(23 - (sum % 23)) % 23];
}

const orderName = (order) => `S-${String(order).padStart(4, '0')}`;

function madeTag(order, piece, pieces) {
  const section = 36 + (order % 9);
  return {
    id: tagId(order * 10000 + piece),
    lines: [
      `Order ${orderName(order)}`,
      `${piece} of ${pieces}`,
      species[order % species.length],
      `${section} × ${section} × ${126 + (order % 31)} mm sawn`,
    ],
  };
}

const onADot = (points) => Math.round(points / dot) * dot;

function drawCode(doc, x, y, id) {
  const code = QRCode.create(id, { version: 2, errorCorrectionLevel: 'H' }).modules;
  const left = onADot(x(6.1));
  const top = onADot(y(9));
  for (let row = 0; row < code.size; row += 1) {
    for (let column = 0; column < code.size; column += 1) {
      if (!code.get(row, column)) continue;
      doc.rect(left + column * module, top + row * module, module, module);
    }
  }
  doc.fill('black');
}

function drawTag(doc, x, y, tag) {
  drawCode(doc, x, y, tag.id);

  doc.lineWidth(0.25 * mm);
  doc.rect(x(1.5), y(1.5), 67 * mm, 34 * mm);
  doc.rect(x(30), y(25.9), 18 * mm, 8 * mm);
  doc.rect(x(49), y(25.9), 18 * mm, 8 * mm);
  doc.stroke('black');

  const put = (words, left, baseline) =>
    doc.text(words, x(left), y(baseline), { lineBreak: false, baseline: 'alphabetic' });
  doc.font('bold').fontSize(18);
  put(`${tag.id.slice(0, 3)}-${tag.id.slice(3)}`, 30, 9.5);
  doc.font('regular').fontSize(8.5);
  tag.lines.forEach((line, i) => put(line, 30, 13.6 + 3.5 * i));
  doc.fontSize(6);
  put('dry mass, g', 30.8, 28.3);
  put('wet mass, g', 49.8, 28.3);
}

async function writeOrder(order, pieces, folder, fonts) {
  const doc = new PDFDocument({
    size: 'A4',
    margin: 0,
    autoFirstPage: false,
    info: { Title: `Tags ${orderName(order)}` },
  });
  const file = doc.pipe(createWriteStream(join(folder, `${orderName(order)}.pdf`)));
  doc.registerFont('regular', fonts.regular);
  doc.registerFont('bold', fonts.bold);
  for (let piece = 1; piece <= pieces; piece += 1) {
    const place = (piece - 1) % (columns * rows);
    if (place === 0) doc.addPage();
    const left = label.left + label.width * (place % columns);
    const top = label.top + label.height * Math.floor(place / columns);
    drawTag(
      doc,
      (x) => (left + x) * mm,
      (y) => (top + y) * mm,
      madeTag(order, piece, pieces),
    );
  }
  doc.end();
  await finished(file);
}

function countFrom(text) {
  const value = Number(text);
  if (!Number.isInteger(value) || value < 1 || value > 9999) {
    throw new Error(`${text} is not a count from 1 to 9999`);
  }
  return value;
}

if (process.argv.length !== 6) {
  throw new Error('usage: node pdfkit_tags.mjs ORDERS TAGS_AN_ORDER OUTPUT_FOLDER FONT_FOLDER');
}
const [orders, pieces] = process.argv.slice(2, 4).map(countFrom);
const [folder, fontFolder] = process.argv.slice(4);
mkdirSync(folder, { recursive: true });
const fonts = {
  regular: readFileSync(join(fontFolder, 'BlankwrightSans-Regular.ttf')),
  bold: readFileSync(join(fontFolder, 'BlankwrightSans-Bold.ttf')),
};
for (let order = 1; order <= orders; order += 1) await writeOrder(order, pieces, folder, fonts);
