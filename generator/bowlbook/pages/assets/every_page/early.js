// Before anything is drawn: light or dark as chosen on this phone, else as the phone is set.
(() => {
  const root = document.documentElement;
  let chosen = null;
  try { chosen = localStorage.getItem("bowlbook-scheme"); } catch { /* storage may be closed */ }
  if (chosen) root.dataset.scheme = chosen;
  root.classList.replace("no-js", "js");
})();
