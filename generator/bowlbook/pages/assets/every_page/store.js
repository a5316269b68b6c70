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
