// Flowers of the painter's own: colour pickers, and buttons that change one without leaving the page.
// Nothing here decides anything; every row comes from the program and is checked by it.
"use strict";

const SOUND_HEX = /^#?[0-9a-f]{6}$/i;

// Flowers that hold a colour at all, for the line that tells what is chosen.
function ownFlowerCount() {
  const filled = (flower) => [...flower.querySelectorAll("input[name^=swatch-hex-]")].some((i) => i.value.trim());
  return [...document.querySelectorAll(".own-flower")].filter(filled).length;
}

function paintSwatch(row) {
  const typed = row.querySelector("input[name^=swatch-hex-]").value.trim();
  const sound = SOUND_HEX.test(typed);
  const hex = `#${typed.replace("#", "").toLowerCase()}`;
  row.querySelector("rect").setAttribute("fill", sound ? hex : "none");
  row.querySelector(".picker").classList.toggle("unset", !sound);
  if (sound) row.querySelector(".picker").value = hex;
}

function setUpSwatches() {
  for (const row of document.querySelectorAll(".swatch")) {
    row.querySelector(".picker").hidden = false;
    paintSwatch(row);
  }
  const into = byId("pick-into");
  const chosen = into.value;
  while (into.options.length > 1) into.remove(1);
  for (const flower of document.querySelectorAll(".own-flower")) {
    into.add(new Option(flower.querySelector("legend").textContent, flower.dataset.number));
  }
  into.value = [...into.options].some((option) => option.value === chosen) ? chosen : "";
}

// A colour pointed at goes to the first row without one of the flower that is chosen for it; where
// there is none, or no flower is chosen, nothing is returned.
function pickedIntoFlower(hex) {
  const number = byId("pick-into").value;
  const flower = number && byId(`own-flower-${number}`);
  if (!flower) return null;
  const rows = [...flower.querySelectorAll(".swatch")];
  const row = rows.find((one) => !one.querySelector("input[name^=swatch-hex-]").value.trim());
  if (!row) return addedSwatch(flower, rows, hex);
  row.querySelector("input[name^=swatch-hex-]").value = hex;
  paintSwatch(row);
  return row;
}

function addedSwatch(flower, rows, hex) {
  const last = rows.at(-1);
  if (!last) return null;
  const row = last.cloneNode(true);
  const [before, place] = [String(rows.length - 1), String(rows.length)];
  for (const part of row.querySelectorAll("[id]")) part.id = part.id.replace(new RegExp(`-${before}$`), `-${place}`);
  for (const part of row.querySelectorAll("[for]")) {
    part.htmlFor = part.htmlFor.replace(new RegExp(`-${before}$`), `-${place}`);
  }
  row.setAttribute("aria-label", `Colour ${rows.length + 1}`);
  row.querySelector(".picker").setAttribute("aria-label", `Pick colour ${rows.length + 1}`);
  row.querySelector(".hush").textContent = `Take colour ${rows.length + 1}`;
  const taken = row.querySelector("input[name^=swatch-taken-]");
  taken.value = place;
  taken.checked = true;
  row.querySelector("input[name^=swatch-name-]").value = `picked ${rows.length + 1}`;
  row.querySelector("input[name^=swatch-hex-]").value = hex;
  row.querySelector("input[name^=swatch-importance-]").value = "";
  last.after(row);
  paintSwatch(row);
  return row;
}

// Buttons send the whole form as they would without a script; only the part with flowers is changed.
async function changeFlowers(form, button, tell) {
  const fromPhotograph = button.id === "make-flower";
  const said = byId("photograph-said");
  if (fromPhotograph && !byId("photograph").files.length) {
    said.textContent = "Choose a photograph first.";
    byId("photograph").focus();
    return;
  }
  if (fromPhotograph) said.textContent = "Looking for the colours of the flower …";
  button.disabled = true;
  try {
    const sent = new FormData(form);
    if (!fromPhotograph) sent.delete("photograph");
    const response = await fetch(button.formAction, { method: "POST", body: sent });
    const page = new DOMParser().parseFromString(await response.text(), "text/html");
    const part = page.getElementById("own-flowers");
    const fault = page.querySelector("#colours ~ .fault, #own-flowers .fault");
    if (!response.ok || !part) {
      said.textContent = fault ? fault.textContent : "That did not come through; try again.";
      return;
    }
    byId("own-flowers").replaceChildren(...document.adoptNode(part).childNodes);
    setUpSwatches();
    tell();
    const at = new URL(response.url).hash.slice(1);
    const flower = (at && byId(at)) || [...document.querySelectorAll(".own-flower")].at(-1) || byId("own-flowers");
    const words = flower.querySelector("[role=status]")?.textContent;
    if (fromPhotograph) {
      said.textContent = words ?? "";
      byId("pick-into").value = flower.dataset?.number ?? "";
    }
    flower.focus();
    flower.scrollIntoView({ block: "nearest" });
  } catch {
    said.textContent = "fewtubes does not answer; is it still running in the terminal?";
  } finally {
    button.disabled = false;
  }
}

function setUpFlowers(form, tell) {
  const part = byId("own-flowers");
  setUpSwatches();
  form.addEventListener("click", (event) => {
    const button = event.target.closest("button[formaction*='/flower/']");
    if (!button || button.id === "flower-table") return;
    event.preventDefault();
    changeFlowers(form, button, tell);
  });
  part.addEventListener("input", (event) => {
    const row = event.target.closest(".swatch");
    if (!row) return;
    if (event.target.matches(".picker")) row.querySelector("input[name^=swatch-hex-]").value = event.target.value;
    paintSwatch(row);
    tell();
  });
  part.addEventListener("change", (event) => {
    if (event.target.name?.startsWith("own-flower-name-")) {
      const flower = event.target.closest(".own-flower");
      flower.querySelector("legend").textContent = event.target.value.trim() || `Flower ${Number(flower.dataset.number) + 1} of your own`;
      setUpSwatches();
    }
  });
}
