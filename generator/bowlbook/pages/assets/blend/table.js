// Rows and heads of a bowl's tables, made by scripts as the page has them.

import { element } from "./dom.js";

/** A row of a table: its heading, then numbers as [class, text]. */
export function row(first, ...cells) {
  const head = element("th", "", ...first);
  head.scope = "row";
  return element("tr", "", head, ...cells.map(([className, text]) => element("td", `bb-num ${className}`, text)));
}

/** The head of a table: each name alone or with the unit under it; all but the first over numbers. */
export function heading(...names) {
  return element("thead", "", element("tr", "", ...names.map((name, at) => {
    const [text, unit] = [name].flat();
    const cell = element("th", at ? "bb-num" : "", text, ...(unit ? [element("br", ""), element("span", "", unit)] : []));
    cell.scope = "col";
    return cell;
  })));
}
