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
    if (view.shown === one.id) view.draw(one, text, this.state.cables, this.state.units);
  },
};

view.tip = (id, run, used, all) => (run ? say("%s, run %s: %s of %s", id, run, inFigures(used), inFigures(all)) : say("%s: %s of %s", id, inFigures(used), inFigures(all)));
