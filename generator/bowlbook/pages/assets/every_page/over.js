// What covers the page: search, large figures, steps.

/** Opens a dialog over the page. Where a phone of 2021 knows none, it is laid over the page all the same. */
export function openOver(dialog) {
  if (dialog.showModal) {
    if (!dialog.open) dialog.showModal();
    return;
  }
  dialog.setAttribute("role", "dialog");
  dialog.setAttribute("aria-modal", "true");
  dialog.setAttribute("open", "");
  dialog.close = () => {
    dialog.removeAttribute("open");
    dialog.dispatchEvent(new Event("close"));
  };
  dialog.onkeydown = ({ key }) => { if (key === "Escape") dialog.close(); };
}
