// What the scale must show, as large as the screen allows: one pour at a time, the next by a tap anywhere.

import { button, element } from "./dom.js";
import { openOver } from "./over.js";

/** Opens the pours of a bowl. `keys`: the lettered squares of the page's table, in pouring order. */
export function showLarge({ bowl, unit, batch }, keys) {
  const { pours } = bowl;
  const screen = button("", () => (place + 1 < pours.length ? turn(place + 1) : dialog.close()), "");
  const leave = button("Leave", () => dialog.close(), "bb-leave");
  const back = button("Back", () => turn(place - 1), "bb-leave bb-far-back");
  const dialog = element("dialog", "bb-far", screen, back, leave);
  dialog.setAttribute("aria-label", "Large figures");
  let place = 0;
  function turn(to) {
    place = to;
    const pour = pours[place];
    const following = pours[place + 1];
    const field = element("span", `bb-far-field bb-digits-${Math.max(5, Math.min(8, pour.shows.length))}`,
      `Scale shows, ${unit}`, element("b", "", pour.shows));
    const what = element("span", "bb-what", keys[place]?.cloneNode(true) ?? null, pour.name,
      element("small", "", `${pour.role === "developer" ? "pour" : "add"} ${pour.weigh} ${unit}${pour.volume ? `, ${pour.volume}` : ""}`));
    const where = `${place + 1} of ${pours.length}, batch of ${batch} ${unit}${place ? "" : ", bowl tared once"}`;
    const next = following ? `Tap anywhere: ${following.name}` : "Tap anywhere: back to the blend";
    screen.replaceChildren(element("span", "bb-soft", where), what, field, element("span", "bb-far-next", next));
    back.hidden = place === 0;
  }
  dialog.addEventListener("close", () => dialog.remove());
  dialog.addEventListener("keydown", (event) => {
    if (event.key === "ArrowRight" && place + 1 < pours.length) turn(place + 1);
    if (event.key === "ArrowLeft" && place > 0) turn(place - 1);
  });
  turn(0);
  document.body.append(dialog);
  openOver(dialog);
  screen.focus();
}
