"use strict";
// What package record makes of readings, step by step: the same formulas, errors and words. A
// figure is { value, error, gain }, as its Measured; a cable as table.go writes it, with what
// was typed in place of what was known. A test in a browser holds the two together.
const record = (() => {
  const foot = 304.8, metre = 1000;

  // --- figures in words, as package say writes them ----------------------

  // fixed rounds a figure that lies half-way to the even one.
  function fixed(v, places) {
    const halves = v * 2 ** (places + 1), s = v.toFixed(places);
    const odd = Number(s[s.length - 1]) % 2 !== 0;
    return Number.isInteger(halves) && halves % 2 !== 0 && odd ? (Number(s) - Math.sign(v) * 10 ** -places).toFixed(places) : s;
  }

  // plain writes a figure without an exponent.
  function plain(v) {
    const s = String(v);
    if (!s.includes("e")) return s;
    return Math.abs(v) > 1 ? BigInt(v).toString() : v.toFixed(Math.min(100, 17 - Number(s.split("e")[1]))).replace(/0+$/, "");
  }

  const working = (v) => plain(Number(v.toPrecision(7)));
  const exponent = (s) => s.replace(/e([+-])(\d)$/, "e$10$2");

  function general(v) {
    const e = Math.floor(Math.log10(Math.abs(v)));
    return v !== 0 && Number.isFinite(v) && (e < -4 || e >= 21) ? exponent(v.toExponential()) : String(v);
  }

  function digits(v, n) {
    if (Math.abs(v) >= 10 ** n - 0.5) return fixed(v, 0);
    return v !== 0 && Math.abs(v) < 1e-4 ? exponent(Number(v.toPrecision(n)).toExponential()) : String(Number(v.toPrecision(n)));
  }

  const percent = (share) => `${fixed(100 * share, 0)} %`;
  const percentGiven = (share) => `${plain(Math.round(100 * share * 100) / 100)} %`;
  const far = (c, mm) => (c.feet ? `${working(mm / foot)} ft` : `${working(mm / metre)} m`);
  const rounded = (c, mm) => (c.feet ? `${fixed(mm / foot, 1)} ft` : `${fixed(mm / metre, 2)} m`);

  // --- measured figures ------------------------------------------------------

  const exact = (value) => ({ value, error: 0, gain: 0 });

  function meterReading(value, share, steps, step) {
    const gain = Math.abs(value) * share;
    return { value, error: gain + steps * step, gain };
  }

  function checkFigure(m, name, unit) {
    if (!(m.value >= 0) || m.value === Infinity) throw new Error(`${name} is ${general(m.value)} ${unit}; that is not a reading`);
    if (!(m.error >= 0) || m.error === Infinity) {
      throw new Error(`the error of ${name} is ${general(m.error)} ${unit}; give it as the meter's manual states it, not below zero`);
    }
  }

  // propagate returns f of measured figures, its error the sum of what each one's moves it by.
  function propagate(f, ...figures) {
    const v = figures.map((m) => m.value), value = f(v);
    let error = 0;
    figures.forEach((m, i) => {
      if (m.error === 0) return;
      v[i] = m.value + m.error;
      const more = Math.abs(f(v) - value);
      v[i] = m.value - m.error;
      const less = Math.abs(f(v) - value);
      v[i] = m.value;
      error += Math.max(more, less);
    });
    return { value, error, gain: 0 };
  }

  // propagateAlike counts the gain of the figures numbered in alike once, with their joint effect.
  function propagateAlike(f, alike, ...figures) {
    const own = figures.map((m, i) => (alike.includes(i) ? { ...m, error: m.error - m.gain } : m));
    const moved = (by) => figures.map((m, i) => (alike.includes(i) ? m.value + by * m.gain : m.value));
    const out = propagate(f, ...own);
    out.error += Math.max(Math.abs(f(moved(1)) - out.value), Math.abs(f(moved(-1)) - out.value));
    return out;
  }

  // --- the cable ---------------------------------------------------------------

  const cautions = [
    "isolate the circuit and prove it dead first; disconnect thermostat and sensor before any test",
    "confirm the place by a second method (tracing tone, listening, heat) before a tile is lifted",
    "the place is a stretch of cable, not a point; neighbouring runs may lie under the same tile",
    "do not re-energise a circuit that has tripped or failed a test",
    "repair only as the cable's instructions allow",
  ];
  const roughShare = 0.25;
  const firstCoreWords = "the core read as A", returnCoreWords = "the return core, read as B", eitherCoreWords = "either core, near the far end";

  function checkCable(c) {
    if (!(c.length > 0) || c.length === Infinity) throw new Error(`the cable's length is ${general(c.length)} mm; it must be above zero`);
    if (!(c.lead >= 0) || c.lead === Infinity) throw new Error(`the lead's length is ${general(c.lead)} mm; it cannot be below zero`);
    if (!(c.coreShare >= 0 && c.coreShare < 1)) throw new Error(`the first core's share of the ohms is ${general(c.coreShare)}; it lies between 0 and 1`);
    checkFigure(c.ohms, "the whole cable's ohms", "Ω");
    checkFigure(c.leadOhms, "the leads' ohms", "Ω");
    checkFigure(c.farads, "the whole cable's capacitance", "nF");
  }

  // forMethod checks the cable and the readings of a method.
  function forMethod(method, c, unit, readings) {
    try {
      checkCable(c);
      for (const r of readings) checkFigure(r, "a reading", unit);
    } catch (e) {
      throw new Error(`${method}: ${e.message}`);
    }
  }

  function elsewhere(c, method, inLead, off) {
    return new Error(inLead ? `${method}: the fault lies off the heating cable, in a cold lead or its joint`
      : `${method}: the reading puts the fault ${rounded(c, off)} beyond the end of the cable; check the reading, the lead taken off and the cable's figures`);
  }

  const clamp = (c, mm) => Math.max(0, Math.min(c.length, mm));

  // finish adds what is said of every stretch.
  function finish(c, s, lead) {
    s.assumptions.push("there is one fault");
    if (lead) s.cautions.push("the fault may also lie in a cold lead or its joint");
    if (s.to - s.from > roughShare * c.length) {
      s.cautions.push(`the stretch is ${percent((s.to - s.from) / c.length)} of the cable: too long to act on; read again with a finer instrument or by another method`);
    }
    s.cautions.push(...cautions);
    return s;
  }

  const begun = (method, formula, assumptions) => ({ method, formula, core: "", faultOhms: exact(0), assumptions: assumptions.slice(), cautions: [] });

  // stretch bounds a distance from the start of heat by the cable's ends.
  function stretch(c, method, formula, at, assumptions) {
    const rounding = 1e-6, from = at.value - at.error, to = at.value + at.error;
    if (Number.isNaN(from) || Number.isNaN(to)) throw new Error(`${method}: the readings do not give a place`);
    if (to < -rounding) throw elsewhere(c, method, true, -to);
    if (from > c.length + rounding) throw elsewhere(c, method, c.return, from - c.length);
    const s = begun(method, formula, assumptions);
    Object.assign(s, { from: clamp(c, from), best: clamp(c, at.value), to: clamp(c, to) });
    return finish(c, s, from < -rounding || (to > c.length + rounding && c.return));
  }

  // fold turns a share of the loop into a share of the cable's length.
  function fold(loop, first) {
    const x = Math.max(0, Math.min(1, loop));
    return x <= first ? x / first : (1 - x) / (1 - first);
  }

  // onLoop folds a share of the loop of heating conductor onto the cable.
  function onLoop(c, method, formula, share, first, assumptions) {
    if (c.return) return stretch(c, method, formula, { value: share.value * c.length, error: share.error * c.length }, assumptions);
    const rounding = 1e-9, low = share.value - share.error, high = share.value + share.error;
    if (Number.isNaN(low) || Number.isNaN(high)) throw new Error(`${method}: the readings do not give a place`);
    if (high < -rounding || low > 1 + rounding) throw elsewhere(c, method, true, Math.max(-high, low - 1) * c.length / first);
    const s = begun(method, formula, assumptions);
    const a = fold(low, first) * c.length, b = fold(high, first) * c.length;
    Object.assign(s, { from: Math.min(a, b), best: fold(share.value, first) * c.length, to: Math.max(a, b) });
    if (high <= first) s.core = firstCoreWords;
    else if (low >= first) s.core = returnCoreWords;
    else Object.assign(s, { core: eitherCoreWords, to: c.length });
    return finish(c, s, low < -rounding || high > 1 + rounding);
  }

  // --- by ohms -----------------------------------------------------------------

  const evenOhms = "the conductor has the same ohms per length all along";
  const above = (a, b) => a.value - a.error > b.value + b.error;
  const firstCore = (c) => (c.coreShare === 0 ? 0.5 : c.coreShare);
  const leadWords = (c) => (c.leadOhms.value === 0 ? "the leads' ohms are not given and were taken as none" : `${working(c.leadOhms.value)} Ω taken off for the leads, there and back`);

  // warmed returns the cable with its ohms as they are when it is so many kelvin warmer.
  function warmed(c, kelvin, perKelvin) {
    const by = 1 + perKelvin * kelvin, o = c.ohms;
    return { ...c, ohms: { value: o.value * by, error: o.error * by, gain: o.gain * by },
      warmed: `the whole cable's ohms are brought to now, ${working(kelvin)} K warmer, by the coefficient given, ${working(perKelvin)} per K; the leads' are not` };
  }

  function short(c, now) {
    const method = "short between cores, by loop ohms";
    forMethod(method, c, "Ω", [now]);
    if (c.return) throw new Error(`${method}: a single-conductor cable has no second core; read each end to the braid`);
    if (!above(c.ohms, c.leadOhms)) throw new Error(`${method}: needs the ohms of the whole cable, above those of its leads`);
    const at = propagate((v) => (v[0] - v[2]) / (v[1] - v[2]) * c.length, now, c.ohms, c.leadOhms);
    const lead = working(c.leadOhms.value);
    return stretch(c, method, `x = L (now - lead) / (whole - lead) = ${far(c, c.length)} × (${working(now.value)} - ${lead}) / (${working(c.ohms.value)} - ${lead})`, at,
      [evenOhms, leadWords(c), "the short itself has no ohms; if it has some the fault lies nearer the start of heat", c.warmed || "the cable is as warm as when it was read whole"]);
  }

  function loopWords(c) {
    if (c.return) return [evenOhms, leadWords(c), "end A is at the start of heat; both leads are alike"];
    if (c.coreShare === 0) {
      return [evenOhms, leadWords(c), "both cores have the same ohms per length; if the return core differs, give the first core's share, for the place moves with it"];
    }
    return [evenOhms, leadWords(c), `the first core has ${percentGiven(c.coreShare)} of the ohms, as given`];
  }

  // loopShare takes the leads off the ohms from end A to the fault.
  function loopShare(method, c, ab, fromA, ...readings) {
    if (!above(ab, c.leadOhms)) throw new Error(`${method}: needs the loop's ohms, above those of the leads`);
    const last = readings.length + 1;
    return propagateAlike((v) => (fromA(v) - v[last] / 2) / (v[0] - v[last]), [1, 2], ab, ...readings, c.leadOhms);
  }

  function earth(c, ab, a, b) {
    const method = "fault to the braid, by loop and two braid readings", half = (v) => (v[0] + v[1] - v[2]) / 2;
    forMethod(method, c, "Ω", [ab, a, b]);
    const share = loopShare(method, c, ab, half, a, b);
    const s = onLoop(c, method, `ohms from A = (AB + A - B) / 2 = (${working(ab.value)} + ${working(a.value)} - ${working(b.value)}) / 2, of ${working(ab.value)}`, share, firstCore(c), loopWords(c));
    s.assumptions.push("both braid readings are by one meter on one range, so that its error in proportion moves both alike");
    s.faultOhms = propagateAlike((v) => Math.max(0, half(v)), [0, 1], a, b, ab);
    const apart = 0.05, off = Math.abs(ab.value - c.ohms.value) - ab.error - c.ohms.error;
    if (c.ohms.value > 0 && off > apart * c.ohms.value) {
      s.cautions.unshift(`the loop reads ${working(ab.value)} Ω, ${working(c.ohms.value)} Ω when whole: there may be a second fault, or the cable is at another temperature`);
    }
    return s;
  }

  function murray(c, p, q, loop) {
    const method = "fault to the braid, by Murray's bridge";
    const ab = loop.value === 0 ? { ...c.ohms } : loop;
    forMethod(method, c, "Ω", [ab, p, q]);
    if (p.value + q.value === 0) throw new Error(`${method}: both arms are zero`);
    if (ab.value === 0 && c.leadOhms.value === 0) ab.value = 1; // nothing to take off: the ratio alone gives the place
    const share = loopShare(method, c, ab, (v) => v[0] * v[2] / (v[1] + v[2]), p, q);
    return onLoop(c, method, `share of the loop from A = Q / (P + Q) = ${working(q.value)} / (${working(p.value)} + ${working(q.value)})`, share, firstCore(c), loopWords(c));
  }

  function varley(c, p, q, s, loop) {
    const method = "fault to the braid, by Varley's bridge", ab = loop.value === 0 ? c.ohms : loop, w = (m) => working(m.value);
    forMethod(method, c, "Ω", [ab, p, q, s]);
    if (p.value + q.value === 0) throw new Error(`${method}: both arms are zero`);
    const share = loopShare(method, c, ab, (v) => (v[2] * v[0] - v[1] * v[3]) / (v[1] + v[2]), p, q, s);
    return onLoop(c, method, `ohms from A = (Q AB - P S) / (P + Q) = (${w(q)} × ${w(ab)} - ${w(p)} × ${w(s)}) / (${w(p)} + ${w(q)})`, share, firstCore(c), loopWords(c));
  }

  // --- by capacitance ------------------------------------------------------------

  const evenFarads = "the cable has the same capacitance per length all along";
  const leadFarads = (c) => (c.lead === 0 ? "the lead's length is not given and was taken as none" : `the lead, ${far(c, c.lead)}, has the same capacitance per length as the heating cable`);

  function broken(c, now) {
    const method = "break, by capacitance against that at hand-over";
    forMethod(method, c, "nF", [now]);
    if (c.farads.value === 0) throw new Error(`${method}: needs the capacitance of the whole cable`);
    if (!c.return && now.value + now.error >= c.farads.value - c.farads.error) {
      throw new Error(`${method}: ${working(now.value)} nF is what the whole cable reads (${working(c.farads.value)} nF): at most one core is broken; read each core against the braid instead`);
    }
    const leads = c.return ? 2 * c.lead : c.lead;
    const words = [evenFarads, leadFarads(c), "the whole cable was read with the lead as long as it is now"];
    if (!c.return) words.push("both conductors were tied together for both readings, and both are broken at one place");
    const at = propagate((v) => (c.length + leads) * v[0] / v[1] - c.lead, now, c.farads);
    return stretch(c, method, `x = (L + leads) now / whole - lead = ${far(c, c.length + leads)} × ${working(now.value)} / ${working(c.farads.value)} - ${far(c, c.lead)}`, at, words);
  }

  function brokenBothWays(c, a, b) {
    const method = "break, by capacitance from both ends";
    forMethod(method, c, "nF", [a, b]);
    if (a.value + b.value === 0) throw new Error(`${method}: both readings are zero`);
    const loop = c.return ? c.length : 2 * c.length, words = [evenFarads, leadFarads(c)];
    if (!c.return) words.push("one core is broken; the other core, left free, adds something to both readings, so that the place is rougher than the meter");
    const share = propagateAlike((v) => ((loop + 2 * c.lead) * v[0] / (v[0] + v[1]) - c.lead) / loop, [0, 1], a, b);
    const s = onLoop(c, method, `share of the conductor from A = A / (A + B) = ${working(a.value)} / (${working(a.value)} + ${working(b.value)})`, share, 0.5, words);
    if (s.core === eitherCoreWords) {
      s.cautions.unshift("the cores read alike: either the break is at the far end, or both cores are cut at one place, which this method does not find; tie them together and compare with the hand-over reading");
    }
    return s;
  }

  // --- by an echo ------------------------------------------------------------------

  const lightSpeed = 299.792458, velocityError = 0.03, lossyBeyond = 30000;
  const typedVelocity = (value) => ({ value, error: velocityError, gain: 0 });

  function echo(c, method, formula, factor, reading, scale) {
    forMethod(method, c, "", []);
    if (!(factor.value > 0 && factor.value <= 1 && factor.error >= 0 && factor.error < Infinity)) {
      throw new Error(`${method}: the velocity factor is ${general(factor.value)} ± ${general(factor.error)}; it lies between 0 and 1`);
    }
    const at = propagate((v) => v[0] * v[1] * scale - c.lead, factor, reading);
    const s = stretch(c, method, formula, at, ["the pulse runs in the lead as fast as in the heating cable",
      "the velocity factor is the one given; it differs with the insulation and with moisture"]);
    if (s.to + c.lead > lossyBeyond) s.cautions.unshift(`a heating cable loses much of a pulse: an echo from beyond ${far(c, lossyBeyond)} or so is doubtful`);
    return s;
  }

  function read(method, m, name, unit) {
    try {
      checkFigure(m, name, unit);
    } catch (e) {
      throw new Error(`${method}: ${e.message}`);
    }
  }

  function echoTime(c, t, factor) {
    const method = "echo of a pulse, by its time";
    read(method, t, "the echo's time", "ns");
    return echo(c, method, `x = factor × c × t / 2 - lead = ${working(factor.value)} × ${far(c, lightSpeed)}/ns × ${working(t.value)} ns / 2 - ${far(c, c.lead)}`, factor, t, lightSpeed / 2);
  }

  function echoDistance(c, shown, set, factor) {
    const method = "echo of a pulse, by the distance shown";
    read(method, shown, "the distance shown", "mm");
    if (!(set > 0 && set <= 1)) throw new Error(`${method}: the velocity factor set is ${general(set)}; it lies between 0 and 1`);
    return echo(c, method, `x = shown × factor / set - lead = ${far(c, shown.value)} × ${working(factor.value)} / ${working(set)} - ${far(c, c.lead)}`, factor, shown, 1 / set);
  }

  // --- several methods ---------------------------------------------------------------

  const union = (a, b) => [...new Set([...a, ...b])];

  // meet keeps the place of the sharper of two stretches that have a part in common.
  function meet(s, o) {
    const [sharp, other] = o.to - o.from < s.to - s.from ? [o, s] : [s, o], none = (m) => m.value === 0 && m.error === 0;
    const from = Math.max(s.from, o.from), to = Math.min(s.to, o.to);
    return { method: `${s.method}; and ${o.method}`, formula: `${s.formula}; ${o.formula}`, from, to, best: Math.max(from, Math.min(to, sharp.best)),
      core: sharp.core || other.core, faultOhms: none(sharp.faultOhms) ? other.faultOhms : sharp.faultOhms,
      assumptions: union(s.assumptions, o.assumptions), cautions: union(s.cautions, o.cautions) };
  }

  // meetAll returns where a fault must lie by several methods at once.
  function meetAll(c, found) {
    return found.reduce((out, s) => {
      if (s.from > out.to || s.to < out.from) {
        throw new Error(`${out.method} puts the fault between ${rounded(c, out.from)} and ${rounded(c, out.to)}, ${s.method} between ${rounded(c, s.from)} and ${rounded(c, s.to)}: ` +
          "both cannot be true of one fault; look at the readings, or for a second fault");
      }
      return meet(out, s);
    });
  }

  return { exact, meterReading, typedVelocity, warmed, fixed, percent, digits, rounded, short, earth, murray, varley, broken, brokenBothWays, echoTime, echoDistance, meetAll };
})();
