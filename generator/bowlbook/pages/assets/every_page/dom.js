// Elements made by scripts, from text only: nothing given here is ever read as HTML.

/** An element with its class, where it has one, and children: elements or texts; null is left out. */
export function element(tag, className = "", ...children) {
  const made = document.createElement(tag);
  if (className) made.className = className;
  made.append(...children.filter((child) => child !== null));
  return made;
}

/** A button that acts when it is pressed. Without its type it would send the form that it stands in. */
export function button(text, act, className = "bb-button") {
  const made = element("button", className, text);
  made.type = "button";
  made.addEventListener("click", act);
  return made;
}

/** An empty element whose text is read aloud each time it changes. */
export function spoken(tag, className = "") {
  const made = element(tag, className);
  made.setAttribute("role", "status");
  return made;
}

export const warning = (...texts) => element("p", "bb-warning", ...texts);
