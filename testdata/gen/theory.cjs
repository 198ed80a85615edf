// Writes the outside tables that the tests of theory and theory/fret check against. Run it in an empty folder:
//
//   npm install @tonaljs/chord-type@5.2.0 @tonaljs/interval@5.1.0 @tombatossals/chords-db@0.5.1
//   node REPOSITORY/testdata/gen/theory.cjs REPOSITORY/testdata/theory
"use strict";
const fs = require("fs");
const path = require("path");
const { createRequire } = require("module");

const out = process.argv[2];
const from = createRequire(path.resolve("node_modules") + path.sep);

// Some of the packages name a main file that they do not ship; the one they ship ends in .cjs.
const Module = require("module");
const resolve = Module._resolveFilename;
Module._resolveFilename = function (request, ...rest) {
  try {
    return resolve.call(this, request, ...rest);
  } catch {
    return resolve.call(this, request + "/dist/index.cjs", ...rest);
  }
};

function load(name) {
  const m = from(name);
  return m.default ?? m;
}

function write(file, source, columns, rows) {
  const head = [`# ${source}`, "# Made by testdata/gen/theory.cjs.", `# ${columns.join("\t")}`];
  fs.writeFileSync(path.join(out, file), head.concat(rows.map((r) => r.join("\t"))).join("\n") + "\n");
}

const interval = load("@tonaljs/interval");
const names = [];
for (let number = 1; number <= 15; number++) {
  const perfect = [1, 4, 5].includes(((number - 1) % 7) + 1);
  for (const quality of perfect ? ["dd", "d", "P", "A", "AA"] : ["dd", "d", "m", "M", "A", "AA"]) {
    const i = interval.get(number + quality);
    if (!i.empty && i.semitones >= 0) names.push([quality + number, i.semitones, i.simple > 0 ? interval.simplify(i.name) : ""]);
  }
}
write("intervals.tsv", "npm @tonaljs/interval 5.1.0 (MIT)", ["quality and number", "semitones", "simplified"], names);

const types = load("@tonaljs/chord-type").all();
write("chord-types.tsv", "npm @tonaljs/chord-type 5.2.0 (MIT)", ["tones, number first", "aliases, between bars", "name"],
  types.map((t) => [t.intervals.join(" "), t.aliases.join("|"), t.name]));

const ukulele = from("@tombatossals/chords-db/lib/ukulele.json");
const shapes = [];
for (const chords of Object.values(ukulele.chords)) {
  for (const { key, suffix, positions } of chords) {
    positions.forEach((p, n) => {
      const frets = p.frets.map((f) => (f > 0 ? f + p.baseFret - 1 : f));
      shapes.push([key, suffix, n + 1, frets.join(","), p.midi.join(","), p.fingers.join(",")]);
    });
  }
}
write("ukulele-shapes.tsv", "npm @tombatossals/chords-db 0.5.1 (MIT), lib/ukulele.json",
  ["root", "suffix", "position", "frets on g C E A", "MIDI numbers", "fingers"], shapes);
