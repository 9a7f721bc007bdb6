'use strict';
const part = (id) => document.getElementById(id);
const plain = (text) => text.toUpperCase().replace(/[^A-Z0-9]/g, '');
const data = JSON.parse(part('list').textContent);
const orders = data.orders.map(([id, gist, words, blanks]) => ({ id, gist, words: words.toUpperCase(), blanks }));
const blanks = data.blanks.map(([id, stage, place, held]) => ({ id, plain: plain(id), stage, place, held }));
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

/** Orders with those of their blanks that fit: all of an order that has every word, else those with that ID. */
function fitting(typed) {
  const words = typed.toUpperCase().split(/\s+/).filter((word) => word !== '');
  const id = plain(typed);
  const found = [];
  for (const order of orders) {
    const whole = words.every((word) => order.words.includes(word));
    const some = whole ? order.blanks : id === '' ? [] : order.blanks.filter((k) => blanks[k].plain.includes(id));
    if (whole || some.length > 0) found.push({ order, blanks: some });
  }
  return found;
}

function putOrder(parent, order, number, some) {
  const section = put(parent, 'section', '', 'order');
  put(section, 'h2', order.id).id = `order-${number}`;
  section.setAttribute('aria-labelledby', `order-${number}`);
  put(section, 'p', order.gist);
  const table = put(section, 'table', '');
  const head = table.createTHead().insertRow();
  for (const name of ['Blank', 'Stage', 'Place', 'Gate']) put(head, 'th', name).scope = 'col';
  const body = table.createTBody();
  for (const blank of some.map((k) => blanks[k])) {
    const row = body.insertRow();
    row.dataset.id = blank.plain;
    put(row.insertCell(), 'a', blank.id).href = `#${blank.id}`;
    row.insertCell().textContent = blank.stage;
    row.insertCell().textContent = blank.place;
    const gate = row.insertCell();
    if (blank.held) put(gate, 'strong', 'hold');
  }
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
  const shown = document.querySelectorAll('#orders tbody tr').length;
  part('more').hidden = shown >= number;
  const told = found.length === 0 ? 'No blank, order or client fits.' :
    `${number} ${number === 1 ? 'blank' : 'blanks'}${typed === '' ? '' : ' found'}` +
    (shown < number ? `, the first ${shown} are shown.` : '.');
  part('found').textContent = typed === '' && shown >= number ? '' : told;
}

// One blank.

function showBlank(blank, { facts, gates, history }) {
  part('blank-id').textContent = blank.id;
  part('blank-facts').replaceChildren();
  for (const [name, value] of facts) {
    put(part('blank-facts'), 'dt', name);
    put(part('blank-facts'), 'dd', value);
  }
  part('blank-gates').replaceChildren();
  for (const [words, holds] of gates) put(part('blank-gates'), 'li', words, holds ? 'holds' : '');
  if (gates.length === 0) put(part('blank-gates'), 'li', 'none to pass now');
  part('blank-history').replaceChildren();
  for (const [when, what, says, by, holds] of history) {
    const row = put(part('blank-history'), 'li', '', holds ? '' : 'replaced');
    put(row, holds ? 'span' : 's', `${when} ${what}${says ? ': ' + says : ''}${by ? ` (${by})` : ''}`);
    if (!holds) put(row, 'span', ' — does not hold any more');
  }
  part('blank').hidden = false;
  part('blank').scrollIntoView();
  part('blank').focus({ preventScroll: true });
  document.title = `${blank.id}, ${data.title}`;
  opened = blank.id;
}

function closeBlank() {
  part('blank').hidden = true;
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
  const before = document.querySelectorAll('#orders tbody a').length;
  shownRows += rowsAtOnce;
  search();
  document.querySelectorAll('#orders tbody a')[before]?.focus();
});
part('orders').addEventListener('click', (event) => {
  if (event.target.hash && event.target.hash === location.hash) followHash();  // the address stays: no hashchange
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
