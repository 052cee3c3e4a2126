// Pointing at swatches on a photograph. The browser shows it; the program checks whatever is sent.
"use strict";

const KINDS = Object.fromEntries([...byId("pointed-kind").options].map((option) => [option.value, option.text]));
const BESIDE = ["white", "black"];

function fieldOf(item, name) {
  return item.querySelector(`input[name=point-${name}]`);
}

function tellPoint(item) {
  const kind = fieldOf(item, "kind").value;
  const tube = fieldOf(item, "tube").value;
  item.querySelector(".pointed").textContent = BESIDE.includes(kind) ? KINDS[kind] : `${tube}: ${KINDS[kind] || kind}`;
}

function setUpPointing() {
  const canvas = byId("card-picture");
  const context = canvas.getContext("2d");
  const points = byId("points");
  const said = byId("pointed-said");

  const ring = (x, y, radius) => {
    for (const [width, colour] of [[4, "#ffffff"], [1.6, "#000000"]]) {
      context.lineWidth = width;
      context.strokeStyle = colour;
      context.beginPath();
      context.arc(x, y, radius, 0, 2 * Math.PI);
      context.stroke();
    }
  };

  const draw = () => {
    if (!shown.image) return;
    context.drawImage(shown.image, 0, 0, canvas.width, canvas.height);
    for (const item of points.children) {
      ring(fieldOf(item, "x").value * canvas.width, fieldOf(item, "y").value * canvas.height, 5);
    }
    ring(cross.x, cross.y, 11);
  };

  const take = () => {
    const kind = byId("pointed-kind").value;
    const beside = BESIDE.includes(kind);
    const tube = byId("pointed-tube").value.trim();
    if (!beside && !tube) {
      said.textContent = "Name the tube first.";
      byId("pointed-tube").focus();
      return;
    }
    const item = byId("point-pattern").content.firstElementChild.cloneNode(true);
    const values = {
      tube: beside ? "" : tube,
      pigments: beside ? "" : byId("pointed-pigments").value.trim(),
      kind,
      x: (cross.x / canvas.width).toFixed(5),
      y: (cross.y / canvas.height).toFixed(5),
    };
    for (const [name, value] of Object.entries(values)) fieldOf(item, name).value = value;
    tellPoint(item);
    points.append(item);
    said.textContent = `Taken: ${item.querySelector(".pointed").textContent}. ${points.children.length} in all.`;
    draw();
  };

  const shown = showPhotograph({
    canvas,
    part: byId("pointing"),
    most: () => [byId("card-form").clientWidth, Infinity],
    draw,
    take,
  });
  const { cross } = shown;
  points.addEventListener("click", (event) => {
    if (!event.target.closest("button")) return;
    const item = event.target.closest("li");
    const next = item.nextElementSibling || item.previousElementSibling;
    item.remove();
    (next ? next.querySelector("button") : canvas).focus();
    draw();
  });
  for (const item of points.children) tellPoint(item);
  if (points.children.length) {
    byId("pointing").hidden = false;
    byId("pointing").open = true;
  }
}

setUpPointing();
for (const id of ["faults", "added"]) if (byId(id)) byId(id).focus();
