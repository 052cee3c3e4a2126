// What the page does beyond plain forms: finding, counting, picking colours, following the work.
// Nothing here decides anything; whatever is sent is checked by the program.
"use strict";

const byId = (id) => document.getElementById(id);

// Searching by words, by the same rule as fewtubes/comparison/searching.py: tests hold both to the
// same cases. `search` needs no page and returns places in the list of texts.
const PLURALS = [["s", ""], ["es", ""], ["ies", "y"], ["ves", "f"], ["ves", "fe"], ["i", "us"]];
const [WITHIN, TOGETHER, SHORTEST_SLIP, TWO_SLIPS, SHORTEST_STEM, MOST_NEAREST] = [4, 5, 4, 8, 3, 3];

function plainWords(text) {
  const bare = text.toLowerCase().replaceAll("ß", "ss").normalize("NFKD").replace(/\p{M}/gu, "");
  return bare.match(/[\p{L}\p{N}][\p{L}\p{N}:]*/gu) ?? [];
}

function singulars(word) {
  return PLURALS.filter(
    ([plural, one]) => word.endsWith(plural) && word.length - plural.length + one.length >= SHORTEST_STEM,
  ).map(([plural, one]) => word.slice(0, word.length - plural.length) + one);
}

// By how many letters two words differ: one too many, missing, wrong, or two neighbours swapped.
function slipsApart(one, other) {
  let before = [];
  let last = Array.from({ length: other.length + 1 }, (_, place) => place);
  for (let row = 1; row <= one.length; row += 1) {
    const now = [row];
    for (let column = 1; column <= other.length; column += 1) {
      const wrong = one[row - 1] === other[column - 1] ? 0 : 1;
      let least = Math.min(last[column] + 1, now[column - 1] + 1, last[column - 1] + wrong);
      const swapped = row > 1 && column > 1 && one[row - 2] === other[column - 1] && one[row - 1] === other[column - 2];
      if (swapped) least = Math.min(least, before[column - 2] + 1);
      now.push(least);
    }
    [before, last] = [last, now];
  }
  return last[other.length];
}

function inOtherForm(word, forms, text) {
  return (
    text.words.some((held) => forms.some((form) => held.startsWith(form))) ||
    text.words.some((held) => singulars(held).includes(word)) ||
    [word, ...forms].some((form) => form.length >= TOGETHER && text.together.includes(form))
  );
}

function slipsOf(forms, texts) {
  const apart = new Map();
  const known = new Set(texts.flatMap((text) => text.words).filter((held) => held.length >= SHORTEST_SLIP));
  for (const held of known) {
    for (const form of forms.filter((it) => it.length >= SHORTEST_SLIP)) {
      const most = form.length >= TWO_SLIPS ? 2 : 1;
      if ((most === 1 && form[0] !== held[0]) || Math.abs(form.length - held.length) > most) continue;
      const slips = slipsApart(form, held);
      if (slips <= most) apart.set(held, Math.min(slips, apart.get(held) ?? slips));
    }
  }
  const fewest = Math.min(...apart.values());
  return [...apart.keys()].filter((held) => apart.get(held) === fewest).sort();
}

// Where a word is found: 0 where it begins a word, 1 where it is only held; and its slips, if any.
function ranksOf(word, texts) {
  const ranks = new Map();
  texts.forEach((text, place) => {
    if (text.words.some((held) => held.startsWith(word))) ranks.set(place, 0);
    else if (word.length >= WITHIN && text.words.some((held) => held.includes(word))) ranks.set(place, 1);
  });
  if (ranks.size) return { ranks, slips: [] };
  const forms = singulars(word);
  texts.forEach((text, place) => {
    if (inOtherForm(word, forms, text)) ranks.set(place, 0);
  });
  if (ranks.size) return { ranks, slips: [] };
  const slips = slipsOf([word, ...forms], texts);
  texts.forEach((text, place) => {
    if (text.words.some((held) => slips.includes(held))) ranks.set(place, 0);
  });
  return { ranks, slips };
}

function nearestOf(words, texts, found) {
  const longest = Math.max(0, ...words.map((word) => word.length));
  const scored = texts.map((text, place) => {
    const shared = found.reduce((sum, { ranks }) => sum + (ranks.has(place) ? 1 / ranks.size : 0), 0);
    const slips = words
      .filter((word) => word.length >= SHORTEST_SLIP)
      .flatMap((word) =>
        text.words
          .filter((held) => 2 * Math.abs(word.length - held.length) <= word.length)
          .map((held) => slipsApart(word, held)),
      );
    return { place, shared, least: slips.length ? Math.min(...slips) : longest };
  });
  return scored
    .filter(({ shared, least }) => shared || 2 * least <= longest - 1)
    .sort((a, b) => b.shared - a.shared || a.least - b.least || a.place - b.place)
    .slice(0, MOST_NEAREST)
    .map(({ place }) => place);
}

function search(asked, lines) {
  if (!asked.trim()) return { hits: lines.map((_, place) => place), nearest: [], readAs: [] };
  const words = plainWords(asked);
  const texts = lines.map((line) => {
    const held = plainWords(line);
    return { words: held, together: held.join("") };
  });
  const found = words.map((word) => ranksOf(word, texts));
  const sum = (place) => found.reduce((total, { ranks }) => total + ranks.get(place), 0);
  const hits = lines
    .map((_, place) => place)
    .filter((place) => found.length && found.every(({ ranks }) => ranks.has(place)))
    .sort((a, b) => sum(a) - sum(b) || a - b);
  if (!hits.length) return { hits, nearest: nearestOf(words, texts, found), readAs: [] };
  const readAs = words.map((word, turn) => [word, found[turn].slips]).filter(([, slips]) => slips.length);
  return { hits, nearest: [], readAs };
}

function setUpFinder(finder) {
  const input = finder.querySelector("input");
  const items = [...byId(input.dataset.finds).children];
  const said = finder.querySelector("[role=status]");
  const called = (item) => (item.querySelector("label")?.textContent ?? "").trim();
  finder.hidden = false;
  input.addEventListener("input", () => {
    const { hits, nearest, readAs } = search(input.value, items.map((item) => item.dataset.words));
    const shown = new Set(hits);
    items.forEach((item, place) => {
      item.hidden = !shown.has(place);
    });
    const parts = [`${hits.length} of ${items.length} shown`];
    for (const [word, slips] of readAs) parts.push(`read ${word} as ${slips.join(" or ")}`);
    if (nearest.length) parts.push(`nearest: ${nearest.map((place) => called(items[place])).join("; ")}`);
    said.textContent = input.value.trim() ? parts.join("; ") : "";
  });
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter") event.preventDefault();
  });
}

function setUpCount(form) {
  const tell = () => {
    const flowers = form.querySelectorAll("input[name=flower]:checked").length + ownFlowerCount();
    const colours = [...form.querySelectorAll("input[name=colour-hex]")].filter((i) => i.value.trim()).length;
    const parts = [];
    if (flowers) parts.push(flowers === 1 ? "1 flower" : `${flowers} flowers`);
    if (colours) parts.push(colours === 1 ? "1 colour of your own" : `${colours} colours of your own`);
    const words = parts.length ? `Chosen: ${parts.join(" and ")}` : "Nothing is chosen yet";
    if (byId("chosen").textContent !== words) byId("chosen").textContent = words;
    const levy = byId("class_painters").value.trim() ? byId("class_levy").value.trim() : "";
    const typed = byId("budget").value.trim() || levy;
    const money = /^[\d.,\s]+$/.test(typed) ? `${byId("currency").value} ${typed}` : typed;
    byId("chosen-budget").textContent = levy ? "for what all of the class pay" : `for at most ${money}`;
    byId("chosen-budget").hidden = !parts.length || !typed;
  };
  form.addEventListener("change", tell);
  form.addEventListener("input", tell);
  tell();
  return tell;
}

function paintChip(row) {
  const hex = row.querySelector("input[name=colour-hex]").value.trim();
  const sound = /^#?[0-9a-f]{6}$/i.test(hex);
  row.querySelector("rect").setAttribute("fill", sound ? `#${hex.replace("#", "")}` : "none");
}

let rowNumber = 0;

function addRow(name, hex) {
  const rows = byId("own-rows");
  const blank = [...rows.children].find((row) => [...row.querySelectorAll("input")].slice(0, 2).every((i) => !i.value.trim()));
  let row = blank;
  if (!row) {
    row = byId("row-pattern").content.firstElementChild.cloneNode(true);
    rowNumber += 1;
    for (const part of row.querySelectorAll("[id]")) part.id = part.id.replace("pattern", `added-${rowNumber}`);
    for (const part of row.querySelectorAll("[for]")) part.htmlFor = part.htmlFor.replace("pattern", `added-${rowNumber}`);
    rows.append(row);
  }
  row.querySelector("input[name=colour-name]").value = name;
  row.querySelector("input[name=colour-hex]").value = hex;
  paintChip(row);
  return row;
}

function freeName(stem) {
  const taken = new Set([...document.querySelectorAll("input[name=colour-name]")].map((i) => i.value));
  let number = 1;
  const name = () => (number === 1 ? stem : `${stem} ${number}`);
  while (taken.has(name())) number += 1;
  return name();
}

// A chosen photograph on a canvas, with a cross that the pointer and the arrow keys move.
// `part` is shown with the photograph, `most` tells how wide and high it may be drawn.
function showPhotograph({ canvas, part, most, draw, take }) {
  const file = byId("photograph");
  const said = byId("photograph-said");
  const shown = { image: null, cross: { x: 0, y: 0 } };
  const move = (x, y) => {
    shown.cross.x = Math.min(canvas.width - 1, Math.max(0, x));
    shown.cross.y = Math.min(canvas.height - 1, Math.max(0, y));
    draw();
  };

  const show = async () => {
    const chosen = file.files[0];
    part.hidden = true;
    shown.image = null;
    said.textContent = "";
    if (!chosen) return;
    if (chosen.size > Number(file.dataset.mostBytes)) {
      said.textContent = "This photograph has more than 10 MB; save it smaller and choose it again.";
      file.value = "";
      return;
    }
    try {
      shown.image = await createImageBitmap(chosen);
    } catch {
      said.textContent = "This is not a picture the browser can show; choose a JPEG, PNG or WebP file.";
      return;
    }
    part.hidden = false;
    const [width, height] = most();
    const scale = Math.min(1, width / shown.image.width, height / shown.image.height);
    canvas.width = Math.max(1, Math.round(shown.image.width * scale));
    canvas.height = Math.max(1, Math.round(shown.image.height * scale));
    move(canvas.width / 2, canvas.height / 2);
  };
  file.addEventListener("change", show);
  if (file.files.length) show(); // chosen before this script was there, or kept by the browser

  canvas.addEventListener("click", (event) => {
    const box = canvas.getBoundingClientRect();
    move(
      ((event.clientX - box.left) * canvas.width) / box.width,
      ((event.clientY - box.top) * canvas.height) / box.height,
    );
    take();
  });
  canvas.addEventListener("keydown", (event) => {
    const moves = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    const by = moves[event.key];
    if (by && shown.image) {
      const step = event.shiftKey ? 24 : 4;
      move(shown.cross.x + step * by[0], shown.cross.y + step * by[1]);
    } else if (event.key === "Enter" && shown.image) {
      take();
    } else {
      return;
    }
    event.preventDefault();
  });
  return shown;
}

// The photograph: shown and read by the browser itself; picking sends nothing.
function setUpPicking(form, tell) {
  const file = byId("photograph");
  const canvas = byId("picture");
  const context = canvas.getContext("2d", { willReadFrequently: true });

  const colourAt = () => {
    // the mean of 5 by 5 pixels, so that one speck does not decide
    const data = context.getImageData(Math.round(cross.x) - 2, Math.round(cross.y) - 2, 5, 5).data;
    const sum = [0, 0, 0];
    let count = 0;
    for (let at = 0; at < data.length; at += 4) {
      if (data[at + 3] === 0) continue;
      for (let channel = 0; channel < 3; channel += 1) sum[channel] += data[at + channel];
      count += 1;
    }
    return `#${sum.map((value) => Math.round(value / Math.max(count, 1)).toString(16).padStart(2, "0")).join("")}`;
  };

  const draw = () => {
    context.clearRect(0, 0, canvas.width, canvas.height);
    context.drawImage(shown.image, 0, 0, canvas.width, canvas.height);
    const hex = colourAt();
    byId("under-chip").setAttribute("fill", hex);
    byId("under-cross").textContent = `Under the cross: ${hex}`;
    for (const [width, colour] of [[4, "#ffffff"], [1.6, "#000000"]]) {
      context.lineWidth = width;
      context.strokeStyle = colour;
      context.beginPath();
      context.arc(cross.x, cross.y, 8, 0, 2 * Math.PI);
      for (const [dx, dy] of [[1, 0], [-1, 0], [0, 1], [0, -1]]) {
        context.moveTo(cross.x + 8 * dx, cross.y + 8 * dy);
        context.lineTo(cross.x + 16 * dx, cross.y + 16 * dy);
      }
      context.stroke();
    }
    return hex;
  };

  const take = () => {
    const hex = draw();
    const row = pickedIntoFlower(hex) ?? addRow(freeName("picked"), hex);
    tell();
    byId("under-cross").textContent = `Taken: ${hex}, as ${row.querySelector("input[name*=-name]").value}`;
  };

  const shown = showPhotograph({
    canvas,
    part: byId("picking"),
    most: () => [Math.min(720, byId("photograph-part").clientWidth - 40), 480],
    draw,
    take,
  });
  const { cross } = shown;

  byId("find-colours").addEventListener("click", async (event) => {
    event.preventDefault();
    const button = event.currentTarget;
    const said = byId("photograph-said");
    if (!file.files.length) {
      said.textContent = "Choose a photograph first.";
      file.focus();
      return;
    }
    said.textContent = "Looking for the main colours …";
    button.disabled = true;
    try {
      const response = await fetch(button.formAction, { method: "POST", body: new FormData(form) });
      const page = new DOMParser().parseFromString(await response.text(), "text/html");
      const found = page.getElementById("found");
      const fault = page.querySelector("#colours ~ .fault");
      if (response.ok && found) {
        byId("found").replaceChildren(...document.adoptNode(found).childNodes);
        said.textContent = `${byId("found").querySelectorAll("li").length} main colours found.`;
        byId("found").focus();
      } else {
        said.textContent = fault ? fault.textContent : "The photograph could not be searched; choose another file.";
      }
    } catch {
      said.textContent = "fewtubes does not answer; is it still running in the terminal?";
    } finally {
      button.disabled = false;
    }
  });

  byId("found").addEventListener("click", (event) => {
    if (!event.target.closest("button")) return;
    event.preventDefault();
    const given = new Set([...document.querySelectorAll("input[name=colour-hex]")].map((i) => i.value.trim().toLowerCase()));
    let count = 0;
    for (const tick of byId("found").querySelectorAll("input:checked")) {
      if (given.has(tick.value)) continue;
      addRow(freeName(tick.dataset.name), tick.value);
      count += 1;
    }
    tell();
    byId("added-said").textContent = `${count === 1 ? "1 colour" : `${count} colours`} added to your own.`;
  });
}

function setUpQuestion(form) {
  for (const finder of document.querySelectorAll(".finder")) setUpFinder(finder);
  const tell = setUpCount(form);
  setUpPicking(form, tell);
  setUpFlowers(form, tell);
  byId("another-row").addEventListener("click", (event) => {
    event.preventDefault();
    const row = addRow("", "");
    row.querySelector("input").focus();
  });
  byId("own-rows").addEventListener("input", (event) => paintChip(event.target.closest("li")));
  const faults = byId("faults");
  if (faults) faults.focus();
}

// Whoever types or picks a colour means that one.
function setUpMix(named, picked) {
  byId("mix-colour").addEventListener("input", () => { named.checked = true; });
  byId("mix-picked").addEventListener("input", () => { picked.checked = true; });
}

function follow(work) {
  const look = async () => {
    let told;
    try {
      told = await (await fetch(work.dataset.progress)).json();
    } catch {
      byId("stage").textContent = "fewtubes does not answer; is it still running in the terminal?";
      return;
    }
    if (told.state === "done") {
      location.replace(work.dataset.answer);
    } else if (told.state === "running") {
      const words = `${told.stages.at(-1)} …`;
      if (byId("stage").textContent !== words) byId("stage").textContent = words;
      byId("seconds").textContent = told.seconds;
      setTimeout(look, 400);
    } else {
      location.replace(work.dataset.told);
    }
  };
  look();
}

// Coverage against cost comes some time after the answer it belongs to.
function awaitCosts(place) {
  const look = async () => {
    let response;
    try {
      response = await fetch(place.dataset.costs);
    } catch {
      place.textContent = "fewtubes does not answer; is it still running in the terminal?";
      return;
    }
    if (response.status === 202) {
      setTimeout(look, 1000);
      return;
    }
    if (!response.ok) {
      place.textContent = "This answer is not held any more; ask again.";
      return;
    }
    const part = new DOMParser().parseFromString(await response.text(), "text/html");
    place.replaceChildren(...document.adoptNode(part.body).childNodes);
    byId("report-later")?.remove();
  };
  if (place.querySelector(".stage")) look();
}

// What is folded away is unfolded for whoever is led there, and for the printer.
function unfoldTarget() {
  const target = byId(decodeURIComponent(location.hash.slice(1)));
  if (!target) return;
  let opened = false;
  const unfold = (part) => {
    opened = opened || !part.open;
    part.open = true;
  };
  for (let at = target.closest("details"); at; at = at.parentElement.closest("details")) unfold(at);
  const own = target.closest(".folded")?.querySelector("details");
  if (own) unfold(own);
  if (opened) target.scrollIntoView();
}

function unfoldForPrint() {
  let folded = [];
  addEventListener("beforeprint", () => {
    folded = [...document.querySelectorAll("main details:not([open])")];
    for (const part of folded) part.open = true;
  });
  addEventListener("afterprint", () => {
    for (const part of folded) part.open = false;
  });
}

addEventListener("hashchange", unfoldTarget);
unfoldTarget();
if (!byId("question")) unfoldForPrint();
if (byId("costs")) awaitCosts(byId("costs"));
if (byId("mix-named")) setUpMix(byId("mix-named"), byId("mix-picked-by"));
if (byId("question")) setUpQuestion(byId("question"));
if (byId("work")) follow(byId("work"));
