// The text of a job under the hands: numbered lines, each with what is wrong with it.
//
//   <job-text label="Job file">   .value, an "input" event after each change by hand,
//                                 .phrases, .selected, .told(problems), .toLine(n)
//
// Its styles are adopted by a shadow root, since the page's policy lets no style be written
// into it.
import { Compartment, EditorState, Transaction } from "@codemirror/state";
import { EditorView, keymap, lineNumbers, highlightActiveLine, highlightActiveLineGutter } from "@codemirror/view";
import { defaultKeymap, history, historyKeymap } from "@codemirror/commands";
import { HighlightStyle, StreamLanguage, syntaxHighlighting } from "@codemirror/language";
import { toml } from "@codemirror/legacy-modes/mode/toml";
import { lintGutter, lintKeymap, setDiagnostics } from "@codemirror/lint";
import { highlightSelectionMatches, search, searchKeymap } from "@codemirror/search";
import { tags } from "@lezer/highlight";

const colours = HighlightStyle.define([
  { tag: tags.comment, color: "var(--soft)", fontStyle: "italic" },
  { tag: [tags.string, tags.special(tags.string)], color: "var(--good)" },
  { tag: [tags.number, tags.bool, tags.atom], color: "var(--key)" },
  { tag: [tags.keyword, tags.heading], fontWeight: "bold" },
]);

const look = EditorView.theme({
  "&": { color: "var(--ink)", backgroundColor: "var(--field)", border: "1px solid var(--line)", borderRadius: "6px", fontSize: "14px" },
  "&.cm-focused": { outline: "3px solid var(--key)", outlineOffset: "1px" },
  ".cm-scroller": { fontFamily: "ui-monospace, monospace", lineHeight: "1.45" },
  ".cm-content": { caretColor: "var(--ink)", minHeight: "220px" },
  ".cm-gutters": { color: "var(--soft)", backgroundColor: "transparent", border: "0" },
  ".cm-activeLine, .cm-activeLineGutter": { backgroundColor: "color-mix(in srgb, var(--line) 25%, transparent)" },
  ".cm-content ::selection, .cm-content::selection": { backgroundColor: "color-mix(in srgb, var(--key) 35%, transparent)" },
  ".cm-panels, .cm-tooltip": { color: "var(--ink)", backgroundColor: "var(--paper)", borderColor: "var(--line)", fontSize: "14px" },
  ".cm-panel.cm-search": { fontSize: "14px" },
  ".cm-textfield, .cm-button": { color: "inherit", backgroundColor: "var(--field)", backgroundImage: "none", border: "1px solid var(--line)", minHeight: "32px" },
});

// panelWords are the editor's own words in English, which a page may give in another language.
const panelWords = {
  find: "Find", with: "Replace", next: "next", previous: "previous", all: "all", matchCase: "match case", regexp: "regexp", byWord: "by word",
  replace: "replace", replaceAll: "replace all", close: "close", goToLine: "Go to line", go: "go", problems: "Diagnostics", none: "No diagnostics",
  found: "current match", onLine: "on line", replacedOne: "replaced match on line $", replaced: "replaced $ matches",
};

// change is the least that makes one text of another, so that the caret and what is in view stay.
function change(was, is) {
  let from = 0, end = 0;
  const least = Math.min(was.length, is.length);
  while (from < least && was[from] === is[from]) from++;
  while (end < least - from && was[was.length - 1 - end] === is[is.length - 1 - end]) end++;
  return { from, to: was.length - end, insert: is.slice(from, is.length - end) };
}

// spot is where a problem is: its columns are counted in characters, the editor's in units of UTF-16.
function spot(doc, p) {
  const n = Number((/:(\d+):\d+$/.exec(p.place) || [])[1] || 0);
  if (n < 1 || n > doc.lines) return null;
  const line = doc.line(n), letters = [...line.text];
  const units = (count) => letters.slice(0, count).join("").length;
  const from = line.from + units(p.start || 0), to = line.from + units((p.start || 0) + (p.length || 0));
  return { from, to: Math.max(from, to) };
}

customElements.define("job-text", class extends HTMLElement {
  constructor() {
    super();
    const byHand = EditorView.updateListener.of((u) => {
      if (u.docChanged && !u.transactions.every((t) => t.annotation(Transaction.remote))) this.dispatchEvent(new Event("input"));
    });
    this.words = new Compartment();
    this.view = new EditorView({
      root: this.attachShadow({ mode: "open" }),
      state: EditorState.create({
        extensions: [
          this.words.of([]), lineNumbers(), highlightActiveLine(), highlightActiveLineGutter(), history(), search({ top: true }), highlightSelectionMatches(),
          StreamLanguage.define(toml), syntaxHighlighting(colours), lintGutter(), EditorView.lineWrapping, look, byHand,
          keymap.of([...searchKeymap, ...lintKeymap, ...historyKeymap, ...defaultKeymap]),
          EditorView.contentAttributes.of(() => ({ "aria-label": this.getAttribute("label") || "", autocapitalize: "off", autocorrect: "off", spellcheck: "false" })),
        ],
      }),
    });
    this.shadowRoot.append(this.view.dom);
  }
  // value has the line ends that it was given with
  get value() { return this.view.state.doc.toString().replaceAll("\n", this.lineEnd || "\n"); }
  set value(text) {
    this.lineEnd = text.includes("\r\n") ? "\r\n" : "\n";
    const was = this.view.state.doc.toString(), is = text.replace(/\r\n?/g, "\n");
    if (was !== is) this.view.dispatch({ changes: change(was, is), annotations: [Transaction.remote.of(true), Transaction.addToHistory.of(false)] });
  }
  // phrases are what the editor's own panels say, by the keys of panelWords
  set phrases(said) {
    const all = Object.entries(said).map(([key, words]) => [panelWords[key], words]);
    this.view.dispatch({ effects: this.words.reconfigure(EditorState.phrases.of(Object.fromEntries(all))) });
  }
  get selected() { const s = this.view.state.selection.main; return this.view.state.sliceDoc(s.from, s.to); }
  focus() { this.view.focus(); }
  // told marks the lines that problems name: { place, start, length, severity, message, hint }
  told(problems) {
    const doc = this.view.state.doc;
    const marks = problems.map((p) => ({ ...spot(doc, p), severity: p.severity, message: p.message + (p.hint ? "\n" + p.hint : "") }));
    this.view.dispatch(setDiagnostics(this.view.state, marks.filter((m) => m.from !== undefined)));
  }
  // toLine brings a line into view and marks it
  toLine(n) {
    const doc = this.view.state.doc, line = doc.line(Math.min(Math.max(1, n), doc.lines));
    this.view.dispatch({ selection: { anchor: line.from, head: line.to }, effects: EditorView.scrollIntoView(line.from, { y: "center" }) });
    this.focus();
  }
});
