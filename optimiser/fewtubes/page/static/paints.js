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
  const file = byId("photograph");
  const canvas = byId("card-picture");
  const context = canvas.getContext("2d");
  const points = byId("points");
  const said = byId("pointed-said");
  let image = null;
  let cross = { x: 0, y: 0 };

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
    if (!image) return;
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
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

  file.addEventListener("change", async () => {
    const chosen = file.files[0];
    byId("pointing").hidden = true;
    image = null;
    if (!chosen) return;
    if (chosen.size > Number(file.dataset.mostBytes)) {
      byId("photograph-said").textContent = "This photograph has more than 10 MB; save it smaller and choose it again.";
      file.value = "";
      return;
    }
    try {
      image = await createImageBitmap(chosen);
    } catch {
      byId("photograph-said").textContent = "This is not a picture the browser can show; choose a JPEG, PNG or WebP file.";
      return;
    }
    byId("photograph-said").textContent = "";
    byId("pointing").hidden = false;
    const scale = Math.min(1, byId("card-form").clientWidth / image.width);
    canvas.width = Math.max(1, Math.round(image.width * scale));
    canvas.height = Math.max(1, Math.round(image.height * scale));
    cross = { x: canvas.width / 2, y: canvas.height / 2 };
    draw();
  });

  canvas.addEventListener("click", (event) => {
    const box = canvas.getBoundingClientRect();
    cross = {
      x: ((event.clientX - box.left) * canvas.width) / box.width,
      y: ((event.clientY - box.top) * canvas.height) / box.height,
    };
    take();
    draw();
  });
  canvas.addEventListener("keydown", (event) => {
    const moves = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    const move = moves[event.key];
    if (move) {
      const step = event.shiftKey ? 24 : 4;
      cross.x = Math.min(canvas.width - 1, Math.max(0, cross.x + step * move[0]));
      cross.y = Math.min(canvas.height - 1, Math.max(0, cross.y + step * move[1]));
      draw();
    } else if (event.key === "Enter") {
      take();
    } else {
      return;
    }
    event.preventDefault();
  });
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
