// The sheets and tables of the job, one of which is in view.
"use strict";

const noSheets = () => ({ sheets: [], tables: [], problems: [], cables: [], summary: [], units: "mm" });

const sheets = {
  state: noSheets(),

  async show(id) {
    const all = [...this.state.sheets, ...this.state.tables];
    const one = all.find((s) => s.id === id) || all.find((s) => s.id === this.last) || all[0];
    if (!one || view.hand) return;
    view.shown = this.last = one.id;
    $("sheets").replaceChildren(...all.map((s) => element("option", { value: s.id, selected: s === one }, s.title)));
    if (one.columns) { view.table(one); return; }
    const text = await engine.ask("sheet", { sheet: one.id });
    if (view.shown === one.id) this.draw(one, text, this.state.cables, this.state.units);
  },
  // early shows a sheet again before the others are drawn
  early(s) {
    if (s.id !== view.shown || view.hand || !view.svg) return;
    $("wrong").hidden = true;
    $("view").classList.remove("old");
    this.draw(s, s.svg, s.cables.map((c) => ({ ...c, runs: c.runs || [] })), s.units);
  },
  // made shows a drawing that is no sheet of the set, until one of them is chosen
  made(file) {
    if (view.hand || !view.draw({ id: "made:" + file.name, ratio: 0 }, new TextDecoder().decode(file.bytes), [], this.state.units)) return;
    $("sheets").querySelector(".made")?.remove();
    $("sheets").prepend(element("option", { value: "", class: "made" }, file.name));
    $("sheets").value = "";
  },
  // draw leaves a sheet that is there as it is
  draw(sheet, text, ...more) {
    if (text === this.text && view.svg && view.svg === this.svg && view.svg.isConnected) return;
    if (view.draw(sheet, text, ...more)) { Object.assign(this, { text, svg: view.svg }); laying.mark(); }
  },
};

view.tip = (id, run, used, all) => (run ? say("%s, run %s: %s of %s", id, run, inFigures(used), inFigures(all)) : say("%s: %s of %s", id, inFigures(used), inFigures(all)));
