// What every page carries: words that explain themselves, keys, and plots that can be read off.
(() => {
  const { words, pictures } = window.foamwright;
  const names = Object.keys(words).sort((a, b) => b.length - a.length);
  const found = new RegExp(`\\b(${names.map((n) => n.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")).join("|")})\\b`, "i");

  // Mark the first word of the trade in a text that is HTML already, so that it can be asked.
  window.foamwright.explained = (html) =>
    html.replace(found, (said) => {
      const term = said.toLowerCase();
      return `<span class="fw-word" tabindex="0" role="note" data-term="${term}" aria-label="${said}: ${words[term].replace(/"/g, "&quot;")}">${said}</span>`;
    });

  // ------------------------------------------------------------ the note beside a word
  const note = document.createElement("div");
  note.className = "fw-tip";
  note.hidden = true;
  let holder = null;

  function show(word) {
    const term = word.dataset.term;
    if (!words[term]) return;
    if (!note.isConnected) document.body.appendChild(note);
    holder = word;
    note.innerHTML = `${pictures[term] || ""}<b></b><span></span>`;
    note.querySelector("b").textContent = term;
    note.querySelector("span").textContent = words[term];
    note.hidden = false;
    const box = word.getBoundingClientRect();
    const [w, h] = [note.offsetWidth, note.offsetHeight];
    const above = box.top - h - 8;
    note.style.left = `${Math.max(8, Math.min(box.left, innerWidth - w - 8))}px`;
    note.style.top = `${above > 8 ? above : Math.min(box.bottom + 8, innerHeight - h - 8)}px`;
  }

  function hide() {
    holder = null;
    note.hidden = true;
  }

  const wordOf = (e) => (e.target.closest ? e.target.closest(".fw-word") : null);
  document.addEventListener("mouseover", (e) => {
    const word = wordOf(e);
    if (word) show(word);
    else if (holder && !note.contains(e.target) && holder !== document.activeElement) hide();
  });
  document.addEventListener("focusin", (e) => (wordOf(e) ? show(wordOf(e)) : hide()));
  document.addEventListener("focusout", hide);
  document.addEventListener("scroll", hide, true);

  addEventListener("popstate", () => location.reload()); // back and forward lead to places

  // ------------------------------------------------------------ keys
  document.addEventListener("keydown", (e) => {
    if (e.key === "Escape") hide();
    if (!(e.ctrlKey || e.metaKey) || e.altKey) return;
    const key = e.key.toLowerCase();
    const typing = e.target.closest && e.target.closest("input, textarea, select");
    const what = key === "s" ? "save" : typing ? "" : key === "y" || (key === "z" && e.shiftKey) ? "redo" : key === "z" ? "undo" : "";
    const button = what && document.querySelector(`[data-key="${what}"]`);
    if (!button) return;
    e.preventDefault();
    if (!button.disabled) button.click();
  });

  // ------------------------------------------------------------ ticks that the browser remembers
  const kept = (box) => `foamwright:${box.dataset.keep}`;
  const recall = (root) =>
    root.querySelectorAll("[data-keep]").forEach((box) => (box.checked = localStorage.getItem(kept(box)) === "yes"));
  new MutationObserver((news) => {
    for (const item of news) for (const node of item.addedNodes) if (node.querySelectorAll) recall(node);
  }).observe(document.documentElement, { childList: true, subtree: true });
  document.addEventListener("change", (e) => {
    const box = e.target;
    if (!box.dataset || !box.dataset.keep) return;
    if (box.checked) localStorage.setItem(kept(box), "yes");
    else localStorage.removeItem(kept(box));
    document.querySelectorAll(`[data-keep="${CSS.escape(box.dataset.keep)}"]`).forEach((b) => (b.checked = box.checked));
  });

  // ------------------------------------------------------------ plots
  function read(plot, x) {
    const { frame, curves, digits } = JSON.parse(plot.dataset.plot);
    const at = Math.max(frame.x0, Math.min(frame.x1, x));
    const across = frame.left + ((at - frame.x0) / (frame.x1 - frame.x0)) * frame.width;
    const lines = curves
      .map((c) => {
        const i = c.x.findIndex((v, j) => j && c.x[j - 1] <= at && at <= v);
        if (i < 1) return "";
        const t = c.x[i] > c.x[i - 1] ? (at - c.x[i - 1]) / (c.x[i] - c.x[i - 1]) : 0;
        return `${c.name} ${(c.y[i - 1] + t * (c.y[i] - c.y[i - 1])).toPrecision(3) * 1}`;
      })
      .filter(Boolean);
    plot.dataset.at = at;
    const cursor = plot.querySelector(".cursor");
    cursor.setAttribute("d", `M${across} ${frame.top}V${frame.top + frame.height}`);
    const said = plot.querySelector(".read");
    said.textContent = `at ${at.toFixed(digits)} ${frame.along}: ${lines.map((line) => `${line} ${frame.up}`).join("; ")}`;
    plot.classList.add("reading");
  }

  document.addEventListener("pointermove", (e) => {
    const plot = e.target.closest && e.target.closest(".fw-plot");
    document.querySelectorAll(".fw-plot.reading").forEach((p) => p !== plot && p !== document.activeElement && p.classList.remove("reading"));
    if (!plot || !plot.dataset.plot) return;
    const box = plot.getBoundingClientRect();
    const { frame } = JSON.parse(plot.dataset.plot);
    const across = ((e.clientX - box.left) / box.width) * plot.viewBox.baseVal.width;
    read(plot, frame.x0 + ((across - frame.left) / frame.width) * (frame.x1 - frame.x0));
  });
  document.addEventListener("keydown", (e) => {
    const plot = e.target.closest && e.target.closest(".fw-plot");
    if (!plot || (e.key !== "ArrowLeft" && e.key !== "ArrowRight")) return;
    e.preventDefault();
    const { frame } = JSON.parse(plot.dataset.plot);
    const step = (frame.x1 - frame.x0) / 50;
    const from = plot.dataset.at === undefined ? frame.x0 : Number(plot.dataset.at);
    read(plot, from + (e.key === "ArrowRight" ? step : -step));
  });
})();
