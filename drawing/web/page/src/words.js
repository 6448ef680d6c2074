// What the page says, in its reader's language: that chosen here, else the job's, else the
// browser's. Its catalogues are those of the package language; the English message is the key.
"use strict";

const catalogues = CATALOGUES;
const tongues = { en: "English", es: "Espa\u00f1ol", fr: "Fran\u00e7ais", de: "Deutsch" };
let tongue = "en";

// say puts in the values of a message, %s each.
const say = (message, ...values) => {
  let next = 0;
  return (catalogues[tongue]?.[message] || message).replace(/%%|%(?:\[(\d)\])?s/g, (verb, i) => (verb === "%%" ? "%" : String(values[i ? i - 1 : next++])));
};
// message is one that is said later, when its reader is known
const message = (m) => m;

const known = (tag) => (tag in tongues ? tag : "");
const ofJob = (text) => known((/^\s*language\s*=\s*\[?\s*["'](\w\w)/m.exec(text || "") || [])[1] || "");
const ofBrowser = () => (navigator.languages || [navigator.language || ""]).map((l) => known(l.slice(0, 2).toLowerCase())).find(Boolean) || "en";

// speak takes the language that is due, and reports whether it is another than before.
function speak(chosen, text) {
  const due = known(chosen) || ofJob(text) || ofBrowser();
  if (due === tongue) return false;
  tongue = due;
  document.documentElement.lang = due;
  for (const [put, english] of standing()) put(say(english));
  return true;
}

// standing are the texts of the page itself, as it came, each with how it is put there.
const standing = (() => {
  let all = null;
  const found = () => {
    const out = [], walk = (root) => {
      const texts = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
      for (let n = texts.nextNode(); n; n = texts.nextNode()) {
        const node = n, english = n.data.trim();
        if (/[A-Za-z]{2}/.test(english) && !n.parentElement?.closest("script, style, #name, #status")) out.push([(words) => { node.data = node.data.replace(/\S[^]*\S|\S/, words); }, english]);
      }
      for (const e of root.querySelectorAll("*")) {
        for (const a of ["aria-label", "title"]) if (e.hasAttribute(a)) out.push([(words) => e.setAttribute(a, words), e.getAttribute(a)]);
      }
    };
    walk(document.body);
    for (const t of document.querySelectorAll("template")) walk(t.content);
    return out;
  };
  return () => all ||= found();
})();

// inFigures writes a figure as the language does.
const inFigures = (figure) => (tongue === "en" ? figure : figure.replaceAll(".", ","));
