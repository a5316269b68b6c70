// What this phone remembers, under the site's own address; nothing leaves it.

export const top = new URL("../../", import.meta.url);
const prefix = `bowlbook:${top.pathname}:`;

export function recall(name, otherwise = null) {
  try {
    const text = localStorage.getItem(prefix + name);
    return text === null ? otherwise : JSON.parse(text);
  } catch {
    return otherwise;
  }
}

export function remember(name, value) {
  try {
    localStorage.setItem(prefix + name, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

/** A list that this phone keeps under a name; where it stores nothing, this page has it alone. */
export function keptList(name) {
  let inPage = null;
  return {
    read() {
      const all = inPage ?? recall(name, []);
      return Array.isArray(all) ? all : [];
    },
    save(all) {
      if (inPage !== null || !remember(name, all)) inPage = all;
    },
    onlyHere: () => inPage !== null,
  };
}

const ENTRY = /^(situations|blends|techniques|troubles|products|classes)\/[^/]+\/$/;
const LATELY = 6;

/** The addresses of the entries opened last on this phone, the newest first; nothing else of them is kept. */
export function openedLately() {
  return keptList("lately").read().filter((each) => typeof each === "string" && ENTRY.test(each));
}

/** Put the page that is open first among them, if it is an entry's. */
export function noteOpened() {
  const path = decodeURI(location.pathname).slice(top.pathname.length);
  if (ENTRY.test(path)) remember("lately", [path, ...openedLately().filter((each) => each !== path)].slice(0, LATELY));
}
