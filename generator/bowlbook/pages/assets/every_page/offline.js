// The copy of the book on this phone: kept by the service worker, with its age, replaced as a whole.

import { button, element, spoken } from "./dom.js";

function ago(moment, now) {
  const minutes = Math.floor((now - moment) / 60000);
  if (minutes < 1) return "just now";
  if (minutes < 60) return `${minutes} min ago`;
  const hours = Math.floor(minutes / 60);
  if (hours < 48) return `${hours} h ago`;
  return `${Math.floor(hours / 24)} days ago`;
}

function announce(text, act) {
  let bar = document.getElementById("bb-news");
  if (!bar) {
    bar = spoken("aside");
    bar.id = "bb-news";
    document.body.prepend(bar);
  }
  bar.replaceChildren(element("p", "", text), button("Show it", act));
}

/** Registers the worker of the site at `top`, announces when another copy took over, and shows the copy's age. */
export async function keepCopy(top, recall, remember) {
  const age = document.getElementById("bb-age");
  let mine = document.querySelector("meta[name=bowlbook-copy]")?.content;
  const workers = navigator.serviceWorker;
  const show = () => {
    const copy = recall("copy");
    if (!copy || !age) return;
    const [received, contact] = [copy.received, recall("contact", copy.received)].map((when) => ago(when, Date.now()));
    age.textContent = `The copy on this phone was received ${received}; last contact ${contact}.`;
    age.hidden = false;
  };
  const ask = () => workers.controller?.postMessage("which copy");
  workers.addEventListener("message", ({ data }) => {
    if (data?.kind !== "copy") return;
    if (recall("copy")?.version !== data.version) remember("copy", { version: data.version, received: data.received });
    mine ??= data.version; // a first visit: the copy was made beside this very page
    if (mine !== data.version) announce("A new copy of the book has arrived.", () => location.reload());
    show();
  });
  workers.addEventListener("controllerchange", ask);
  ask();
  show();
  const contact = async (registration) => {
    try {
      await registration.update();
      remember("contact", Date.now());
    } catch { /* no network: the age says so */ }
    show();
  };
  try {
    const registration = await workers.register(new URL("sw.js", top), { scope: top.pathname });
    await contact(registration);
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") contact(registration);
    });
    addEventListener("online", () => contact(registration));
  } catch { /* no network, or an address that keeps no copies */ }
}
