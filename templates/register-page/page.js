'use strict';
const data = JSON.parse(document.getElementById('data').textContent);
const plain = (text) => text.toUpperCase().replace(/[^A-Z0-9]/g, '');
const byId = new Map(data.blanks.map((blank) => [plain(blank.id), blank]));
const part = (id) => document.getElementById(id);

function put(parent, name, text, kind) {
  const element = document.createElement(name);
  element.textContent = text;
  if (kind) element.className = kind;
  parent.append(element);
}

function showBlank(blank) {
  part('blank-id').textContent = blank.id;
  const facts = part('blank-facts');
  facts.replaceChildren();
  for (const [name, value] of blank.facts) {
    put(facts, 'dt', name);
    put(facts, 'dd', value);
  }
  const gates = part('blank-gates');
  gates.replaceChildren();
  for (const gate of blank.gates) put(gates, 'li', gate.words, gate.holds ? 'holds' : '');
  if (blank.gates.length === 0) put(gates, 'li', 'none to pass now');
  const history = part('blank-history');
  history.replaceChildren();
  for (const row of blank.history) {
    const by = row.by ? ` (${row.by})` : '';
    const replaced = row.holds ? '' : ' — does not hold any more';
    put(history, 'li', `${row.when} ${row.what}${row.says ? ': ' + row.says : ''}${by}${replaced}`,
      row.holds ? '' : 'replaced');
  }
  part('blank').hidden = false;
  part('blank').scrollIntoView();
  part('blank').focus({ preventScroll: true });
  document.title = `${blank.id}, ${data.title}`;
}

function followHash() {
  let named = '';
  try {
    named = plain(decodeURIComponent(location.hash));
  } catch {
    named = plain(location.hash);
  }
  const blank = byId.get(named);
  if (blank) {
    part('found').textContent = '';
    showBlank(blank);
    return;
  }
  part('blank').hidden = true;
  document.title = data.title;
  part('found').textContent = named ? `The register has no blank ${location.hash.slice(1)}.` : '';
}

function search() {
  const typed = part('search').value.trim();
  const words = typed.toUpperCase();
  const id = plain(typed);
  let shown = 0;
  for (const order of document.querySelectorAll('.order')) {
    const orderFits = words !== '' && order.dataset.words.toUpperCase().includes(words);
    let any = false;
    for (const row of order.querySelectorAll('tbody tr')) {
      const fits = words === '' || orderFits || (id !== '' && row.dataset.id.includes(id));
      row.hidden = !fits;
      any = any || fits;
      shown += fits ? 1 : 0;
    }
    order.hidden = !any && words !== '' && !orderFits;
  }
  part('found').textContent = words === '' ? '' : `${shown} ${shown === 1 ? 'blank' : 'blanks'} found.`;
}

part('search').addEventListener('input', search);
part('search-form').addEventListener('submit', (event) => {
  event.preventDefault();
  const typed = plain(part('search').value);
  if (byId.has(typed)) location.hash = byId.get(typed).id;
});
document.addEventListener('keydown', (event) => {
  if (event.key === '/' && document.activeElement !== part('search')) {
    event.preventDefault();
    part('search').focus();
  }
});
addEventListener('hashchange', followHash);
followHash();
