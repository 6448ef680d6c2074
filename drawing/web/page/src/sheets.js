// The sheets and tables of the job, one of which is in view.
"use strict";

const sheets = {
  state: { sheets: [], tables: [], problems: [], cables: [], summary: [], units: "mm" },

  async show(id) {
    const all = [...this.state.sheets, ...this.state.tables];
    const one = all.find((s) => s.id === id) || all[0];
    if (!one || view.hand) return;
    view.shown = one.id;
    $("sheets").replaceChildren(...all.map((s) => element("option", { value: s.id, selected: s === one }, s.title)));
    if (one.columns) { view.table(one); return; }
    const text = await engine.ask("sheet", { sheet: one.id });
    if (view.shown === one.id) this.draw(one, text, this.state.cables, this.state.units);
  },
  // early shows a sheet again before the others are drawn
  early(s) {
    if (s.id !== view.shown || view.hand || !view.svg) return;
    $("stale").hidden = true;
    $("view").classList.remove("old");
    this.draw(s, s.svg, s.cables.map((c) => ({ ...c, runs: c.runs || [] })), s.units);
  },
  // draw leaves a sheet that is there as it is
  draw(sheet, text, ...more) {
    if (text === this.text && view.svg && view.svg === this.svg && view.svg.isConnected) return;
    if (view.draw(sheet, text, ...more)) Object.assign(this, { text, svg: view.svg });
  },
};

view.tip = (id, run, used, all) => (run ? say("%s, run %s: %s of %s", id, run, inFigures(used), inFigures(all)) : say("%s: %s of %s", id, inFigures(used), inFigures(all)));
