// Elements of a page, made by scripts with text only.

export function make(tag, className, ...children) {
  const made = document.createElement(tag);
  if (className) made.className = className;
  made.append(...children.filter((child) => child !== null));
  return made;
}

/** A row of a table: its heading, then numbers as [class, text]. */
export function row(first, ...cells) {
  const head = make("th", "", ...first);
  head.scope = "row";
  return make("tr", "", head, ...cells.map(([className, text]) => make("td", `bb-num ${className}`, text)));
}

/** The head of a table: each name alone or with the unit under it; all but the first over numbers. */
export function heading(...names) {
  return make("thead", "", make("tr", "", ...names.map((name, at) => {
    const [text, unit] = [name].flat();
    const cell = make("th", at ? "bb-num" : "", text, ...(unit ? [make("br", ""), make("span", "", unit)] : []));
    cell.scope = "col";
    return cell;
  })));
}

export const warning = (...texts) => make("p", "bb-warning", ...texts);
