"use strict";
/* Finds trees, places, people and kinds by the words in find/: each script there is loaded when a
   word asks for it. Without this script the page has its lists. */
(() => {
  const form = document.getElementById("find"), field = form.elements.words;
  const list = document.getElementById("found"), said = document.getElementById("said");
  const beginnings = { n: form.dataset.names.split(" "), w: form.dataset.written.split(" ") };
  const ITEMS = Number(form.dataset.items), MOST = 30, MOST_SCRIPTS = 40;
  const words = new Map(), things = new Map(), asked = new Map();
  const codes = text => [...new TextEncoder().encode(text)].map(b => b.toString(16).padStart(2, "0"));
  const fold = text => text.toLowerCase().replace(/ß/g, "ss").replace(/ς/g, "σ").normalize("NFD")
    .replace(/([\p{Script=Latin}\p{Script=Greek}])\p{M}+/gu, "$1").normalize("NFC");

  window.backbud = {
    words(name, text) {
      words.set(name, text.split("\n").map(line => line.split("\t")));
    },
    things(number, rows) {
      things.set(number, rows);
    },
  };

  function load(name) {
    if (!asked.has(name)) asked.set(name, new Promise(done => {
      const script = document.createElement("script");
      script.src = `find/${name}.js`;
      script.onload = script.onerror = done;
      document.head.append(script);
    }));
    return asked.get(name);
  }

  function numbers(text) {
    if (!text) return [];
    if (text[0] == "!") return [...text.slice(1)].flatMap((letter, at) => {
      const bits = letter == "~" ? 44 : letter.charCodeAt(0) - 48;
      return [0, 1, 2, 3, 4, 5].filter(n => bits >> n & 1).map(n => at * 6 + n);
    });
    let last = -1;
    return text.split(" ").map(step => last += parseInt(step, 36));
  }

  /* The lines of one sort for a word: those that begin with it, or that one alone. */
  async function lines(sort, word, whole) {
    const some = beginnings[sort].filter(one => one && (word.startsWith(one) || !whole && one.startsWith(word)));
    await Promise.all(some.slice(0, MOST_SCRIPTS).map(one => load(sort + codes(one).join(""))));
    return some.flatMap(one => words.get(sort + one) || [])
      .filter(([found]) => whole ? found == word : found.startsWith(word));
  }

  /* How well each thing fits a word: what it is called, what it is, what is written of it. */
  async function fits(word) {
    const found = new Map();
    const keep = (text, weight) => numbers(text).forEach(n => found.set(n, Math.max(found.get(n) || 0, weight)));
    for (const [one, called, of] of await lines("n", word, false)) {
      keep(called, one == word ? 8 : 6);
      keep(of, 2);
    }
    for (const [, written] of await lines("w", word, true)) keep(written, 1);
    return found;
  }

  let turn = 0;
  async function find() {
    const mine = ++turn;
    const asked = (fold(field.value).match(/[\p{L}\p{M}\p{N}]+/gu) || []).filter(one => [...one].length > 1 || one > "\u024f");
    let rows = [], count = 0, weights;
    if (asked.length) {
      const each = await Promise.all(asked.map(fits));
      weights = new Map([...each[0]].filter(([n]) => each.every(one => one.has(n)))
        .map(([n]) => [n, each.reduce((sum, one) => sum + one.get(n), 0)]));
      const best = [...weights.keys()].sort((a, b) => weights.get(b) - weights.get(a) || a - b);
      count = best.length;
      const shown = best.slice(0, MOST);
      await Promise.all([...new Set(shown.map(n => Math.floor(n / ITEMS)))].map(n => load("t" + n)));
      rows = shown.map(n => (things.get(Math.floor(n / ITEMS)) || [])[n % ITEMS]).filter(Boolean);
    }
    if (mine != turn) return;
    const year = asked.find(one => /^[12]\d{3}$/.test(one));
    list.replaceChildren(...rows.map(([sort, name, beside, path]) => {
      const row = document.createElement("li"), link = document.createElement("a"), more = document.createElement("span");
      link.href = path + (year && sort == "tree" ? `#y${year}` : "");
      link.dir = more.dir = "auto";
      link.textContent = name;
      more.className = "kind";
      more.textContent = beside;
      row.append(link, " ", more);
      return row;
    }));
    list.hidden = !rows.length;
    said.textContent = !asked.length ? "" : !count ? form.dataset.none
      : (count > rows.length ? form.dataset.first : form.dataset.found)
        .replace("{count}", count).replace("{shown}", rows.length);
    document.getElementById("lists").hidden = asked.length > 0;
  }

  form.hidden = false;
  form.addEventListener("submit", event => event.preventDefault());
  field.addEventListener("input", find);
  field.focus();
  if (field.value) find();
})();
