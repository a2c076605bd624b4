// What the window itself brings: keys, what is pasted or dropped anywhere, and leaving.

const typing = (node) => node.closest?.("textarea, input[type=text], input[type=number], input[type=datetime-local]");

/// actions: undo(), redo(), openFile(file), openText(text), isUnsaved().
export function watchWindow(actions) {
  document.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || typing(event.target)) return;
    const key = event.key.toLowerCase();
    if (key !== "z" && key !== "y") return;
    event.preventDefault();
    if (key === "y" || event.shiftKey) actions.redo();
    else actions.undo();
  });
  document.addEventListener("paste", (event) => {
    if (typing(event.target)) return;
    event.preventDefault();
    const file = event.clipboardData.files[0];
    if (file) actions.openFile(file);
    else actions.openText(event.clipboardData.getData("text/plain"));
  });
  const body = document.body;
  body.addEventListener("dragover", (event) => {
    event.preventDefault();
    body.classList.add("dropping");
  });
  body.addEventListener("dragleave", (event) => {
    if (!event.relatedTarget) body.classList.remove("dropping");
  });
  document.addEventListener("drop", () => body.classList.remove("dropping"), true);
  body.addEventListener("drop", (event) => {
    event.preventDefault();
    const file = event.dataTransfer.files[0];
    if (file) actions.openFile(file);
  });
  // The browser asks in words of its own.
  window.addEventListener("beforeunload", (event) => {
    if (actions.isUnsaved()) event.preventDefault();
  });
}
