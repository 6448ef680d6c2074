// What package record makes of readings, step by step: the same formulas, errors and words. A
// figure is { value, error, gain }, as its Measured; a cable as table.go writes it, with what
// was typed in place of what was known. A test in a browser holds the two together.
const record = (() => {
  const foot = 304.8, metre = 1000;

  // --- figures in words, as package say writes them ----------------------

  // fixed rounds a figure that lies half-way to the even one.
  const fixed = (v, places) => inFigures(toEven(v, places));

  function toEven(v, places) {
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

  const working = (v) => inFigures(plain(Number(v.toPrecision(7))));
  const exponent = (s) => s.replace(/e([+-])(\d)$/, "e$10$2");

  function general(v) {
    const e = Math.floor(Math.log10(Math.abs(v)));
    return inFigures(v !== 0 && Number.isFinite(v) && (e < -4 || e >= 21) ? exponent(v.toExponential()) : String(v));
  }

  function digits(v, n) {
    if (Math.abs(v) >= 10 ** n - 0.5) return fixed(v, 0);
    return inFigures(v !== 0 && Math.abs(v) < 1e-4 ? exponent(Number(v.toPrecision(n)).toExponential()) : String(Number(v.toPrecision(n))));
  }

  const percent = (share) => `${fixed(100 * share, 0)} %`;
  const percentGiven = (share) => `${inFigures(plain(Math.round(100 * share * 100) / 100))} %`;
  const far = (c, mm) => (c.feet ? `${working(mm / foot)} ft` : `${working(mm / metre)} m`);
  const rounded = (c, mm) => (c.feet ? `${fixed(mm / foot, 1)} ft` : `${fixed(mm / metre, 2)} m`);

  // --- measured figures ------------------------------------------------------

  const exact = (value) => ({ value, error: 0, gain: 0 });

  // lacking is an error about a figure of the whole cable that is not there.
  const lacking = (words) => Object.assign(new Error(words), { lacking: true });

  function meterReading(value, share, steps, step) {
    const gain = Math.abs(value) * share;
    return { value, error: gain + steps * step, gain };
  }

  function checkFigure(m, name, unit) {
    if (!(m.value >= 0) || m.value === Infinity) throw new Error(say("%s is %s %s; that is not a reading", name, general(m.value), unit));
    if (!(m.error >= 0) || m.error === Infinity) {
      throw new Error(say("the error of %s is %s %s; give it as the meter's manual states it, not below zero", name, general(m.error), unit));
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
    say("isolate the circuit and prove it dead first; disconnect thermostat and sensor before any test"),
    say("confirm the place by a second method (tracing tone, listening, heat) before a tile is lifted"),
    say("the place is a stretch of cable, not a point; neighbouring runs may lie under the same tile"),
    say("do not re-energise a circuit that has tripped or failed a test"),
    say("repair only as the cable's instructions allow"),
  ];
  const roughShare = 0.25;
  const firstCoreWords = say("the core read as A"), returnCoreWords = say("the return core, read as B"), eitherCoreWords = say("either core, near the far end");

  function checkCable(c) {
    if (!(c.length > 0) || c.length === Infinity) throw new Error(say("the cable's length is %s mm; it must be above zero", general(c.length)));
    if (!(c.lead >= 0) || c.lead === Infinity) throw new Error(say("the lead's length is %s mm; it cannot be below zero", general(c.lead)));
    if (!(c.coreShare >= 0 && c.coreShare < 1)) throw new Error(say("the first core's share of the ohms is %s; it lies between 0 and 1", general(c.coreShare)));
    checkFigure(c.ohms, say("the whole cable's ohms"), "Ω");
    checkFigure(c.leadOhms, say("the leads' ohms"), "Ω");
    checkFigure(c.farads, say("the whole cable's capacitance"), "nF");
  }

  // forMethod checks the cable and the readings of a method.
  function forMethod(method, c, unit, readings) {
    try {
      checkCable(c);
      for (const r of readings) checkFigure(r, say("a reading"), unit);
    } catch (e) {
      throw new Error(say("%s: %s", method, e.message));
    }
  }

  function elsewhere(c, method, inLead, off) {
    return new Error(inLead ? say("%s: the fault lies off the heating cable, in a cold lead or its joint", method)
      : say("%s: the reading puts the fault %s beyond the end of the cable; check the reading, the lead taken off and the cable's figures", method, rounded(c, off)));
  }

  const clamp = (c, mm) => Math.max(0, Math.min(c.length, mm));

  // finish adds what is said of every stretch.
  function finish(c, s, lead) {
    s.assumptions.push(say("there is one fault"));
    if (lead) s.cautions.push(say("the fault may also lie in a cold lead or its joint"));
    if (s.to - s.from > roughShare * c.length) {
      s.cautions.push(say("the stretch is %s of the cable: too long to act on; read again with a finer instrument or by another method", percent((s.to - s.from) / c.length)));
    }
    s.cautions.push(...cautions);
    return s;
  }

  const begun = (method, formula, assumptions) => ({ method, formula, core: "", faultOhms: exact(0), assumptions: assumptions.slice(), cautions: [] });

  // stretch bounds a distance from the start of heat by the cable's ends.
  function stretch(c, method, formula, at, assumptions) {
    const rounding = 1e-6, from = at.value - at.error, to = at.value + at.error;
    if (Number.isNaN(from) || Number.isNaN(to)) throw new Error(say("%s: the readings do not give a place", method));
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
    if (Number.isNaN(low) || Number.isNaN(high)) throw new Error(say("%s: the readings do not give a place", method));
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

  const evenOhms = say("the conductor has the same ohms per length all along");
  const above = (a, b) => a.value - a.error > b.value + b.error;
  const firstCore = (c) => (c.coreShare === 0 ? 0.5 : c.coreShare);
  const leadWords = (c) => (c.leadOhms.value === 0 ? say("the leads' ohms are not given and were taken as none") : say("%s Ω taken off for the leads, there and back", working(c.leadOhms.value)));

  // warmed returns the cable with its ohms as they are when it is so many kelvin warmer.
  function warmed(c, kelvin, perKelvin) {
    const by = 1 + perKelvin * kelvin, o = c.ohms;
    return { ...c, ohms: { value: o.value * by, error: o.error * by, gain: o.gain * by },
      warmed: say("the whole cable's ohms are brought to now, %s K warmer, by the coefficient given, %s per K; the leads' are not", working(kelvin), working(perKelvin)) };
  }

  function short(c, now) {
    const method = say("short between cores, by loop ohms");
    forMethod(method, c, "Ω", [now]);
    if (c.return) throw new Error(say("%s: a single-conductor cable has no second core; read each end to the braid", method));
    if (!above(c.ohms, c.leadOhms)) throw lacking(say("%s: needs the ohms of the whole cable, above those of its leads", method));
    const at = propagate((v) => (v[0] - v[2]) / (v[1] - v[2]) * c.length, now, c.ohms, c.leadOhms);
    const lead = working(c.leadOhms.value);
    return stretch(c, method, say("x = L (now - lead) / (whole - lead) = %s × (%s - %s) / (%s - %s)", far(c, c.length), working(now.value), lead, working(c.ohms.value), lead), at,
      [evenOhms, leadWords(c), say("the short itself has no ohms; if it has some the fault lies nearer the start of heat"), c.warmed || say("the cable is as warm as when it was read whole")]);
  }

  function loopWords(c) {
    if (c.return) return [evenOhms, leadWords(c), say("end A is at the start of heat; both leads are alike")];
    if (c.coreShare === 0) {
      return [evenOhms, leadWords(c), say("both cores have the same ohms per length; if the return core differs, give the first core's share, for the place moves with it")];
    }
    return [evenOhms, leadWords(c), say("the first core has %s of the ohms, as given", percentGiven(c.coreShare))];
  }

  // loopShare takes the leads off the ohms from end A to the fault.
  function loopShare(method, c, ab, fromA, ...readings) {
    if (!above(ab, c.leadOhms)) throw lacking(say("%s: needs the loop's ohms, above those of the leads", method));
    const last = readings.length + 1;
    return propagateAlike((v) => (fromA(v) - v[last] / 2) / (v[0] - v[last]), [1, 2], ab, ...readings, c.leadOhms);
  }

  function earth(c, ab, a, b) {
    const method = say("fault to the braid, by loop and two braid readings"), half = (v) => (v[0] + v[1] - v[2]) / 2;
    forMethod(method, c, "Ω", [ab, a, b]);
    const share = loopShare(method, c, ab, half, a, b);
    const s = onLoop(c, method, say("ohms from A = (AB + A - B) / 2 = (%s + %s - %s) / 2, of %s", working(ab.value), working(a.value), working(b.value), working(ab.value)), share, firstCore(c), loopWords(c));
    s.assumptions.push(say("both braid readings are by one meter on one range, so that its error in proportion moves both alike"));
    s.faultOhms = propagateAlike((v) => Math.max(0, half(v)), [0, 1], a, b, ab);
    const apart = 0.05, off = Math.abs(ab.value - c.ohms.value) - ab.error - c.ohms.error;
    if (c.ohms.value > 0 && off > apart * c.ohms.value) {
      s.cautions.unshift(say("the loop reads %s Ω, %s Ω when whole: there may be a second fault, or the cable is at another temperature", working(ab.value), working(c.ohms.value)));
    }
    return s;
  }

  function murray(c, p, q, loop) {
    const method = say("fault to the braid, by Murray's bridge");
    const ab = loop.value === 0 ? { ...c.ohms } : loop;
    forMethod(method, c, "Ω", [ab, p, q]);
    if (p.value + q.value === 0) throw new Error(say("%s: both arms are zero", method));
    if (ab.value === 0 && c.leadOhms.value === 0) ab.value = 1; // nothing to take off: the ratio alone gives the place
    const share = loopShare(method, c, ab, (v) => v[0] * v[2] / (v[1] + v[2]), p, q);
    return onLoop(c, method, say("share of the loop from A = Q / (P + Q) = %s / (%s + %s)", working(q.value), working(p.value), working(q.value)), share, firstCore(c), loopWords(c));
  }

  function varley(c, p, q, s, loop) {
    const method = say("fault to the braid, by Varley's bridge"), ab = loop.value === 0 ? c.ohms : loop, w = (m) => working(m.value);
    forMethod(method, c, "Ω", [ab, p, q, s]);
    if (p.value + q.value === 0) throw new Error(say("%s: both arms are zero", method));
    const share = loopShare(method, c, ab, (v) => (v[2] * v[0] - v[1] * v[3]) / (v[1] + v[2]), p, q, s);
    return onLoop(c, method, say("ohms from A = (Q AB - P S) / (P + Q) = (%s × %s - %s × %s) / (%s + %s)", w(q), w(ab), w(p), w(s), w(p), w(q)), share, firstCore(c), loopWords(c));
  }

  // --- by capacitance ------------------------------------------------------------

  const evenFarads = say("the cable has the same capacitance per length all along");
  const leadFarads = (c) => (c.lead === 0 ? say("the lead's length is not given and was taken as none") : say("the lead, %s, has the same capacitance per length as the heating cable", far(c, c.lead)));

  function broken(c, now) {
    const method = say("break, by capacitance against that at hand-over");
    forMethod(method, c, "nF", [now]);
    if (c.farads.value === 0) throw lacking(say("%s: needs the capacitance of the whole cable", method));
    if (!c.return && now.value + now.error >= c.farads.value - c.farads.error) {
      throw new Error(say("%s: %s nF is what the whole cable reads (%s nF): at most one core is broken; read each core against the braid instead", method, working(now.value), working(c.farads.value)));
    }
    const leads = c.return ? 2 * c.lead : c.lead;
    const words = [evenFarads, leadFarads(c), say("the whole cable was read with the lead as long as it is now")];
    if (!c.return) words.push(say("both conductors were tied together for both readings, and both are broken at one place"));
    const at = propagate((v) => (c.length + leads) * v[0] / v[1] - c.lead, now, c.farads);
    return stretch(c, method, say("x = (L + leads) now / whole - lead = %s × %s / %s - %s", far(c, c.length + leads), working(now.value), working(c.farads.value), far(c, c.lead)), at, words);
  }

  function brokenBothWays(c, a, b) {
    const method = say("break, by capacitance from both ends");
    forMethod(method, c, "nF", [a, b]);
    if (a.value + b.value === 0) throw new Error(say("%s: both readings are zero", method));
    const loop = c.return ? c.length : 2 * c.length, words = [evenFarads, leadFarads(c)];
    if (!c.return) words.push(say("one core is broken; the other core, left free, adds something to both readings, so that the place is rougher than the meter"));
    const share = propagateAlike((v) => ((loop + 2 * c.lead) * v[0] / (v[0] + v[1]) - c.lead) / loop, [0, 1], a, b);
    const s = onLoop(c, method, say("share of the conductor from A = A / (A + B) = %s / (%s + %s)", working(a.value), working(a.value), working(b.value)), share, 0.5, words);
    if (s.core === eitherCoreWords) {
      s.cautions.unshift(say("the cores read alike: either the break is at the far end, or both cores are cut at one place, which this method does not find; tie them together and compare with the hand-over reading"));
    }
    return s;
  }

  // --- by an echo ------------------------------------------------------------------

  const lightSpeed = 299.792458, velocityError = 0.03, lossyBeyond = 30000;
  const typedVelocity = (value) => ({ value, error: velocityError, gain: 0 });

  function echo(c, method, formula, factor, reading, scale) {
    forMethod(method, c, "", []);
    if (!(factor.value > 0 && factor.value <= 1 && factor.error >= 0 && factor.error < Infinity)) {
      throw new Error(say("%s: the velocity factor is %s ± %s; it lies between 0 and 1", method, general(factor.value), general(factor.error)));
    }
    const at = propagate((v) => v[0] * v[1] * scale - c.lead, factor, reading);
    const s = stretch(c, method, formula, at, [say("the pulse runs in the lead as fast as in the heating cable"),
      say("the velocity factor is the one given; it differs with the insulation and with moisture")]);
    if (s.to + c.lead > lossyBeyond) s.cautions.unshift(say("a heating cable loses much of a pulse: an echo from beyond %s or so is doubtful", far(c, lossyBeyond)));
    return s;
  }

  function read(method, m, name, unit) {
    try {
      checkFigure(m, name, unit);
    } catch (e) {
      throw new Error(say("%s: %s", method, e.message));
    }
  }

  function echoTime(c, t, factor) {
    const method = say("echo of a pulse, by its time");
    read(method, t, say("the echo's time"), "ns");
    return echo(c, method, say("x = factor × c × t / 2 - lead = %s × %s/ns × %s ns / 2 - %s", working(factor.value), far(c, lightSpeed), working(t.value), far(c, c.lead)), factor, t, lightSpeed / 2);
  }

  function echoDistance(c, shown, set, factor) {
    const method = say("echo of a pulse, by the distance shown");
    read(method, shown, say("the distance shown"), "mm");
    if (!(set > 0 && set <= 1)) throw new Error(say("%s: the velocity factor set is %s; it lies between 0 and 1", method, general(set)));
    return echo(c, method, say("x = shown × factor / set - lead = %s × %s / %s - %s", far(c, shown.value), working(factor.value), working(set), far(c, c.lead)), factor, shown, 1 / set);
  }

  // --- several methods ---------------------------------------------------------------

  const union = (a, b) => [...new Set([...a, ...b])];

  // meet keeps the place of the sharper of two stretches that have a part in common.
  function meet(s, o) {
    const [sharp, other] = o.to - o.from < s.to - s.from ? [o, s] : [s, o], none = (m) => m.value === 0 && m.error === 0;
    const from = Math.max(s.from, o.from), to = Math.min(s.to, o.to);
    return { method: say("%s; and %s", s.method, o.method), formula: `${s.formula}; ${o.formula}`, from, to, best: Math.max(from, Math.min(to, sharp.best)),
      core: sharp.core || other.core, faultOhms: none(sharp.faultOhms) ? other.faultOhms : sharp.faultOhms,
      assumptions: union(s.assumptions, o.assumptions), cautions: union(s.cautions, o.cautions) };
  }

  // meetAll returns where a fault must lie by several methods at once.
  function meetAll(c, found) {
    return found.reduce((out, s) => {
      if (s.from > out.to || s.to < out.from) {
        throw new Error(say("%s puts the fault between %s and %s, %s between %s and %s: both cannot be true of one fault; look at the readings, or for a second fault",
          out.method, rounded(c, out.from), rounded(c, out.to), s.method, rounded(c, s.from), rounded(c, s.to)));
      }
      return meet(out, s);
    });
  }

  return { exact, lacking, meterReading, typedVelocity, warmed, fixed, percent, digits, rounded, short, earth, murray, varley, broken, brokenBothWays, echoTime, echoDistance, meetAll };
})();
