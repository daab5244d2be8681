"use strict";
/* The log on a phone. What is written down lives in one plain object, `state`, which is kept on the device at every key.
   Times are moments (milliseconds), never counted: so they are right after the phone has slept. Text goes into the page
   as text alone. */

const plan = JSON.parse(document.getElementById("plan").textContent);
const noteTemplates = [...document.querySelectorAll("template.note")];

/* Words */

function tell(key, values = {}) {
  return plan.words[key].replace(/\{(\w+)\}/g, (_, name) => values[name] ?? "");
}

function clockTime(seconds) {
  const whole = Math.max(0, Math.round(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

function dayTold(iso) {
  const [, month, day] = iso.split("-").map(Number);
  return plan.months[month - 1] ? `${day} ${plan.months[month - 1]}` : iso;
}

function today() {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
}

/* What is written down, kept on the device */

function freshState() {
  return { name: plan.athlete, held: {}, timer: null, signals: { vibrate: false, sound: false } };
}

/* The state that a text tells; null where it tells none. */
function asState(text) {
  try {
    const found = JSON.parse(text);
    if (!(found?.held instanceof Object)) return null;
    const held = Object.entries(found.held).map(([key, one]) => [key, { ...freshHeld(), ...one }]);
    return { ...freshState(), ...found, held: Object.fromEntries(held) };
  } catch {
    return null;
  }
}

function fromStorage() {
  try {
    return asState(localStorage.getItem(plan.key));
  } catch {
    return null;
  }
}

function toStorage(text) {
  try {
    localStorage.setItem(plan.key, text);
    return true;
  } catch {
    return false;
  }
}

/* Tries it beside the log itself, which another window may just have written. */
function canStore() {
  try {
    localStorage.setItem(`${plan.key}?`, "");
    localStorage.removeItem(`${plan.key}?`);
    return true;
  } catch {
    return false;
  }
}

/* A second copy. Browsers bring localStorage to the disk seconds later, so the last words would be lost with a browser that
   is killed; IndexedDB does it at once where it is asked to. */
let disk = null;

function openDisk() {
  return new Promise((opened) => {
    try {
      const request = indexedDB.open("setwright-log", 1);
      request.onupgradeneeded = () => request.result.createObjectStore("kept");
      request.onsuccess = () => opened(request.result);
      request.onerror = request.onblocked = () => opened(null);
    } catch {
      opened(null);
    }
  });
}

function fromDisk() {
  return new Promise((read) => {
    const request = disk.transaction("kept").objectStore("kept").get(plan.key);
    request.onsuccess = () => read(asState(request.result ?? "null"));
    request.onerror = () => read(null);
  });
}

function toDisk(text) {
  return new Promise((written) => {
    try {
      const work = disk.transaction("kept", "readwrite", { durability: "strict" });
      work.objectStore("kept").put(text, plan.key);
      work.oncomplete = () => written(true);
      work.onerror = work.onabort = () => written(false);
    } catch {
      written(false);
    }
  });
}

async function keep() {
  state.written = Date.now();
  const text = JSON.stringify(state);
  const stored = toStorage(text);
  const onDisk = disk ? await toDisk(text) : false;
  tellKept(stored || onDisk ? "" : "notKept");
}

/* Takes the second copy where it is the newer one. The page does not wait for it: some browsers take long, or never answer. */
async function restore() {
  disk = await openDisk();
  const before = state.written;
  const other = disk ? await fromDisk() : null;
  if (other && (other.written ?? 0) > (state.written ?? 0) && state.written === before) {
    state = other;
    begin();
  }
  if (disk && (state.written ?? 0) > (other?.written ?? 0)) toDisk(JSON.stringify(state));
  if (!disk && !canStore()) tellKept("notKept");
}

function tellKept(key) {
  const told = key ? tell(key) : "";
  const place = document.getElementById("kept");
  if (place.textContent !== told) place.textContent = told;
}

let state = fromStorage() ?? freshState();

function heldKey(session, time) {
  return `${session.name}/${time}`;
}

function freshHeld() {
  return {
    date: today(),
    version: "",
    started: null,
    begun: {},
    done: false,
    ticks: {},
    minutes: "",
    effort: "",
    note: "",
    entries: {},
  };
}

/* What is written down of a session at one of its times; made when the first thing is. */
function heldOf(session, time) {
  return (state.held[heldKey(session, time)] ??= freshHeld());
}

function isBegun(session, time) {
  return heldKey(session, time) in state.held;
}

function entryState(held, entry) {
  return (held.entries[entry.id] ??= { way: entry.ways[0].name, ways: {} });
}

function wayState(held, entry, way) {
  return (entryState(held, entry).ways[way.name] ??= { how: {}, sets: [], distance: "", minutes: "", seconds: "" });
}

function chosenWay(held, entry) {
  const name = held?.entries[entry.id]?.way;
  return entry.ways.find((way) => way.name === name) ?? entry.ways[0];
}

function isDone(done) {
  return Boolean(done) && (done.sets.some(Boolean) || Boolean(done.distance || done.minutes || done.seconds));
}

function fieldValue(done, field) {
  return done?.how[field.column] ?? field.asked;
}

function versionNumber(session, held) {
  return Math.max(
    0,
    session.versions.findIndex((version) => version.short === (held?.version ?? "")),
  );
}

/* Elements */

function make(tag, attributes = {}, ...inside) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (typeof value === "function") element.addEventListener(name, value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false && value !== undefined && value !== "") element.setAttribute(name, value);
  }
  element.append(...inside.filter((part) => part !== "" && part !== null && part !== undefined && part !== false));
  return element;
}

function button(text, press, attributes = {}) {
  return make("button", { type: "button", click: press, ...attributes }, text);
}

function copyOf(id) {
  const template = document.getElementById(id);
  return template ? template.content.cloneNode(true) : "";
}

function note(number) {
  return number === null ? "" : make("div", { class: "prose" }, noteTemplates[number].content.cloneNode(true));
}

function line(label, text) {
  return text ? make("p", {}, make("b", {}, `${label}: `), text) : "";
}

let names = 0; // of fields, so that each has its own
function labelled(label, input, attributes = {}) {
  input.id = `field-${(names += 1)}`;
  return make("div", { class: "field", ...attributes }, make("label", { for: input.id }, label), input);
}

/* Tells a reader of the screen something that nothing else says. */
function say(text) {
  document.getElementById("said").textContent = "";
  setTimeout(() => (document.getElementById("said").textContent = text), 50);
}

function ask(question) {
  const dialog = document.getElementById("ask");
  document.getElementById("question").textContent = question;
  const [no, yes] = dialog.querySelectorAll("button");
  no.textContent = tell("noKeep");
  yes.textContent = tell("yesEmpty");
  dialog.returnValue = "no";
  dialog.showModal();
  no.focus();
  return new Promise((answered) => {
    no.onclick = yes.onclick = (event) => dialog.close(event.currentTarget.value);
    dialog.onclose = () => answered(dialog.returnValue === "yes");
  });
}

/* The page: the week, or one session of it */

const page = document.getElementById("page");
const weekHead = [...page.children].filter((part) => part.id !== "cannot-run").map((part) => part.cloneNode(true));
let shown = null;
let refresh = [];

function place() {
  const [name, time] = decodeURIComponent(location.hash.slice(1)).split("/");
  const session = plan.sessions.find((one) => one.name === name);
  return session && Number(time) < session.times.length ? { session, time: Number(time) } : null;
}

function go(hash) {
  location.hash = hash;
}

function show() {
  shown = place();
  refresh = [];
  page.replaceChildren(...(shown ? sessionView(shown.session, shown.time) : weekView()));
  document.title = [shown ? sessionTitle(shown.session, shown.time) : "", title].filter(Boolean).join(" · ");
  tick();
}

function showAndFocus() {
  show();
  window.scrollTo(0, 0);
  page.querySelector("h1").focus({ preventScroll: true });
}

function sessionTitle(session, time) {
  return session.times.length > 1 ? `${session.title} · ${session.times[time]}` : session.title;
}

const title = document.title;

/* The week */

function weekView() {
  const parts = weekHead.map((part) => part.cloneNode(true));
  if (!plan.athlete) parts.push(nameField());
  parts.push(
    make("h2", {}, tell("sessions")),
    make("p", { class: "small" }, document.getElementById("kept").textContent ? "" : tell("kept")),
    ...plan.sessions.map(sessionList),
    sendPart(),
    make("section", {}, copyOf("marks")),
    emptyPart(),
  );
  return parts;
}

function nameField() {
  const input = make("input", {
    type: "text",
    value: state.name,
    autocapitalize: "none",
    autocomplete: "off",
    spellcheck: "false",
  });
  input.addEventListener("input", () => {
    state.name = input.value;
    keep();
  });
  return labelled(tell("name"), input);
}

function sessionList(session) {
  const open = session.times.map((_, time) => make("li", {}, sessionLink(session, time)));
  return make(
    "section",
    {},
    session.times.length > 1 ? make("h3", {}, session.title) : "",
    make("ul", { class: "sessions" }, ...open),
  );
}

function sessionLink(session, time) {
  const held = state.held[heldKey(session, time)];
  const name = session.times.length > 1 ? session.times[time] : session.title;
  const told = !held ? "notBegun" : held.done ? "doneOn" : "begunOn";
  return make(
    "a",
    { href: `#${encodeURIComponent(session.name)}/${time}`, class: held?.done ? "done" : held ? "begun" : "" },
    make("span", { class: "sr" }, session.times.length > 1 ? `${session.title}, ` : ""),
    make("b", {}, name),
    " ",
    make("span", { class: "state" }, tell(told, { day: held ? dayTold(held.date) : "" })),
  );
}

/* The table of our log */

function allHeld() {
  return plan.sessions
    .flatMap((session) => session.times.map((_, time) => ({ session, time, held: state.held[heldKey(session, time)] })))
    .filter(({ held }) => held)
    .sort((one, other) => (one.held.date < other.held.date ? -1 : one.held.date > other.held.date ? 1 : 0));
}

function isWritten({ session, held }) {
  const done = loggedEntries(session).some((entry) => entry.ways.some((way) => isDone(held.entries[entry.id]?.ways[way.name])));
  return done || Boolean(held.minutes.trim() || held.effort.trim() || held.note.trim());
}

function loggedEntries(session) {
  return session.blocks.filter((block) => block.logged).flatMap((block) => block.entries);
}

/* The columns of the blank table, with more of sets where more were done. */
function tableHeaders(written) {
  const sets = written.flatMap(({ held }) =>
    Object.values(held.entries).flatMap((entry) => Object.values(entry.ways).map((way) => way.sets.findLastIndex(Boolean) + 1)),
  );
  const isSet = (header) => /^set \d+$/.test(header);
  const there = plan.headers.filter(isSet).length;
  const at = there ? plan.headers.findLastIndex(isSet) + 1 : plan.headers.indexOf("unit") + 1;
  const more = Array.from({ length: Math.max(0, Math.max(0, ...sets) - there) }, (_, number) => `set ${there + number + 1}`);
  return [...plan.headers.slice(0, at), ...more, ...plan.headers.slice(at)];
}

function clockCell(done) {
  const [minutes, seconds] = [done.minutes.trim(), done.seconds.trim()];
  return seconds ? `${minutes || "0"}:${seconds.padStart(2, "0")}` : minutes;
}

/* What a row says, by the first word of its column. */
function rowCells(way, done) {
  const cells = { movement: way.name, asked: way.asked, unit: way.unit };
  if (!isDone(done)) return cells;
  for (const field of way.fields) cells[field.column] = fieldValue(done, field).trim();
  done.sets.forEach((figure, number) => (cells[`set ${number + 1}`] = (figure ?? "").trim()));
  if (way.measured.includes("distance")) cells.distance = done.distance.trim();
  if (way.measured.includes("time")) cells.time = clockCell(done);
  return cells;
}

function sessionRows({ session, held }) {
  const rows = loggedEntries(session).flatMap((entry) => {
    const chosen = chosenWay(held, entry);
    const ways = entry.ways.filter((way) => way === chosen || isDone(held.entries[entry.id]?.ways[way.name]));
    return ways.map((way) => rowCells(way, held.entries[entry.id]?.ways[way.name]));
  });
  const first = {
    date: held.date,
    session: session.name,
    short: held.version,
    minutes: held.minutes.trim(),
    rpe: held.effort.trim(),
    note: held.note.trim(),
  };
  return rows.map((row, number) => (number ? row : { ...row, ...first }));
}

/* A text that a spreadsheet would take for a formula begins with a mark (OWASP, CSV injection). */
function guarded(text) {
  return /^[=+\-@\t\r\n']/.test(text) ? `'${text}` : text;
}

function csvLine(cells) {
  const told = cells.map((cell) => guarded(String(cell ?? "").replace(/\r\n?/g, "\n")));
  return `${told.map((cell) => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join(",")}\r\n`;
}

function csv() {
  const written = allHeld().filter(isWritten);
  const headers = tableHeaders(written);
  const whose = state.name
    .trim()
    .toLowerCase()
    .split(/[\s,;"]+/)
    .filter(Boolean)
    .join("-");
  const named = (header) => (header.startsWith("set ") ? header : header.split(" ")[0]);
  const rows = written.flatMap(sessionRows).map((row) => headers.map((header) => row[named(header)]));
  return [[plan.mark, whose, plan.program, plan.revision], headers, ...rows].map(csvLine).join("");
}

/* Sending */

function csvFile() {
  const first = allHeld().filter(isWritten)[0]?.held.date ?? today();
  // The mark at the beginning tells spreadsheet programs that the letters are UTF-8.
  return new File(["\ufeff", csv()], `${plan.file}-${first}.csv`, { type: "text/csv" });
}

function canShare() {
  try {
    return Boolean(navigator.canShare?.({ files: [new File(["x"], "log.csv", { type: "text/csv" })] }));
  } catch {
    return false;
  }
}

function sendPart() {
  const told = make("p", { class: "told", role: "status" });
  const text = make("textarea", { readonly: true, rows: "6", spellcheck: "false" });
  const asText = make(
    "details",
    {},
    make("summary", {}, tell("asText")),
    make("p", {}, tell("asTextHow")),
    labelled(tell("asText"), text),
  );
  text.value = csv();
  const ready = () => {
    const why = notReady();
    told.textContent = why;
    return !why || why.startsWith(tell("unreadable", { what: "" }).slice(0, 10));
  };
  return make(
    "section",
    { class: "send" },
    make("h2", {}, tell("send")),
    make("p", {}, tell("sendHow")),
    canShare() ? button(tell("share"), () => ready() && shareFile(told), { class: "strong" }) : "",
    button(tell("saveFile"), () => ready() && saveFile(told), { class: canShare() ? "" : "strong" }),
    told,
    asText,
  );
}

/* Why the log cannot go, or what in it nobody will be able to read; "" where all is well. */
function notReady() {
  if (!plan.athlete && !state.name.trim()) return tell("nameMissing");
  const written = allHeld().filter(isWritten);
  if (!written.length) return tell("fewNotes");
  const odd = written.flatMap(({ session, time, held }) => oddIn(session, time, held));
  return odd.length ? tell("unreadable", { what: odd.join("; ") }) : "";
}

function oddIn(session, time, held) {
  const where = sessionTitle(session, time);
  const odd = loggedEntries(session).flatMap((entry) => {
    const way = chosenWay(held, entry);
    const done = held.entries[entry.id]?.ways[way.name];
    return done?.sets.some((figure) => !isFigure(figure ?? "", way.unit))
      ? [tell("unreadableAt", { movement: way.title, session: where })]
      : [];
  });
  return isNumber(held.minutes) && isNumber(held.effort) ? odd : [...odd, tell("minutesIn", { session: where })];
}

function isNumber(text) {
  return /^(\d{1,4}([.,]\d{1,3})?)?$/.test(text.trim());
}

function isFigure(text, unit) {
  return unit === "reps"
    ? /^\d{0,4}$/.test(text.trim())
    : /^(\d{1,5}([.,]\d{1,3})?( *[a-z]+)?|\d{1,3}:\d\d)?$/i.test(text.trim());
}

async function shareFile(told) {
  try {
    await navigator.share({ files: [csvFile()], title: document.title });
    told.textContent = tell("shared");
  } catch (error) {
    if (error.name !== "AbortError") told.textContent = tell("shareFailed");
  }
}

function saveFile(told) {
  const file = csvFile();
  const address = URL.createObjectURL(file);
  make("a", { href: address, download: file.name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
  const why = notReady();
  told.textContent = [tell("saved", { file: file.name }), why].filter(Boolean).join(" ");
}

function emptyPart() {
  const empty = async () => {
    if (!(await ask(tell("emptyAsk")))) return;
    state = { ...freshState(), signals: state.signals };
    keep();
    showAndFocus();
    say(tell("emptied"));
  };
  return make("section", {}, make("h2", {}, tell("empty")), make("p", {}, tell("emptyHow")), button(tell("empty"), empty));
}

/* A session */

function sessionView(session, time) {
  const held = () => heldOf(session, time);
  const number = versionNumber(session, state.held[heldKey(session, time)]);
  const limit = number ? session.versions[number].label : session.limit;
  const planned = tell(limit ? "plannedAtMost" : "planned", { minutes: session.versions[number].minutes, limit });
  return [
    make("p", {}, make("a", { href: "#", class: "back" }, tell("back"))),
    make("h1", { tabindex: "-1" }, sessionTitle(session, time)),
    ...session.easier.map((told) => make("p", { class: "easier" }, told)),
    make("p", {}, planned),
    note(session.note),
    copyOf("stop"),
    startPart(session, time, held),
    clockPart(session, time),
    ...session.blocks.map((_, block) => blockPart(session, time, block, number)),
    wholePart(session, time, held),
  ];
}

function startPart(session, time, held) {
  const now = state.held[heldKey(session, time)];
  const date = make("input", { type: "date", value: now?.date ?? today(), required: true });
  date.addEventListener("input", () => {
    if (!date.value) return;
    held().date = date.value;
    keep();
  });
  return make(
    "section",
    { class: "start" },
    labelled(tell("date"), date),
    session.versions.length > 1 ? versionChoice(session, time, held) : "",
  );
}

function versionChoice(session, time, held) {
  const now = state.held[heldKey(session, time)]?.version ?? "";
  const choices = session.versions.map((version) => {
    const input = make("input", {
      type: "radio",
      name: "version",
      value: version.short,
      checked: version.short === now,
    });
    input.addEventListener("change", () => {
      held().version = version.short;
      keep();
      show();
      page.querySelector("input[name=version]:checked").focus();
    });
    return make(
      "label",
      { class: "choice" },
      input,
      tell(version.short ? "versionShort" : "versionWhole", { version: version.label, minutes: version.minutes }),
    );
  });
  return make("fieldset", {}, make("legend", {}, tell("version")), ...choices);
}

/* The clock and the pace line */

function clockPart(session, time) {
  const key = heldKey(session, time);
  if (state.held[key]?.done) return "";
  if (!state.held[key]?.started) {
    const start = button(
      tell("startClock"),
      () => {
        const held = heldOf(session, time);
        held.started = Date.now();
        held.begun = { [heldBlocks(session, versionNumber(session, held))[0]]: held.started };
        keep();
        show();
        page.querySelector(".clock").focus({ preventScroll: true });
      },
      { class: "strong" },
    );
    return make("section", { class: "start" }, start, make("p", { class: "small" }, tell("startClockHow")));
  }
  const minute = make("b", { class: "minute" });
  const told = make("span", { class: "pace" });
  const list = make("ol", {});
  const late = make(
    "section",
    { class: "late", id: "late", tabindex: "-1", hidden: true },
    make("h2", {}, tell("late")),
    make("p", {}, session.late?.order ?? ""),
    list,
    make("p", { class: "stopping" }),
  );
  const jump = button(
    tell("showLate"),
    () => {
      late.scrollIntoView();
      late.focus();
    },
    { hidden: true },
  );
  let before = -1;
  refresh.push(() => {
    const held = state.held[key];
    const pace = paceOf(session, held, (Date.now() - held.started) / 1000);
    minute.textContent = tell("minute", { minute: Math.floor(pace.elapsed / 60) });
    told.textContent = paceTold(session, pace);
    told.parentElement.classList.toggle("behind", pace.cuts > 0 || pace.tooLate);
    markCuts(session, held, pace.cuts);
    if (before === pace.cuts && !pace.tooLate) return;
    if (pace.cuts > before && before >= 0) say(tell("lateNow"));
    before = pace.cuts;
    late.hidden = jump.hidden = !pace.cuts && !pace.tooLate;
    list.replaceChildren(
      ...(session.late?.steps ?? []).slice(0, pace.cuts).map((step) => make("li", {}, tell("lateStep", step))),
    );
    late.querySelector(".stopping").textContent = pace.tooLate ? session.late.stop : "";
  });
  return make(
    "div",
    { class: "timing" },
    make(
      "div",
      { class: "clock", role: "group", "aria-label": tell("clock"), tabindex: "-1" },
      make("p", {}, minute, " ", told),
      jump,
    ),
    late,
  );
}

/* The numbers of the blocks of which a version keeps anything. */
function heldBlocks(session, version) {
  return session.blocks.map((_, number) => number).filter((number) => isKept(session.blocks[number], version));
}

function isKept(block, version) {
  return block.entries.some((entry) => entry.ways[0].counts[version] > 0);
}

/* Where a session is against its plan. `cuts` is how many steps of the cut list are needed; each goes on top of those before. */
function paceOf(session, held, elapsed) {
  const version = versionNumber(session, held);
  const { starts } = session.versions[version];
  const there = heldBlocks(session, version);
  const at = there.filter((number) => held.begun[number] !== undefined).pop() ?? there[0];
  const next = there[there.indexOf(at) + 1];
  const begun = ((held.begun[at] ?? held.started) - held.started) / 1000;
  const behind = Math.max(begun - starts[at], next === undefined ? 0 : elapsed - starts[next]);
  const pace = { elapsed, at, next, behind, starts, cuts: 0, tooLate: false };
  if (version || !session.late) return pace;
  for (const row of session.late.pace) {
    const moment =
      row.block === next ? elapsed : held.begun[row.block] === undefined ? null : (held.begun[row.block] - held.started) / 1000;
    if (moment === null) continue;
    row.until.forEach((until, step) => {
      if (until !== null && moment > until) pace.cuts = Math.max(pace.cuts, step + 1);
    });
    pace.tooLate ||= moment > row.last;
  }
  return pace;
}

function paceTold(session, { behind, next, starts, cuts, tooLate }) {
  const minutes = Math.floor(behind / 60);
  const told = [minutes > 0 ? tell("behind", { minutes }) : tell("onTime")];
  if (minutes > 0 && !cuts && !tooLate && session.late?.pace.length) told.push(tell("nothingToCut"));
  if (next !== undefined) told.push(tell("thenAt", { block: session.blocks[next].title, minute: Math.floor(starts[next] / 60) }));
  return told.join(" ");
}

/* What the cuts that are needed leave of a movement stands with it. */
function markCuts(session, held, cuts) {
  const kept = cuts ? session.late.steps[cuts - 1].kept : null;
  session.blocks
    .flatMap((block) => block.entries)
    .forEach((entry, number) => {
      const place = document.getElementById(`late-${entry.id}`);
      const told = kept ? lateTold(held, entry, kept[number]) : "";
      if (place && place.textContent !== told) place.textContent = told;
    });
}

function lateTold(held, entry, kept) {
  const way = entry.ways[0];
  const done = (held.entries[entry.id]?.ways[chosenWay(held, entry).name]?.sets ?? []).filter(Boolean).length;
  if (kept >= way.counts[0] || done > kept) return "";
  return kept ? tell("lateSets", { sets: kept, all: way.counts[0] }) : tell("lateOut");
}

function beginBlock(session, time, number) {
  const held = state.held[heldKey(session, time)];
  if (held?.started && held.begun[number] === undefined && !held.done) held.begun[number] = Date.now();
}

/* A block and its movements */

/* One block is open at a time: the one that is done now. */
const opened = new Map();

function openBlock(session, time) {
  const key = heldKey(session, time);
  const begun = Object.keys(state.held[key]?.begun ?? {}).map(Number);
  return opened.get(key) ?? Math.max(0, ...begun);
}

function toBlock(session, time, number) {
  opened.set(heldKey(session, time), number);
  for (const section of page.querySelectorAll(".block[data-block]")) {
    const own = Number(section.dataset.block);
    const inside = section.querySelector(".inside");
    section.querySelector("h2 button").setAttribute("aria-expanded", String(own === number));
    section.querySelector(".holds").hidden = own === number;
    inside.hidden = own !== number;
    if (own === number && !inside.firstChild) inside.append(...insideBlock(session, time, own));
  }
  tick();
}

function blockPart(session, time, number, version) {
  const block = session.blocks[number];
  const kept = block.entries.filter((entry) => entry.ways[0].counts[version]);
  if (!kept.length && !block.logged) return "";
  const isOpen = openBlock(session, time) === number;
  const minute = kept.length ? tell("blockMinute", { minute: Math.floor(session.versions[version].starts[number] / 60) }) : "";
  const inside = make(
    "div",
    { class: "inside", id: `block-${number}`, hidden: !isOpen },
    ...(isOpen ? insideBlock(session, time, number) : []),
  );
  const turn = () => toBlock(session, time, inside.hidden ? number : -1);
  const head = make("button", {
    type: "button",
    click: turn,
    "aria-expanded": String(isOpen),
    "aria-controls": inside.id,
  });
  head.append(make("span", {}, block.title), make("span", { class: "kind" }, [block.kind, minute].filter(Boolean).join(" · ")));
  const holds = make("p", { class: "holds small", hidden: isOpen }, kept.map((entry) => entry.ways[0].title).join(" · "));
  return make("section", { class: "block", "data-block": String(number) }, make("h2", {}, head), holds, inside);
}

/* What a block holds; made when it is opened, as most of a session is not in sight. */
function insideBlock(session, time, number) {
  const block = session.blocks[number];
  const version = versionNumber(session, state.held[heldKey(session, time)]);
  const held = () => heldOf(session, time);
  const inside = [
    beginPart(session, time, number),
    make("p", {}, block.circuits[version] ?? ""),
    note(block.note),
    ...block.entries.map((entry) => entryPart(session, time, held, number, entry, version)),
    block.rest && isKept(block, version) ? restButton(tell("restRound", { time: clockTime(block.rest) }), block.rest, "") : "",
    block.logged ? "" : doneBlock(session, time, held, number),
    nextPart(session, time, number, version),
  ];
  return inside.filter(Boolean);
}

/* On to the next block of the version, or to how the session was. */
function nextPart(session, time, number, version) {
  const next = heldBlocks(session, version).find((other) => other > number) ?? -1;
  const onward = () => {
    if (next >= 0) beginBlock(session, time, next);
    if (isBegun(session, time)) keep();
    toBlock(session, time, next);
    tick();
    const head = next < 0 ? document.getElementById("whole") : page.querySelector(`[data-block="${next}"] h2 button`);
    head.scrollIntoView();
    head.focus({ preventScroll: true });
  };
  return make(
    "p",
    { class: "next" },
    button(tell("next", { block: next < 0 ? tell("whole") : session.blocks[next].title }), onward, { class: "strong" }),
  );
}

function beginPart(session, time, number) {
  const place = make("p", { class: "begin" });
  const told = () => {
    const now = state.held[heldKey(session, time)];
    if (!now?.started || now.done) return place.replaceChildren();
    const begun = now.begun[number];
    if (begun !== undefined) return place.replaceChildren(tell("begunAt", { minute: Math.floor((begun - now.started) / 60000) }));
    if (place.querySelector("button")) return undefined;
    return place.replaceChildren(
      button(
        tell("beginBlock"),
        () => {
          beginBlock(session, time, number);
          keep();
          tick();
          say(place.textContent);
          page.querySelector(`[data-block="${number}"] h2 button`).focus({ preventScroll: true });
        },
        { "aria-label": `${tell("beginBlock")}: ${session.blocks[number].title}` },
      ),
    );
  };
  refresh.push(told);
  return place;
}

function doneBlock(session, time, held, number) {
  const box = make("input", { type: "checkbox", checked: Boolean(state.held[heldKey(session, time)]?.ticks[number]) });
  box.addEventListener("change", () => {
    held().ticks[number] = box.checked;
    beginBlock(session, time, number);
    keep();
  });
  return make("label", { class: "choice" }, box, `${tell("doneBlock")}: ${session.blocks[number].title}`);
}

function entryPart(session, time, held, number, entry, version) {
  const now = state.held[heldKey(session, time)];
  const way = chosenWay(now, entry);
  const done = now?.entries[entry.id]?.ways[way.name];
  const count = way.counts[version];
  const wrote = isDone(done);
  if (!count && !wrote && !session.blocks[number].logged) return "";
  const name = `name-${entry.id}`;
  const parts = [
    make("div", { class: "top" }, copyOf(`mark-${entry.priority}`), make("h3", { id: name }, way.title)),
    make("p", { class: "small" }, way === entry.ways[0] ? entry.instead_of : ""),
    make("p", { class: "late-here", id: `late-${entry.id}` }),
    entry.ways.length > 1 ? wayChoice(session, time, held, entry, way) : "",
    ...askedParts(entry, way, version, count),
    ...timerButtons(entry, way),
  ];
  if (session.blocks[number].logged) parts.push(...fillIn(session, time, held, number, entry, way, count));
  const card = make("article", { class: "entry", "aria-labelledby": name }, ...parts);
  if (count || wrote) return card;
  return make(
    "details",
    { class: "left-out" },
    make("summary", {}, way.title),
    make("p", { class: "small" }, tell("leftOut")),
    card,
  );
}

function wayChoice(session, time, held, entry, chosen) {
  const choices = entry.ways.map((way) => {
    const input = make("input", { type: "radio", name: `way-${entry.id}`, value: way.name, checked: way === chosen });
    input.addEventListener("change", () => {
      entryState(held(), entry).way = way.name;
      keep();
      show();
      page.querySelector(`input[name="way-${CSS.escape(entry.id)}"]:checked`).focus();
    });
    return make("label", { class: "choice" }, input, way.title);
  });
  return make("fieldset", {}, make("legend", {}, tell("which")), ...choices);
}

function askedParts(entry, way, version, count) {
  const own = way === entry.ways[0];
  const takes = way.take.map(([load, how]) => line(load ? `${tell("take")} (${load})` : tell("take"), `${how}.`));
  return [
    own ? make("p", {}, entry.condition) : "",
    own ? make("p", {}, entry.before) : "",
    make("p", { class: "dose" }, count ? way.doses[version] : way.asked),
    line(tell("doIt"), way.form && `${way.form}.`),
    ...takes,
    make("p", {}, way.tempo),
    own ? note(entry.note) : "",
    way.cautions.length ? make("p", { class: "care" }, make("b", {}, `${tell("takeCare")}: `), way.cautions.join(" ")) : "",
    copyOf(`how-${way.name}`),
  ].filter((part) => part && (part.nodeType !== 1 || part.childNodes.length));
}

/* What is written down of a movement */

function fillIn(session, time, held, number, entry, way, count) {
  const done = () => {
    const now = held();
    beginBlock(session, time, number);
    return wayState(now, entry, way);
  };
  const last = make("p", { class: "last" }, lastTold(session, time, entry, way));
  const how = way.fields.map((field) => howField(session, time, entry, way, field, done));
  const figures = way.measured.length
    ? measured(session, time, entry, way, done)
    : [setList(session, time, number, entry, way, count, done)];
  const sides = way.each_side ? make("p", { class: "small" }, tell("sides")) : "";
  return [last, ...how, sides, ...figures];
}

/* What was done of the movement the last time: here on this device, else what the coach's logs tell. */
function lastTold(session, time, entry, way) {
  const here = allHeld()
    .filter((one) => one.session === session && one.time !== time && isDone(one.held.entries[entry.id]?.ways[way.name]))
    .pop();
  if (!here) return way === entry.ways[0] ? entry.last : "";
  const done = here.held.entries[entry.id].ways[way.name];
  const load = way.fields.find((field) => field.column === "load");
  const figures = [...done.sets.filter(Boolean), done.distance, clockCell(done)].filter(Boolean).join(" ");
  const loaded = load && fieldValue(done, load) ? tell("with", { load: `${fieldValue(done, load)} ${loadUnit()}`.trim() }) : "";
  return tell("lastHere", { day: dayTold(here.held.date), figures: figures + loaded });
}

function loadUnit() {
  return plan.headers.find((header) => header.startsWith("load "))?.split(" ")[1] ?? "";
}

function howField(session, time, entry, way, field, done) {
  const value = fieldValue(state.held[heldKey(session, time)]?.entries[entry.id]?.ways[way.name], field);
  const attributes = { "aria-label": tell("fieldOf", { field: field.label, movement: way.title }) };
  const input = field.options.length ? select(field.options, value) : figureInput(value);
  input.setAttribute("aria-label", attributes["aria-label"]);
  input.addEventListener("input", () => {
    done().how[field.column] = input.value;
    keep();
  });
  return labelled(field.label, input, { class: "field beside" });
}

function select(options, value) {
  const open = options.some(([name]) => name === value) ? [] : [["", tell("nothingChosen")]];
  return make(
    "select",
    {},
    ...[...open, ...options].map(([name, text]) => make("option", { value: name, selected: name === value }, text)),
  );
}

function figureInput(value, attributes = {}) {
  return make("input", {
    type: "text",
    inputmode: "decimal",
    autocomplete: "off",
    enterkeyhint: "next",
    value,
    ...attributes,
  });
}

function measured(session, time, entry, way, done) {
  const now = state.held[heldKey(session, time)]?.entries[entry.id]?.ways[way.name];
  const unit = plan.headers.find((header) => header.startsWith("distance "))?.split(" ")[1];
  const field = (name, label) => {
    const input = figureInput(now?.[name] ?? "");
    input.setAttribute("aria-label", tell("fieldOf", { field: label, movement: way.title }));
    input.addEventListener("input", () => {
      done()[name] = input.value;
      keep();
    });
    return labelled(label, input, { class: "field beside" });
  };
  return [
    way.measured.includes("distance") ? field("distance", tell("distance", { unit })) : "",
    way.measured.includes("time") ? field("minutes", tell("timeMinutes")) : "",
    way.measured.includes("time") ? field("seconds", tell("timeSeconds")) : "",
  ];
}

function setList(session, time, number, entry, way, count, done) {
  const now = () => state.held[heldKey(session, time)]?.entries[entry.id]?.ways[way.name];
  const circuit = session.blocks[number].circuits.length > 0;
  const list = make("div", { class: "sets" });
  const rows = () => list.querySelectorAll(".set").length;
  const add = () => list.append(setRow(entry, way, rows(), circuit, now, done));
  const all = Math.max(count || way.counts[0], (now()?.sets.findLastIndex(Boolean) ?? -1) + 1);
  while (rows() < all) add();
  const choices = make("div", { class: "choices" });
  if (way.sets.slice(0, all).every((set) => set.asked)) {
    choices.append(
      button(tell("asAsked"), () => fillAsAsked(list, way), {
        "aria-label": tell("asAskedOf", { movement: way.title }),
      }),
    );
  }
  choices.append(
    button(
      tell("oneMore"),
      () => {
        add();
        list.lastElementChild.querySelector("input").focus();
      },
      { "aria-label": tell("oneMoreOf", { movement: way.title }) },
    ),
  );
  if (entry.rest) choices.append(restButton(tell("rest", { time: clockTime(entry.rest) }), entry.rest, way.title));
  return make("div", {}, list, choices);
}

function fillAsAsked(list, way) {
  list.querySelectorAll("input").forEach((input, number) => {
    if (input.value || !way.sets[number]) return;
    input.value = way.sets[number].asked;
    input.dispatchEvent(new Event("input"));
  });
}

function setRow(entry, way, number, circuit, now, done) {
  const what = tell(circuit ? "roundOf" : "setOf", { number: number + 1, unit: way.label, movement: way.title });
  const target = way.sets[Math.min(number, way.sets.length - 1)] ?? { asked: "", start: "0" };
  const wrong = make("p", { class: "wrong", id: `wrong-${(names += 1)}` });
  const input = figureInput(now()?.sets[number] ?? "", { "aria-label": what });
  const judge = () => {
    const fine = isFigure(input.value, way.unit);
    wrong.textContent = fine ? "" : tell("figure", { example: target.asked || target.start });
    input.setAttribute("aria-invalid", String(!fine));
    if (fine) input.removeAttribute("aria-describedby");
    else input.setAttribute("aria-describedby", wrong.id);
  };
  input.addEventListener("input", () => {
    const { sets } = done();
    while (sets.length < number) sets.push("");
    sets[number] = input.value;
    keep();
    tick();
  });
  input.addEventListener("change", judge);
  if (input.value) judge();
  const step = (by) => () => {
    input.value = stepped(input.value, target, by * way.step);
    input.dispatchEvent(new Event("input"));
    judge();
    say(`${what}: ${input.value}`);
  };
  return make(
    "div",
    { class: "set" },
    make("span", { class: "set-name", "aria-hidden": "true" }, tell(circuit ? "round" : "set", { number: number + 1 })),
    make(
      "span",
      { class: "stepper" },
      button("−", step(-1), { "aria-label": tell("less", { what }) }),
      input,
      button("+", step(1), { "aria-label": tell("more", { what }) }),
    ),
    wrong,
  );
}

/* The first press gives the figure that is asked for; from there it goes up or down. */
function stepped(text, target, by) {
  if (!text.trim()) return target.start;
  const figure = Number(text.replace(",", "."));
  return Number.isNaN(figure) ? text : String(Math.max(0, Math.round((figure + by) * 1000) / 1000));
}

/* How it was */

function wholePart(session, time, held) {
  const now = state.held[heldKey(session, time)];
  const field = (name, label, input) => {
    input.addEventListener("input", () => {
      held()[name] = input.value;
      keep();
    });
    return labelled(label, input, { class: input.tagName === "TEXTAREA" ? "field" : "field beside" });
  };
  const text = make("textarea", { rows: "4", maxlength: "4000" });
  text.value = now?.note ?? "";
  const finish = button(tell("finish"), () => finishSession(session, time, held()), { class: "strong" });
  const empty = button(tell("emptySession"), async () => {
    if (!(await ask(tell("emptySessionAsk")))) return;
    delete state.held[heldKey(session, time)];
    keep();
    showAndFocus();
    say(tell("emptied"));
  });
  return make(
    "section",
    { class: "block" },
    make("h2", { id: "whole", tabindex: "-1" }, tell("whole")),
    field("minutes", tell("minutes"), figureInput(now?.minutes ?? "")),
    field("effort", tell("effort"), figureInput(now?.effort ?? "")),
    field("note", tell("note"), text),
    make("div", { class: "choices" }, finish, now ? empty : ""),
    signalChoice(),
  );
}

function finishSession(session, time, held) {
  if (held.started && !held.done && !held.minutes.trim())
    held.minutes = String(Math.max(1, Math.round((Date.now() - held.started) / 60000)));
  held.done = true;
  state.timer = null;
  keep();
  go("");
  say(tell("finished"));
}

/* Timers. `state.timer` says what is timed and since when, so that it goes on after the page was closed. */

function timerButtons(entry, way) {
  const phases = way.phases.length
    ? button(tell("countTempo"), () => startTempo(way), { "aria-label": tell("countTempoOf", { movement: way.title }) })
    : "";
  const time = clockTime(way.hold);
  const hold = way.hold
    ? button(tell("hold", { time }), () => startTimer("hold", way.title, way.hold, 3), {
        "aria-label": tell("holdOf", { time, movement: way.title }),
      })
    : "";
  return phases || hold ? [make("div", { class: "choices" }, phases, hold)] : [];
}

function restButton(text, seconds, movement) {
  const name = movement ? { "aria-label": tell("restOf", { time: clockTime(seconds), movement }) } : {};
  return button(text, () => startTimer("rest", movement, seconds, 0), { class: "timer", ...name });
}

function startTimer(kind, name, seconds, lead) {
  const started = Date.now() + lead * 1000;
  setTimer({ kind, name, started, ends: started + seconds * 1000, over: false });
}

function startTempo(way) {
  setTimer({
    kind: "tempo",
    name: way.title,
    started: Date.now() + 3000,
    phases: way.phases,
    repetitions: way.repetitions,
    over: false,
  });
}

function setTimer(timer) {
  state.timer = timer;
  openSound();
  keep();
  showTimer();
  tick();
}

const FORGOTTEN = 3; // minutes after its end at which a timer goes by itself

function clearTimer() {
  state.timer = null;
  keep();
  showTimer();
}

function endTimer() {
  clearTimer();
  (page.querySelector(".timer") ?? page.querySelector("h1")).focus({ preventScroll: true });
}

const bar = document.getElementById("bar");

function showTimer() {
  bar.replaceChildren();
  bar.hidden = !state.timer;
  if (!state.timer) return;
  const name = { rest: tell("restTitle"), hold: state.timer.name, tempo: state.timer.name }[state.timer.kind];
  const more = button(
    tell("moreTimeShort"),
    () => {
      state.timer.ends = Math.max(state.timer.ends, Date.now()) + 15000;
      state.timer.over = false;
      keep();
      tick();
    },
    { "aria-label": tell("moreTime") },
  );
  bar.append(
    make(
      "div",
      { class: "timing-now", role: "timer", "aria-label": name },
      make("span", { class: "what" }, name),
      make("b", { class: "time" }),
      make("span", { class: "count" }),
    ),
    make(
      "div",
      { class: "choices" },
      state.timer.kind === "rest" ? more : "",
      button(tell("stop"), endTimer, { class: "strong" }),
    ),
  );
}

function timerNow(timer, now) {
  const passed = (now - timer.started) / 1000;
  if (passed < 0) return { time: String(Math.ceil(-passed)), count: tell("tempoReady"), over: false };
  return timer.kind === "tempo" ? tempoNow(timer, passed) : countdown(timer, now);
}

function countdown(timer, now) {
  const left = (timer.ends - now) / 1000;
  if (left > 0) return { time: clockTime(Math.ceil(left)), count: "", over: false };
  const since = left < -2 ? tell("overSince", { time: clockTime(-left) }) : "";
  return { time: tell(timer.kind === "rest" ? "restOver" : "holdOver"), count: since, over: true };
}

function tempoNow(timer, passed) {
  const length = timer.phases.reduce((sum, [, time]) => sum + time, 0);
  const number = Math.floor(passed / length) + 1;
  if (timer.repetitions ? number > timer.repetitions : number > 60) return { time: tell("tempoOver"), count: "", over: true };
  let rest = passed % length;
  for (const [told, time] of timer.phases) {
    if (rest < time) {
      const count = tell(timer.repetitions ? "tempoCountOf" : "tempoCount", { number, all: timer.repetitions });
      return { time: `${told} ${Math.floor(rest) + 1}`, count, over: false, beat: `${number} ${told}` };
    }
    rest -= time;
  }
  return { time: "", count: "", over: false };
}

let beat = "";
function tickTimer() {
  const { timer } = state;
  if (!timer || !bar.firstChild) return;
  const now = timerNow(timer, Date.now());
  const [time, count] = [bar.querySelector(".time"), bar.querySelector(".count")];
  if (time.textContent !== now.time) time.textContent = now.time;
  if (count.textContent !== now.count) count.textContent = now.count;
  if (now.over && (Date.now() - (timer.ends ?? Date.now())) / 60000 > FORGOTTEN && !bar.contains(document.activeElement))
    return clearTimer();
  if (now.beat && now.beat !== beat) signal(0.05, 40);
  beat = now.beat ?? "";
  if (!now.over || timer.over) return;
  timer.over = true;
  keep();
  bar.querySelector(".choices .strong").textContent = tell("close");
  say(now.time);
  if ((Date.now() - (timer.ends ?? Date.now())) / 1000 < 5) signal(0.4, [200, 100, 200]);
}

/* Signals: only where somebody switched them on */

function signalChoice() {
  const choice = (name) => {
    const box = make("input", { type: "checkbox", checked: state.signals[name] });
    box.addEventListener("change", () => {
      state.signals[name] = box.checked;
      openSound();
      keep();
    });
    return make("label", { class: "choice" }, box, tell(name));
  };
  const vibrates = typeof navigator.vibrate === "function";
  return make(
    "fieldset",
    {},
    make("legend", {}, tell("signals")),
    vibrates ? choice("vibrate") : "",
    choice("sound"),
    make("p", { class: "small" }, tell("signalsHow")),
  );
}

let sounds = null;
function openSound() {
  if (!state.signals.sound) return;
  sounds ??= new AudioContext();
  sounds.resume();
}

function signal(seconds, pattern) {
  if (state.signals.vibrate) navigator.vibrate?.(pattern);
  if (!state.signals.sound || !sounds) return;
  const tone = sounds.createOscillator();
  tone.frequency.value = 660;
  tone.connect(sounds.destination);
  tone.start();
  tone.stop(sounds.currentTime + seconds);
}

/* The page is alive */

function tick() {
  for (const each of refresh) each();
  tickTimer();
  keepClear();
}

/* What has the focus is never under the clock or the timer (WCAG 2.2, 2.4.11), and in a small window these leave room. */
function keepClear() {
  const { style, classList } = document.documentElement;
  const clock = page.querySelector(".clock")?.offsetHeight ?? 0;
  const crowded = clock + bar.offsetHeight > innerHeight / 2;
  classList.toggle("crowded", crowded);
  classList.toggle("narrow", bar.offsetHeight > innerHeight / 2);
  style.scrollPaddingTop = `${(crowded ? 0 : clock) + 12}px`;
  style.scrollPaddingBottom = `${bar.offsetHeight + 12}px`;
}

window.addEventListener("hashchange", showAndFocus);
window.addEventListener("storage", (event) => {
  if (event.key !== plan.key) return;
  state = fromStorage() ?? freshState();
  begin();
});
document.addEventListener("visibilitychange", tick);
function begin() {
  showTimer();
  show();
}

begin();
setInterval(tick, 250);
restore();
