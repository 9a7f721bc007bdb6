'use strict';
const part = (id) => document.getElementById(id);
const plain = (text) => text.toUpperCase().replace(/[^A-Z0-9]/g, '');
const data = JSON.parse(part('rows').textContent);
const orders = data.orders.map(([id, gist, facts, blanks]) =>
  ({ id, gist, facts, words: `${id} ${gist}`.toUpperCase(), blanks }));
const blanks = data.blanks.map(([id, stage, place, gate, held]) =>
  ({ id, plain: plain(id), stage, place, gate, held, words: `${stage} ${place} ${gate}`.toUpperCase() }));
for (const order of orders) for (const k of order.blanks) blanks[k].order = order;
const places = new Map(blanks.map((blank, place) => [blank.plain, place]));
const details = part('details').textContent.split('\n');  // the first line is the bracket; then a line a blank
const rowsAtOnce = 200;
let shownRows = rowsAtOnce;
let opened = '';

function put(parent, name, text, kind) {
  const element = document.createElement(name);
  element.textContent = text;
  if (kind) element.className = kind;
  parent.append(element);
  return element;
}

// The list: what is looked for, and as many of its rows as are shown at once.

/** Orders with those of their blanks that fit: by its order's words and its own together, or by its ID. */
function fitting(typed) {
  const words = typed.toUpperCase().split(/\s+/).filter((word) => word !== '');
  const id = plain(typed);
  const found = [];
  for (const order of orders) {
    const open = words.filter((word) => !order.words.includes(word));
    const some = open.length === 0 ? order.blanks : order.blanks.filter((k) =>
      open.every((word) => blanks[k].words.includes(word)) || (id !== '' && blanks[k].plain.includes(id)));
    if (open.length === 0 || some.length > 0) found.push({ order, blanks: some });
  }
  return found;
}

function putOrder(parent, order, number, some) {
  const section = put(parent, 'section', '', 'order');
  put(section, 'h2', order.id).id = `order-${number}`;
  section.setAttribute('aria-labelledby', `order-${number}`);
  put(section, 'p', order.gist);
  const heads = put(section, 'p', '', 'row heads');
  heads.setAttribute('aria-hidden', 'true');
  for (const name of ['Blank', 'Stage', 'Place', 'Check']) put(heads, 'span', name);
  const list = put(section, 'ul', '');
  for (const blank of some.map((k) => blanks[k])) putRow(put(list, 'li', ''), blank);
}

function putRow(parent, blank) {
  const row = put(parent, 'a', '', 'row');
  row.dataset.id = blank.plain;
  row.href = `#${blank.id}`;
  put(row, 'b', blank.id);
  row.append(' ');
  put(row, 'span', blank.stage);
  row.append(' ');
  put(row, 'span', blank.place);
  row.append(' ');
  const gate = put(row, 'span', blank.held ? '' : blank.gate);
  if (blank.held) put(gate, 'strong', blank.gate);
}

function showList(found, most) {
  const list = document.createDocumentFragment();
  let left = most;
  for (const [number, { order, blanks: some }] of found.entries()) {
    if (left <= 0) break;
    putOrder(list, order, number, some.slice(0, left));
    left -= Math.max(some.length, 1);
  }
  part('orders').replaceChildren(list);
}

const count = (found) => found.reduce((sum, { blanks: some }) => sum + some.length, 0);

function search() {
  const typed = part('search').value.trim();
  const found = fitting(typed);
  const number = count(found);
  showList(found, shownRows);
  const shown = document.querySelectorAll('#orders a').length;
  part('more').hidden = shown >= number;
  part('first').hidden = typed !== '';
  const told = found.length === 0 ? 'Nothing fits.' :
    `${number} ${number === 1 ? 'blank' : 'blanks'}${typed === '' ? '' : ' found'}` +
    (shown < number ? `, the first ${shown} are shown.` : '.');
  part('found').textContent = typed === '' && shown >= number ? '' : told;
}

// One blank.

function showBlank(blank, { facts, gates, history }) {
  part('blank-id').textContent = blank.id;
  part('blank-facts').replaceChildren();
  for (const [name, value] of [...blank.order.facts, ...facts]) {
    put(part('blank-facts'), 'dt', name);
    put(part('blank-facts'), 'dd', value);
  }
  part('blank-gates').replaceChildren();
  for (const [name, words, holds] of gates) put(part('blank-gates'), 'li', `${name}: ${words}`, holds ? 'holds' : '');
  if (gates.length === 0) put(part('blank-gates'), 'li', 'nothing to check');
  part('blank-history').replaceChildren();
  for (const [when, what, says, by, valid] of history) {
    const row = put(part('blank-history'), 'li', '', valid ? '' : 'replaced');
    put(row, valid ? 'span' : 's', `${when} ${what}${says ? ': ' + says : ''}${by ? ` (${by})` : ''}`);
    if (!valid) put(row, 'span', ' (no longer valid)');
  }
  mark(blank.plain);
  part('blank').hidden = false;
  document.body.classList.add('opened');
  if (!matchMedia('(min-width: 70rem)').matches) part('blank').scrollIntoView();  // else it stands beside the list
  part('blank').focus({ preventScroll: true });
  document.title = `${blank.id}, ${data.title}`;
  opened = blank.id;
}

/** Which rows of the list are those of the blank that is open. */
function mark(id) {
  for (const row of document.querySelectorAll('.row[aria-current]')) row.removeAttribute('aria-current');
  for (const row of document.querySelectorAll(`.row[data-id="${id}"]`)) row.setAttribute('aria-current', 'true');
}

function closeBlank() {
  mark('');
  part('blank').hidden = true;
  document.body.classList.remove('opened');
  document.title = data.title;
}

function followHash() {
  let named = location.hash.slice(1);
  try {
    named = decodeURIComponent(named);
  } catch {
    // an address that cannot be decoded is taken as it is written
  }
  const place = places.get(plain(named));
  if (place !== undefined) {
    part('found').textContent = '';
    showBlank(blanks[place], JSON.parse(details[place + 1].replace(/,$/, '')));
    return;
  }
  closeBlank();
  search();
  if (named) part('found').textContent = `The register has no blank ${named}.`;
}

// Keys and clicks.

part('search').addEventListener('input', () => {
  if (!part('blank').hidden) history.replaceState(null, '', '#');  // what is found must not stand below it
  closeBlank();
  shownRows = rowsAtOnce;
  search();
});
part('search-form').addEventListener('submit', (event) => {
  event.preventDefault();
  const typed = part('search').value;
  const found = fitting(typed.trim());
  const only = count(found) === 1 ? found.find((one) => one.blanks.length === 1).blanks[0] : undefined;
  const place = places.get(plain(typed)) ?? only;
  if (place !== undefined) location.hash = blanks[place].id;
});
part('more').addEventListener('click', () => {
  const before = document.querySelectorAll('#orders a').length;
  shownRows += rowsAtOnce;
  search();
  document.querySelectorAll('#orders a')[before]?.focus();
});
part('list').addEventListener('click', (event) => {
  const row = event.target.closest('a');
  if (row && row.hash === location.hash) followHash();  // the address stays: no hashchange
});
part('back').addEventListener('click', (event) => {
  event.preventDefault();
  history.pushState(null, '', '#');
  closeBlank();
  search();
  (document.querySelector(`#orders a[href="#${opened}"]`) ?? part('search')).focus();
});
document.addEventListener('keydown', (event) => {
  if (event.key === '/' && document.activeElement !== part('search')) {
    event.preventDefault();
    part('search').focus();
  }
});
addEventListener('beforeprint', () => showList(fitting(part('search').value.trim()), Infinity));
addEventListener('afterprint', search);
addEventListener('hashchange', followHash);
if (part('orders').firstElementChild === null) search();
followHash();
