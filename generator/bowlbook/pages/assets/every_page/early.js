// Before anything is drawn: light or dark as chosen on this phone, else as the phone is set.
(() => {
  let chosen = null;
  try { chosen = localStorage.getItem("bowlbook-scheme"); } catch { /* storage may be closed */ }
  const dark = chosen ? chosen === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
  if (dark) document.body.dataset.mdColorScheme = "slate";
  document.documentElement.classList.replace("no-js", "js");
})();
