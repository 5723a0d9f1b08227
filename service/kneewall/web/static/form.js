// The form works without this file. With it, items appear and vanish at once, the answer arrives without leaving the page,
// the question stands in the page's address, and a question can be opened from a file.
"use strict";

const TOKEN = "~~";

function start() {
  const form = document.getElementById("question");
  if (!form) return;
  form.addEventListener("submit", submitted);
  form.addEventListener("input", changed);
  document.getElementById("open").hidden = false;
  document.getElementById("file").addEventListener("change", opened);
  patternsOf(form).catch(() => {});
}

// The patterns of items, fetched once for each system of units and kept while the page stands; a lost connection may be tried again.
const fetched = new Map();

function patternsOf(form) {
  const address = form.dataset.patterns;
  if (!fetched.has(address)) {
    const coming = fetch(address, { headers: { accept: "text/html" } })
      .then((reply) => reply.ok ? reply.text() : Promise.reject(new Error(String(reply.status))))
      .then((text) => new DOMParser().parseFromString(text, "text/html"));
    coming.catch(() => fetched.delete(address));
    fetched.set(address, coming);
  }
  return fetched.get(address);
}

function changed() {
  const note = document.querySelector(".changed");
  if (note) note.hidden = false;
}

function submitted(event) {
  const button = event.submitter;
  const form = event.target;
  if (button && button.name === "add") {
    event.preventDefault();
    add(button).catch((error) => tell(`No field could be added (${error.message}). Your figures are still in the form; try again when there is a connection.`));
  } else if (button && button.name === "remove") {
    event.preventDefault();
    remove(button);
    changed();
  } else if (!button || button.value === "ask" || button.value === "open") {
    event.preventDefault();
    send(form, button ? button.value : "ask");
  }
}

async function add(button) {
  const patterns = await patternsOf(button.form);
  const items = button.parentElement.querySelector(":scope > .items");
  const pattern = [...patterns.querySelectorAll("template")].find((one) => one.dataset.pattern === button.dataset.pattern);
  const copy = document.importNode(pattern.content, true);
  const single = button.parentElement.classList.contains("one");
  const number = Number(items.dataset.next || items.children.length);
  items.dataset.next = number + 1;
  const name = single ? button.value : `${button.value}/${number}`;
  for (const element of copy.querySelectorAll("*")) {
    for (const attribute of element.attributes) {
      if (attribute.value.includes(TOKEN)) attribute.value = attribute.value.replaceAll(TOKEN, name);
    }
  }
  if (items.dataset.title) copy.querySelector("summary span, label, legend").textContent = `${items.dataset.title} ${items.children.length + 1}`;
  items.append(...copy.children);
  const first = items.lastElementChild.querySelector("input:not([type=hidden]), select, button");
  if (first) first.focus();
  changed();
}

function remove(button) {
  const item = button.closest(".item");
  const many = item.closest(".many");
  const items = item.parentElement;
  if (!items.dataset.next) items.dataset.next = items.children.length;
  item.remove();
  if (!items.children.length) items.textContent = "";
  if (items.dataset.title) {
    [...items.children].forEach((one, index) => { one.querySelector("summary span, label, legend").textContent = `${items.dataset.title} ${index + 1}`; });
  }
  many.querySelector(":scope > .more").focus();
}

async function send(form, what) {
  const texts = new URLSearchParams(new FormData(form));
  texts.set("do", what);
  if (what === "ask") texts.delete("written");
  form.setAttribute("aria-busy", "true");
  try {
    const reply = await fetch(form.action, { method: "POST", body: texts, headers: { accept: "text/html" } });
    const page = new DOMParser().parseFromString(await reply.text(), "text/html");
    const main = page.getElementById("main");
    if (!main) throw new Error(String(reply.status));
    document.getElementById("main").replaceWith(main);
    start();
    arrived();
  } catch (error) {
    form.removeAttribute("aria-busy");
    tell(`No answer came (${error.message}). Your figures are still in the form; try again when there is a connection.`);
  }
}

function arrived() {
  const form = document.getElementById("question");
  const written = document.getElementById("written").value;
  const whole = `${location.pathname}#question=${encodeURIComponent(JSON.stringify(JSON.parse(written)))}`;
  if (document.querySelector(".answer")) history.replaceState(null, "", form.dataset.link || whole);
  const news = document.querySelector(".summary, .answer h2");
  news.focus({ preventScroll: true });
  document.getElementById("outcome").scrollIntoView({ block: "start" });
}

function tell(words) {
  const place = document.getElementById("outcome");
  const box = document.createElement("div");
  box.className = "summary told";
  box.setAttribute("role", "alert");
  box.textContent = words;
  place.querySelector(":scope > .told")?.remove();
  place.prepend(box);
  place.scrollIntoView({ block: "nearest" });
}

async function opened(event) {
  const file = event.target.files[0];
  if (!file) return;
  document.getElementById("written").value = await file.text();
  send(document.getElementById("question"), "open");
}

function opensFromAddress() {
  if (!location.hash.startsWith("#question=")) return;
  try {
    document.getElementById("written").value = decodeURIComponent(location.hash.slice("#question=".length));
  } catch {
    tell("The question in this address is damaged; ask for the link or the file again.");
    return;
  }
  send(document.getElementById("question"), "open");
}

start();
opensFromAddress();
