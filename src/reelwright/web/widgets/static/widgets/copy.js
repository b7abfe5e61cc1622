// Buttons that copy a text; without this script they stay hidden, and the text can be selected.
for (const button of document.querySelectorAll("button[data-copy]")) {
  if (!navigator.clipboard) continue;
  button.hidden = false;
  button.addEventListener("click", async () => {
    await navigator.clipboard.writeText(document.getElementById(button.dataset.copy).value);
    button.textContent = "Copied";
  });
}
