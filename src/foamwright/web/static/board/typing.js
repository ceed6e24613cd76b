// Typing a dimension where it stands.

export function type(board, id) {
  closeTyping(board);
  const node = board.dimNodes[id];
  const d = board.data.dims.find((row) => row.id === id);
  const input = document.createElement("input");
  input.className = "fw-typing";
  input.value = d.words;
  input.setAttribute("aria-label", `${d.label}, in any unit`);
  input.style.left = `${node.at[0]}px`;
  input.style.top = `${node.at[1]}px`;
  board.root.appendChild(input);
  board.typing = input;
  board.say(`${d.label}: type it in any unit, such as 300 mm or 11 3/4 in`);
  input.focus();
  input.select();
  input.addEventListener("keydown", (e) => {
    e.stopPropagation();
    if (e.key === "Enter") {
      board.emit("typed", { id, text: input.value });
      closeTyping(board);
      node.group.focus();
    } else if (e.key === "Escape") {
      closeTyping(board);
      node.group.focus();
    }
  });
  input.addEventListener("blur", () => closeTyping(board));
}

export function closeTyping(board) {
  if (!board.typing) return;
  const input = board.typing;
  board.typing = null;
  input.remove();
  board.say("");
}
