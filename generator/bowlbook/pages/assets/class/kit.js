// The kit for another number of learners. Every text was worked out at build; here they are only put in place.

const kit = document.querySelector(".bb-kit");
const rows = JSON.parse(document.getElementById("bb-kit-data").textContent);
const field = kit.querySelector("input");

function show() {
  const row = rows[Math.round(Number(field.value)) - 1];
  field.setAttribute("aria-invalid", String(!row));
  if (!row) return;
  const [heads, lines, cost, each] = row;
  kit.querySelector(".bb-kit-heads").textContent = heads;
  lines.forEach((values, place) => {
    const cells = kit.querySelectorAll("tbody tr")[place].querySelectorAll("span, td");
    cells.forEach((cell, at) => { cell.textContent = values[at]; });
  });
  for (const [name, value] of [["cost", cost], ["each", each]]) {
    const cell = kit.querySelector(`.bb-kit-${name}`);
    if (cell) cell.textContent = value;
  }
}

field.addEventListener("input", show);
for (const button of kit.querySelectorAll("button")) {
  button.addEventListener("click", () => {
    const wanted = (Math.round(Number(field.value)) || 1) + Number(button.dataset.by);
    field.value = String(Math.min(rows.length, Math.max(1, wanted)));
    show();
  });
}
kit.querySelector(".bb-learners").hidden = false;
show();
