"use strict";
// What the page says, in its reader's language: say puts in the values of a message, %s,
// %d or %[2]s each, and inFigures writes a figure as the language does.
const words = JSON.parse(document.getElementById("words").textContent);
const say = (message, ...values) => {
  let next = 0;
  return (words[message] || message).replace(/%%|%(?:\[(\d)\])?[sd]/g, (verb, i) => (verb === "%%" ? "%" : String(values[i ? i - 1 : next++])));
};
const inFigures = (figure) => (document.documentElement.lang === "en" ? figure : figure.replaceAll(".", ","));

